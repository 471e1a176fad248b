#include "matcher/catalogue/histories.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"
#include "tests/matcher/catalogue/hand_ledger.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

CatalogueHistories histories_of(const HandLedger& ledger, const HistoriesOptions& options = {}) {
  return capture_histories(ledger.statements(), ledger.fold(), options);
}

// The histories as text, "101" an animal, so that a test reads as the table it expects.
std::vector<std::string> rows(const models::CaptureHistories& histories) {
  std::vector<std::string> rows;
  for (size_t i = 0; i < histories.animal_count(); ++i) {
    rows.emplace_back();
    for (size_t j = 0; j < histories.occasion_count(); ++j)
      rows.back() += histories.was_caught(i, j) ? '1' : '0';
  }
  return rows;
}

// Two animals over three nights at one pond.
struct ThreeNights : HandLedger {
  CaptureId a1 = capture("2031-05-10", "a1"), b1 = capture("2031-05-10", "b1"),
            b2 = capture("2031-05-11", "b2"), a3 = capture("2031-05-14", "a3");
  ThreeNights() { fresh(a1), fresh(b1), same(b2, b1), same(a3, a1); }
};

TEST(Histories, AreAnimalsByNights) {
  const CatalogueHistories out = histories_of(ThreeNights());
  EXPECT_THAT(out.histories.occasions, ElementsAre("2031-05-10", "2031-05-11", "2031-05-14"));
  EXPECT_EQ(out.histories.dates, out.histories.occasions);
  EXPECT_THAT(rows(out.histories), ElementsAre("101", "110"));
  EXPECT_THAT(out.histories.groups.at("sex"), ElementsAre("female", "female"));
  EXPECT_THAT(out.histories.groups.at("site"), ElementsAre("Alder Fen", "Alder Fen"));
  EXPECT_THAT(out.histories.groups.at("stage"), ElementsAre("adult", "adult"));
  EXPECT_THAT(out.histories.covariates.at("svl_mm"), ElementsAre(71.5, 71.5));
  EXPECT_EQ(out.report.captures, 4);
  EXPECT_EQ(out.report.used, 4);
  EXPECT_EQ(out.individuals.size(), 2u);
}

TEST(Histories, HaveNightsOnWhichNothingWasCaught) {
  ThreeNights ledger;
  ledger.say(person("OB1"), NightIntake{.sheet = "empty.csv", .nights = {"2031-05-12"}});
  const EntryId wrong = ledger.say(person("OB1"), NightIntake{.nights = {"2031-05-13"}});
  ledger.withdraw(wrong);
  const CatalogueHistories out = histories_of(ledger);
  EXPECT_THAT(out.histories.occasions, ElementsAre("2031-05-10", "2031-05-11", "2031-05-12", "2031-05-14"));
  EXPECT_THAT(rows(out.histories), ElementsAre("1001", "1100"));
  EXPECT_THAT(out.report.empty_nights, ElementsAre("2031-05-12"));
}

TEST(Histories, DoNotTakeAnotherPlacesNightForAnEmptyOne) {
  ThreeNights ledger;
  CaptureFacts elsewhere = facts("2031-05-12", "x");
  elsewhere.site = "Reed Hollow", elsewhere.pond = "";
  ledger.fresh(ledger.capture(elsewhere));
  ledger.say(person("OB1"), NightIntake{.nights = {"2031-05-12"}});
  ledger.say(person("OB1"), NightIntake{.nights = {"2031-05-13"},
                                        .visits = {{"Reed Hollow", "", "2031-05-13"},
                                                   {"Alder Fen", "south", "2031-05-15"},
                                                   {"Alder Fen", "north", "2031-05-16"}}});
  const auto nights = [&](const HistoriesOptions& options) {
    return histories_of(ledger, options).histories.occasions;
  };
  EXPECT_THAT(nights({.site = "Alder Fen", .pond = "north"}),
              ElementsAre("2031-05-10", "2031-05-11", "2031-05-14", "2031-05-16"));
  EXPECT_THAT(nights({.site = "Alder Fen"}),
              ElementsAre("2031-05-10", "2031-05-11", "2031-05-14", "2031-05-15", "2031-05-16"));
  EXPECT_THAT(nights({.site = "Reed Hollow"}), ElementsAre("2031-05-12", "2031-05-13"));
  EXPECT_EQ(nights({}).size(), 7u);
}

TEST(Histories, NameWhatIsUnsettledAndLeaveItOut) {
  ThreeNights ledger;
  const CaptureId open = ledger.capture("2031-05-20", "who?");
  const CatalogueHistories out = histories_of(ledger);
  ASSERT_EQ(out.report.unsettled.size(), 1u);
  EXPECT_EQ(out.report.unsettled[0].capture, open);
  EXPECT_EQ(out.report.unsettled[0].name, "who?");
  EXPECT_FALSE(out.report.unsettled[0].used);
  EXPECT_FALSE(out.report.unsettled[0].usable) << "it has no photo";
  ledger.say(person("OB1"), photo_of(PhotoId(std::string(64, 'a')), open, "who.jpg", true));
  EXPECT_TRUE(histories_of(ledger).report.unsettled[0].usable);
  // The night was worked and something was caught: an occasion, and not an empty night.
  EXPECT_THAT(rows(out.histories), ElementsAre("1010", "1100"));
  EXPECT_THAT(out.report.empty_nights, IsEmpty());
}

