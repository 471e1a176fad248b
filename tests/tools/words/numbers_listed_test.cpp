#include "tools/words/numbers_listed.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"

namespace evet {
namespace {

TEST(NumbersListed, SinglesAndRanges) {
  EXPECT_THAT(numbers_listed("nights", "3"), testing::ElementsAre(3));
  EXPECT_THAT(numbers_listed("nights", "3-5, 8 ,12"), testing::ElementsAre(3, 4, 5, 8, 12));
}

TEST(NumbersListed, WhatIsNoneIsNamed) {
  for (const char* text : {"", "many", "5-3", "0", "-2", "3-4-5", "1-900", "3,,4", "2.5"}) {
    try {
      numbers_listed("nights", text);
      ADD_FAILURE() << text << " was taken";
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::usage);
      EXPECT_THAT(error.what(), testing::HasSubstr("nights: ")) << text;
      EXPECT_THAT(error.what(), testing::HasSubstr("write it as 3-8 or as 3,5,8")) << text;
    }
  }
}

}  // namespace
}  // namespace evet
