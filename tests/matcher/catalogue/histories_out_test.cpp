#include "matcher/catalogue/histories_out.h"

#include <gtest/gtest.h>

#include "tests/matcher/catalogue/try_out.h"

namespace evet {
namespace {

using namespace try_out;

// Two animals over three nights; one capture that nobody has settled.
Identities three_nights(Catalogue& catalogue) {
  std::vector<Body> bodies;
  const auto catch_one = [&](const std::string& night, const std::string& name, const std::string& who) {
    const CaptureId id = catalogue.new_capture_id();
    bodies.push_back(Capture{id, facts(night, name, who)});
    return id;
  };
  catch_one("2031-05-01", "a", "N1");
  catch_one("2031-05-01", "b", "N2");
  catch_one("2031-05-03", "c", "N1");
  catch_one("2031-05-03", "again the same night", "N1");
  catch_one("2031-05-09", "d", "N2");
  catch_one("2031-05-09", "nobody yet", "");
  catalogue.append(person("R1"), bodies);
  return catalogue.identities();
}

TEST(HistoriesOut, RowsAreAnimalsAndColumnsNights) {
  const Folder folder;
  Catalogue catalogue = Catalogue::create(folder.path / "pond", "P", person("R1"), system_env());
  const HistoriesMade made = histories_of(three_nights(catalogue));
  const models::CaptureHistories& h = made.histories;
  EXPECT_NO_THROW(h.check());
  EXPECT_EQ(h.dates, (std::vector<std::string>{"2031-05-01", "2031-05-03", "2031-05-09"}));
  EXPECT_EQ(h.animals, (std::vector<std::string>{"N1", "N2"}));
  EXPECT_EQ(h.caught, (std::vector<std::uint8_t>{1, 1, 0, 1, 0, 1}));
  EXPECT_EQ(h.groups.at("sex"), (std::vector<std::string>{"female", "female"}));
  EXPECT_EQ(h.covariates.at("svl_mm").at(0), 71.5);
  EXPECT_EQ(made.captures, 6u);
  EXPECT_EQ(made.unsettled, 1u);
  EXPECT_FALSE(h.occasion_covariates.contains("effort"));
}

TEST(HistoriesOut, NightsWithoutACaptureCountWhenTheyAreNamed) {
  const Folder folder;
  Catalogue catalogue = Catalogue::create(folder.path / "pond", "P", person("R1"), system_env());
  HistoriesRequest request;
  request.worked = {{"2031-05-01", 20}, {"2031-05-03", 24}, {"2031-05-06", 24}, {"2031-05-09", 20}};
  const Identities who = three_nights(catalogue);
  HistoriesMade made = histories_of(who, request);
  EXPECT_EQ(made.histories.occasion_count(), 4u);
  EXPECT_EQ(made.histories.occasion_covariates.at("effort"), (std::vector<double>{20, 24, 24, 20}));
  EXPECT_FALSE(made.histories.was_caught(0, 2) || made.histories.was_caught(1, 2));
  request.to = "2031-05-03";
  made = histories_of(who, request);
  EXPECT_EQ(made.histories.occasion_count(), 2u);
  EXPECT_EQ(made.captures, 4u);
  request.worked.pop_back();
  request.site = "another";
  EXPECT_EQ(histories_of(who, request).histories.animal_count(), 0u);
}

}  // namespace
}  // namespace evet
