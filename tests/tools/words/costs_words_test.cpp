#include "tools/words/costs_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"

namespace evet {
namespace {

TEST(CostsFromWords, UnderstandsHowPeopleSayIt) {
  EXPECT_EQ(costs_from_words("a wrong join is ten times worse than a missed one"), (Costs{10, 0.05}));
  EXPECT_EQ(costs_from_words("A wrong join is 100 times as bad as a missed one, a look costs a fiftieth."),
            (Costs{100, 0.02}));
  EXPECT_EQ(costs_from_words("wrong join 5; look 1/4"), (Costs{5, 0.25}));
  EXPECT_EQ(costs_from_words("a look costs nothing and a wrong join twice as much"), (Costs{2, 0}));
}

TEST(CostsFromWords, LeavesWhatIsNotNamed) {
  EXPECT_EQ(costs_from_words("look 0.1", {30, 0.5}), (Costs{30, 0.1}));
}

TEST(CostsFromWords, NamesTheClauseThatItDoesNotUnderstand) {
  const auto said = [](const std::string& text) -> std::string {
    try {
      costs_from_words(text);
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::usage);
      return error.what();
    }
    return "understood";
  };
  EXPECT_THAT(said(""), testing::HasSubstr("it says nothing"));
  EXPECT_THAT(said("wrong join 10, missed 3"), testing::HasSubstr("'missed 3'"));
  EXPECT_THAT(said("a wrong join is bad"), testing::HasSubstr("it has no amount"));
  EXPECT_THAT(said("wrong join 10 or 20"), testing::HasSubstr("two amounts"));
  EXPECT_THAT(said("wrong join 0"), testing::HasSubstr("must cost something"));
  EXPECT_THAT(said("look -1"), testing::HasSubstr("below nothing"));
  EXPECT_THAT(said("wrong join 1/0"), testing::HasSubstr("no amount"));
  EXPECT_THAT(said("wrong join nan"), testing::HasSubstr("no amount"));
}

TEST(CostsInWords, ReadBackAsTheyAre) {
  const Costs costs{25, 0.02};
  EXPECT_EQ(costs_from_words(in_words(costs)), costs);
}

}  // namespace
}  // namespace evet
