// A draft is held to the rules that the command goes by, and what it becomes is what the command would make of
// the same sheet and photos.
#include "tools/intake/draft_check.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/tools/evet/try_evet.h"
#include "tools/intake/draft_folder.h"
#include "tools/intake/intake_night.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
using namespace try_out;
using testing::HasSubstr;

constexpr const char* kToday = "2026-01-15";

struct AnEvening : testing::Test {
  Pond pond{true};
  DraftFolder folder{pond.path, system_env()};
  Catalogue catalogue = Catalogue::open(pond.path, system_env());

  void arrive(const std::string& sample, const std::string& time) {
    const Bytes bytes = system_env().read_file(night_folder() / "photos" / sample);
    folder.add(bytes, sample, {look_at_photo(bytes, sample).id, time});
  }
  void SetUp() override {
    arrive("A0000-1.jpg", "2024-05-14T22:41:00");
    arrive("A0001-1.jpg", "2024-05-14T22:43:00");
    arrive("tray.jpg", "2024-05-15T00:30:00");
  }
  Proposed proposed() { return proposed_for(folder.draft(), catalogue, "TR", kToday); }
  DraftCheck check() { return check_draft(folder.draft(), proposed(), catalogue, system_env()); }
  std::string key(std::size_t i) const { return folder.draft().captures[i].key; }
  void write_in(const std::string& capture, const std::string& column, const std::string& text) {
    folder.change([&](Draft& draft) { write_cell(draft, capture, column, text); });
  }
};

TEST_F(AnEvening, ProposesLastNightsPlaceAndTheNightOfTheCamera) {
  const Proposed said = proposed();
  EXPECT_EQ(said.common.at("site"), "Alder Fen");
  EXPECT_EQ(said.common.at("pond"), "north");
  EXPECT_EQ(said.common.at("licence"), "L-7");
  EXPECT_EQ(said.common.at("observer"), "TR");
  EXPECT_EQ(said.common.at("night"), "2024-05-14");
  EXPECT_EQ(label_of(folder.draft(), said, key(2)), "c3");
  EXPECT_TRUE(check().faults.empty()) << check().faults[0].sentence;
  EXPECT_EQ(check().captures, 3u);
  EXPECT_EQ(check().photos_known, 0u);
}

TEST_F(AnEvening, APlaceSpeltNearlyAsAKnownOneIsAskedAboutInItsCell) {
  write_in("", "site", "Aldre Fen");
  DraftCheck found = check();
  EXPECT_TRUE(found.faults.empty()) << "it may be right";
  ASSERT_EQ(found.asks.size(), 1u);
  EXPECT_EQ(found.asks[0].column, "site");
  EXPECT_EQ(found.asks[0].capture, "") << "written for the whole evening";
  EXPECT_THAT(found.asks[0].sentence, HasSubstr("'Aldre Fen' is new here, and spelt nearly as 'Alder Fen'"));
  write_in("", "site", "Alder Fen");
  write_in(key(1), "pond", "norht");
  found = check();
  ASSERT_EQ(found.asks.size(), 1u);
  EXPECT_EQ(found.asks[0].column, "pond");
  EXPECT_EQ(found.asks[0].capture, key(1));
  write_in(key(1), "pond", "south");
  EXPECT_TRUE(check().asks.empty()) << "another name is another pond";
}

TEST_F(AnEvening, NumbersGoOnWhereTheNightStands) {
  write_in("", "night", "2024-05-01");  // the first night has c1 to c3
  EXPECT_EQ(label_of(folder.draft(), proposed(), key(0)), "c4");
}

TEST_F(AnEvening, NamesTheCellThatIsWrong) {
  write_in(key(1), "sex", "fermale");
  write_in(key(0), "svl_mm", "7,2 cm");
  const DraftCheck said = check();
  ASSERT_EQ(said.faults.size(), 2u);
  EXPECT_EQ(said.faults[0].capture, key(0));
  EXPECT_EQ(said.faults[0].column, "svl_mm");
  EXPECT_EQ(said.faults[1].capture, key(1));
  EXPECT_EQ(said.faults[1].column, "sex");
  EXPECT_THAT(said.faults[1].sentence, HasSubstr("did you mean female?"));
}

TEST_F(AnEvening, OneFaultForTheWholeEveningIsToldOnce) {
  write_in("", "licence", "");
  const DraftCheck said = check();
  ASSERT_EQ(said.faults.size(), 1u);
  EXPECT_EQ(said.faults[0].capture, "");
  EXPECT_EQ(said.faults[0].column, "licence");
}

TEST_F(AnEvening, APictureThatTheCatalogueHasAtAnotherNightIsNamed) {
  arrive("A0002-0.jpg", "2024-05-14T23:00:00");  // of the first night
  const DraftCheck said = check();
  ASSERT_EQ(said.faults.size(), 1u);
  EXPECT_EQ(said.faults[0].photo, "A0002-0.jpg");
  EXPECT_THAT(said.faults[0].sentence, HasSubstr("in the catalogue already"));
}

