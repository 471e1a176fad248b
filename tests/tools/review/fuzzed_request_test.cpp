// What the fuzzer of the routes has found worth keeping, asked again: tests/data/review_requests.
#include "tests/tools/review/fuzzed_request.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

namespace evet {
namespace {

TEST(FuzzedRequests, AreAllAnsweredFitly) {
  try_out::FuzzedPage page;
  int asked = 0, taken = 0;
  for (const auto& file : std::filesystem::directory_iterator(EVET_TEST_DATA "/review_requests")) {
    std::ifstream in(file.path(), std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    const review::Response response = page.answer(bytes);
    EXPECT_TRUE(page.fit(response)) << file.path() << ": " << response.status << " " << response.body;
    ++asked, taken += response.status == 200 ? 1 : 0;
  }
  EXPECT_GE(asked, 40);
  EXPECT_GE(taken, 10) << "some of them get as far as the views";
}

}  // namespace
}  // namespace evet
