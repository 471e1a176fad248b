#include "tools/words/near_places.h"

#include <gtest/gtest.h>

namespace evet {
namespace {

TEST(NearPlaces, FindsASlipOfTheKeyAndNothingElse) {
  const std::set<SiteAndPond> known{{"Wetherlow Common", "north pond"}, {"Alder Fen", "pond 1"}};
  const auto one = near_places({{"Wetherlow Comon", "north pond"}}, known);
  ASSERT_EQ(one.size(), 1u);
  EXPECT_EQ(one[0].known, "Wetherlow Common");
  EXPECT_EQ(one[0].message().words(),
            "site 'Wetherlow Comon' is new here, and spelt nearly as 'Wetherlow Common'");
  EXPECT_EQ(near_places({{"wetherlow-common", ""}}, known).size(), 1u) << "case and hyphens";
  const auto pond = near_places({{"Wetherlow Common", "nroth pond"}}, known);
  ASSERT_EQ(pond.size(), 1u);
  EXPECT_EQ(pond[0].site, "Wetherlow Common");

  EXPECT_TRUE(near_places({{"Wetherlow Common", "south pond"}}, known).empty()) << "another word";
  EXPECT_TRUE(near_places({{"Alder Fen", "pond 2"}}, known).empty()) << "another number";
  EXPECT_TRUE(near_places({{"Hill Pond", ""}}, {{"Mill Pond", ""}}).empty()) << "a short word";
  EXPECT_TRUE(near_places({{"Wetherlow Common", "pond B"}}, {{"Wetherlow Common", "pond A"}}).empty());
  EXPECT_TRUE(near_places({{"Reed Hollow", "north pond"}}, known).empty()) << "a new site";
  EXPECT_TRUE(near_places({{"Alder Fen", "pond 1"}}, known).empty()) << "known as it is";
  EXPECT_TRUE(near_places({{"Wetherlow Comon", ""}}, {}).empty()) << "nothing is known yet";
}

}  // namespace
}  // namespace evet
