#include "matcher/base/onnx_net.h"

#include <gtest/gtest.h>

#include "matcher/base/error.h"

namespace evet {
namespace {

TEST(OnnxNet, RefusesBytesThatAreNoNetworkByItsName) {
  const std::vector<std::byte> noise(100, std::byte{7});
  try {
    OnnxNet(noise, "spot network");
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::unsupported);
    EXPECT_EQ(error.item(), "spot network");
  }
}

}  // namespace
}  // namespace evet
