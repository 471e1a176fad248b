#include "tools/evet/progress.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

namespace evet {
namespace {

std::string drawn(bool terminal) {
  std::ostringstream out, err;
  Console console{out, err, terminal, terminal, false, system_env()};
  {
    Progress bar(console, "examining photos");
    bar.show(0, 0);
    bar.show(3, 6);
    bar.show(6, 6);
  }
  EXPECT_EQ(out.str(), "");
  return err.str();
}

TEST(Progress, IsDrawnOnATerminalAndTakenAwayAtTheEnd) {
  const std::string text = drawn(true);
  EXPECT_THAT(text, testing::HasSubstr("examining photos [============            ] 3/6"));
  EXPECT_THAT(text, testing::HasSubstr("6/6"));
  EXPECT_TRUE(text.ends_with("\r\x1b[K"));
}

TEST(Progress, SaysNothingElsewhere) {
  EXPECT_EQ(drawn(false), "");
}

}  // namespace
}  // namespace evet