TEST(Histories, NameWhatIsDisputed) {
  ThreeNights ledger;
  ledger.different(ledger.a3, ledger.a1, "R2");
  const Identities who = ledger.fold();
  ASSERT_EQ(who.disputes.size(), 1u);
  const CatalogueHistories out = histories_of(ledger);
  EXPECT_EQ(out.report.disputed.size(), 2u);
  EXPECT_THAT(rows(histories_of(ledger, {.use_disputed = false}).histories), ElementsAre("110"));
}

TEST(Histories, CountAnAnimalOnceANight) {
  ThreeNights ledger;
  ledger.same(ledger.capture("2031-05-10", "again"), ledger.a1);
  const CatalogueHistories out = histories_of(ledger);
  EXPECT_THAT(rows(out.histories), ElementsAre("101", "110"));
  EXPECT_EQ(out.report.same_night, 1);
  EXPECT_EQ(out.report.used, 5);
}

TEST(Histories, TakeLossesAndFirstMeasurementsFromTheFacts) {
  HandLedger ledger;
  CaptureFacts young = facts("2031-05-10", "y1"), old = facts("2031-05-12", "y2");
  young.stage = "juvenile", young.svl_mm.reset(), young.sex = Sex::unknown;
  old.svl_mm = 48, old.lost = true, old.sex = Sex::male;
  const CaptureId first = ledger.capture(young), last = ledger.capture(old);
  ledger.fresh(first), ledger.same(last, first);
  const CaptureId other = ledger.capture(facts("2031-05-10", "z1"));
  CaptureFacts unmeasured = facts("2031-05-12", "z2");
  unmeasured.svl_mm.reset();
  ledger.fresh(other), ledger.same(ledger.capture(unmeasured), other);
  // Noted as lost, and yet caught later: an error on a sheet, named and not counted as a loss.
  const auto lost = [&](const CatalogueHistories& out) { return out.histories.lost; };
  CatalogueHistories out = histories_of(ledger);
  EXPECT_THAT(lost(out), ElementsAre(1, 0));
  EXPECT_THAT(out.histories.groups.at("stage"), ElementsAre("juvenile", "adult"));
  EXPECT_THAT(out.histories.groups.at("sex"), ElementsAre("male", "female"));
  EXPECT_THAT(out.histories.covariates.at("svl_mm"), ElementsAre(48, 71.5));
  ledger.same(ledger.capture("2031-05-30", "y3"), first);
  out = histories_of(ledger);
  EXPECT_THAT(lost(out), ElementsAre(0, 0));
  EXPECT_THAT(out.report.seen_after_loss, ElementsAre(IndividualId(first.value)));
}

TEST(Histories, KeepALengthThatNobodyMeasuredAsNotKnown) {
  HandLedger ledger;
  CaptureFacts unmeasured = facts("2031-05-10", "u");
  unmeasured.svl_mm.reset();
  ledger.fresh(ledger.capture(unmeasured));
  ledger.fresh(ledger.capture("2031-05-10", "measured"));
  const auto out = histories_of(ledger).histories;  // in the order of the sheet: "measured", "u"
  EXPECT_FALSE(std::isnan(out.covariates.at("svl_mm").at(0)));
  EXPECT_TRUE(std::isnan(out.covariates.at("svl_mm").at(1)));
}

TEST(Histories, LeaveOutWhatNobodyNoted) {
  HandLedger ledger;
  CaptureFacts bare;
  bare.site = "Alder Fen", bare.night = "2031-05-10", bare.name = "n";
  ledger.fresh(ledger.capture(bare));
  const models::CaptureHistories histories = histories_of(ledger).histories;
  EXPECT_EQ(histories.groups.size(), 1u);
  EXPECT_TRUE(histories.groups.contains("site"));
  EXPECT_TRUE(histories.covariates.empty());
}

TEST(Histories, CarryTheEffortWhereItIsKnownOfEveryNight) {
  const ThreeNights ledger;
  HistoriesOptions options;
  options.effort = {{"2031-05-10", 20}, {"2031-05-12", 0}, {"2031-05-14", 24}};
  EXPECT_TRUE(histories_of(ledger, options).histories.occasion_covariates.empty());
  options.effort["2031-05-11"] = 22;
  const models::CaptureHistories histories = histories_of(ledger, options).histories;
  EXPECT_THAT(rows(histories), ElementsAre("1001", "1100"));
  EXPECT_THAT(histories.occasion_covariates.at("effort"), ElementsAre(20, 22, 0, 24));
  EXPECT_THROW(histories_of(ledger, {.effort = {{"Tuesday", 3}}}), Error);
  EXPECT_THROW(histories_of(ledger, {.effort = {{"2031-05-10", -3}}}), Error);
}

