#include "tools/evet/histories_wanted.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"

namespace evet {
namespace {

TEST(NightsWorked, AreReadWithEitherSeparatorAndAMark) {
  const auto nights =
      read_nights_worked("\xEF\xBB\xBFnight;effort\r\n2031-05-01;20\r\n2031-05-03;0\r\n", "n.csv");
  ASSERT_EQ(nights.size(), 2u);
  EXPECT_EQ(nights.at("2031-05-01"), 20);
  EXPECT_EQ(nights.at("2031-05-03"), 0);
}

TEST(NightsWorked, EachWrongLineIsNamed) {
  for (const auto& [text, says] : {std::pair{"night\n2031-05-01\n", "the column effort is missing"},
                                   {"night,effort\n2031-02-30,1\n", "line 2"},
                                   {"night,effort\n2031-05-01,-1\n", "effort '-1'"},
                                   {"night,effort\n2031-05-01,1\n2031-05-01,2\n", "there twice"},
                                   {"night,effort\n\"2031", "line 2"}}) {
    try {
      read_nights_worked(text, "n.csv");
      FAIL() << text;
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::bad_input);
      EXPECT_THAT(error.what(), testing::HasSubstr(says));
    }
  }
}

}  // namespace
}  // namespace evet