TEST_F(AnEvening, SaysWhatTheCommandSays) {
  write_in(key(1), "sex", "fermale");
  write_in(key(2), "mass_g", "8000");
  write_in("", "night", "2031-02-30");
  const DraftSheet sheet = sheet_of(folder.draft(), proposed());
  const fs::path file = folder.write_sheet("evening.csv", sheet.csv);
  const Answered command =
      try_out::evet({"intake", pond.path, file.string(), folder.photos().string(), "--by", "KM", "--json"});
  EXPECT_EQ(command.exit, 3);
  const std::string said = command.json()["refused"].dump();
  for (const CellFault& fault : check().faults)
    EXPECT_THAT(said, HasSubstr(nlohmann::json(fault.sentence).dump().substr(1, 20))) << fault.sentence;
  EXPECT_EQ(check().faults.size(), 3u);
}

TEST_F(AnEvening, IsTakenInAsTheCommandTakesIt) {
  write_in(key(0), "notes", "-5 \"cm\" of tail, regrown; healed");
  write_in(key(0), "sex", "female");
  const fs::path file =
      folder.write_sheet(sheet_name(folder.draft(), proposed()), sheet_of(folder.draft(), proposed()).csv);
  EXPECT_EQ(file.filename(), "2024-05-14.csv");
  IntakeRequest request;
  request.sheet = file, request.photos = folder.photos(), request.actor = person("TR");
  const IntakeOutcome outcome = intake_night(catalogue, request, system_env());
  EXPECT_TRUE(outcome.taken);
  EXPECT_EQ(outcome.captures, 3u);
  EXPECT_TRUE(outcome.on_no_row.empty());
  folder.forget_taken(catalogue);
  EXPECT_TRUE(folder.draft().photos.empty());
  EXPECT_TRUE(folder.draft().captures.empty());
  EXPECT_TRUE(system_env().list_folder(folder.photos()).empty());
  const auto& captures = catalogue.identities().captures;
  const auto first = std::find_if(captures.begin(), captures.end(), [](const CaptureState& one) {
    return one.facts.night == "2024-05-14" && one.facts.name == "c1";
  });
  ASSERT_NE(first, captures.end());
  EXPECT_EQ(first->facts.notes, "-5 \"cm\" of tail, regrown; healed");
  EXPECT_EQ(first->facts.observer, "TR");

  // The same photos once more: the catalogue has them, and says so.
  SetUp();
  EXPECT_EQ(check().photos_known, 3u);
}

TEST_F(AnEvening, ANightWithoutACatch) {
  folder.change([&](Draft& draft) { leave_out(draft, {"A0000-1.jpg", "A0001-1.jpg", "tray.jpg"}, true); });
  folder.change([&](Draft& draft) { set_nothing_caught(draft, true); });
  write_in("", "night", "2024-05-20");
  EXPECT_TRUE(check().faults.empty()) << check().faults[0].sentence;
  const std::string csv = sheet_of(folder.draft(), proposed()).csv;
  EXPECT_THAT(csv, HasSubstr("\nnone,Alder Fen,north,2024-05-20,"));
}

// The night after one on which nothing was caught: its place, licence and observers are known from that one.
TEST_F(AnEvening, ProposesAsTheLastNightWasThoughNothingWasCaughtOnIt) {
  const std::string sheet = (pond.folder.path / "none.csv").string();
  write(sheet,
        "photo,site,pond,night,trap,licence,observer,method\n"
        "none,Alder Fen,south,2025-03-02,T1,L-9,ZB,bottle traps\n"
        "none,Alder Fen,south,2025-03-02,T2,L-9,OB,\n");
  const Answered taken = try_out::evet({"intake", pond.path, sheet, photos_folder(), "--by", "KM"});
  ASSERT_EQ(taken.exit, 0) << taken.err;
  const Proposed said = proposed_for(folder.draft(), catalogue, "", kToday);
  EXPECT_EQ(said.common.at("pond"), "south");
  EXPECT_EQ(said.common.at("licence"), "L-9");
  EXPECT_EQ(said.common.at("observer"), "ZB, OB");
  EXPECT_EQ(said.common.at("method"), "bottle traps");
}

TEST_F(AnEvening, ACaptureOfAnotherNightSaysSoItself) {
  arrive("A0002-0.jpg", "2024-05-19T22:00:00");
  const Proposed said = proposed();
  EXPECT_EQ(cell_of(folder.draft(), said, key(0), "night"), "2024-05-14");
  EXPECT_EQ(cell_of(folder.draft(), said, key(3), "night"), "2024-05-19");
  write_in("", "night", "2024-05-13");
  EXPECT_EQ(cell_of(folder.draft(), proposed(), key(3), "night"), "2024-05-13") << "a person's word counts";
}

}  // namespace
}  // namespace evet