TEST(Histories, FollowTheWindowTheStageAndTheCorrections) {
  ThreeNights ledger;
  CaptureFacts young = facts("2031-05-11", "young");
  young.stage = "juvenile";
  ledger.fresh(ledger.capture(young));
  EXPECT_THAT(rows(histories_of(ledger, {.from = "2031-05-11"}).histories), ElementsAre("10", "10", "01"));
  EXPECT_THAT(rows(histories_of(ledger, {.to = "2031-05-11"}).histories), ElementsAre("10", "11", "01"));
  EXPECT_THAT(rows(histories_of(ledger, {.stages = {"adult"}}).histories), ElementsAre("101", "110"));
  ledger.say(person("OB1"),
             Correction{ledger.a3, {{"night", "2031-05-11"}}, "the sheet was headed with the wrong date"});
  EXPECT_THAT(rows(histories_of(ledger).histories), ElementsAre("11", "11", "01"));
}

TEST(Histories, FormPrimaryPeriodsWhereTheNightsLieApart) {
  const ThreeNights ledger;
  EXPECT_THAT(histories_of(ledger).histories.primary, IsEmpty());
  EXPECT_THAT(histories_of(ledger, {.period_gap_days = 2}).histories.primary, ElementsAre(0, 0, 1));
  EXPECT_THAT(histories_of(ledger, {.period_gap_days = 3}).histories.primary, ElementsAre(0, 0, 0));
}

TEST(Histories, NameAnimalsThatMoved) {
  ThreeNights ledger;
  CaptureFacts there = facts("2031-05-20", "moved");
  there.pond = "south";
  ledger.same(ledger.capture(there), ledger.a1);
  const CatalogueHistories out = histories_of(ledger);
  EXPECT_THAT(out.report.at_several_places, ElementsAre(IndividualId(ledger.a1.value)));
  EXPECT_THAT(out.histories.groups.at("pond"), ElementsAre("north", "north"));
}

std::string refusal(const HandLedger& ledger, const HistoriesOptions& options) {
  try {
    histories_of(ledger, options);
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::bad_input);
    return error.what();
  }
  return "nothing was refused";
}

TEST(Histories, SayWhatIsWrongWithAChoice) {
  const ThreeNights ledger;
  EXPECT_THAT(refusal(ledger, {.site = "Alder"}), HasSubstr("'Alder Fen', nights 2031-05-10 to 2031-05-14"));
  EXPECT_THAT(refusal(ledger, {.from = "May"}), HasSubstr("from: 'May' is not a date"));
  EXPECT_THAT(refusal(ledger, {.from = "2031-06-01", .to = "2031-05-01"}), HasSubstr("lies before"));
  EXPECT_THAT(refusal(ledger, {.pond = "north"}), HasSubstr("without its site"));
  EXPECT_THAT(refusal(ledger, {.period_gap_days = -1}), HasSubstr("negative"));
  EXPECT_THAT(refusal(HandLedger(), {}), HasSubstr("no captures yet"));
}

TEST(Histories, ClosedCapturesKeepNoNightOpen) {
  ThreeNights ledger;
  const auto photo = [&](const CaptureId& capture, const char* name, bool usable) {
    ledger.say(person("OB1"), photo_of(PhotoId(sha256_hex(name)), capture, name, usable));
  };
  const CaptureId waits = ledger.capture("2031-05-11", "w"), tray = ledger.capture("2031-05-12", "t");
  photo(waits, "w.jpg", true), photo(tray, "t.jpg", false);
  EXPECT_THAT(histories_of(ledger).report.open_nights, ElementsAre("2031-05-11"));
  ledger.say(person("R1"), Closing{.capture = waits, .as = ClosedAs::not_identifiable});
  ledger.say(person("R1"), Closing{.capture = tray, .as = ClosedAs::no_animal});
  const CatalogueHistories out = histories_of(ledger);
  EXPECT_THAT(out.report.open_nights, IsEmpty());
  EXPECT_THAT(out.report.unsettled, IsEmpty());
  EXPECT_EQ(out.report.captures, 5);  // somebody was caught, whoever it was; an empty tray is no capture
  ASSERT_EQ(out.report.not_identifiable.size(), 1u);
  EXPECT_EQ(out.report.not_identifiable[0].capture, waits);
  ASSERT_EQ(out.report.no_capture.size(), 1u);
  EXPECT_EQ(out.report.no_capture[0].capture, tray);
  EXPECT_THAT(out.report.empty_nights, ElementsAre("2031-05-12"));  // worked, and nothing caught
}

}  // namespace
}  // namespace evet
