#include "matcher/catalogue/merge.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/uuid.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/audit.h"
#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/matcher/catalogue/tamper.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::UnorderedElementsAre;
namespace fs = std::filesystem;

std::set<std::string> hashes(const Catalogue& catalogue) {
  std::set<std::string> all;
  for (const ListedEntry& listed : catalogue.ledger()) all.insert(listed.entry.hash);
  return all;
}
std::string refusal(Catalogue& into, Catalogue& other, ErrorKind kind) {
  const auto before = hashes(into);
  try {
    merge(into, other, person("R1"));
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), kind) << error.what();
    EXPECT_EQ(hashes(into), before) << "something was taken in all the same";
    return error.what();
  }
  return "nothing was refused";
}
Catalogue opened(const fs::path& folder) {
  return Catalogue::open(folder, system_env());
}

TEST(Merge, TakesTheUnionOfEntriesAndPhotos) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field", "f-");
  auto expected = hashes(house.catalogue);
  expected.merge(hashes(field.catalogue));
  const MergeReport report = merge(house.catalogue, field.catalogue, person("R1"));
  EXPECT_EQ(report.entries, 10u);  // the making, three captures, three photos, three verdicts
  EXPECT_EQ(report.captures, 3u);
  EXPECT_EQ(report.verdicts, 3u);
  EXPECT_EQ(report.photos, 3u);
  EXPECT_EQ(report.head, house.catalogue.head_hash());
  expected.insert(report.head);  // the merge's own entry
  EXPECT_EQ(hashes(house.catalogue), expected);
  for (const PhotoId& photo : field.photos)
    EXPECT_EQ(house.catalogue.read_photo(photo), field.catalogue.read_photo(photo));
  EXPECT_EQ(house.catalogue.identities().individuals.size(), 4u);
}

TEST(Merge, TwiceChangesNothing) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field", "f-");
  merge(house.catalogue, field.catalogue, person("R1"));
  const auto before = hashes(house.catalogue);
  const std::string who = told(house.catalogue.identities());
  const MergeReport again = merge(house.catalogue, field.catalogue, person("R1"));
  EXPECT_EQ(again.entries, 0u);
  EXPECT_EQ(again.photos, 0u);
  EXPECT_EQ(hashes(house.catalogue), before);
  EXPECT_EQ(told(house.catalogue.identities()), who);
}

TEST(Merge, GivesTheSameIndividualsInWhateverOrder) {
  const Folder folder;
  { SamplePond a(folder.path / "0", "p-"), b(folder.path / "1", "q-"), c(folder.path / "2", "r-"); }
  // The laptop that was in the field goes on from a copy; both sides then judge the same pair.
  fs::copy(folder.path / "0", folder.path / "3", fs::copy_options::recursive);
  {
    Catalogue house = opened(folder.path / "0"), laptop = opened(folder.path / "3");
    const std::vector<CaptureState> captures = house.identities().captures;
    const CaptureId a1 = captures[0].id, b1 = captures[1].id, a2 = captures[2].id;
    house.append(person("R2"), {Verdict{.capture = a2, .other = b1, .answer = Answer::same}});
    laptop.append(person("R3"),
                  {Verdict{.capture = b1, .other = a1, .answer = Answer::different}, LabelGiven{a1, "Dot"}});
  }
  std::vector<int> order{0, 1, 2, 3};
  std::set<std::string> outcomes;
  int n = 0;
  do {
    if (order[0] > order[3] && order[1] < order[2]) continue;  // 18 of the 24 orders
    const fs::path into = folder.path / ("into" + std::to_string(n++));
    fs::copy(folder.path / std::to_string(order[0]), into, fs::copy_options::recursive);
    Catalogue catalogue = opened(into);
    for (size_t i = 1; i < order.size(); ++i) {
      Catalogue other = opened(folder.path / std::to_string(order[i]));
      merge(catalogue, other, person("R1"));
    }
    outcomes.insert(told(catalogue.identities()));
  } while (n < 8 && std::next_permutation(order.begin(), order.end()));
  EXPECT_EQ(outcomes.size(), 1u) << *outcomes.begin() << "\nand\n" << *outcomes.rbegin();
  EXPECT_THAT(*outcomes.begin(), HasSubstr("dispute"));
  EXPECT_THAT(*outcomes.begin(), HasSubstr("'Dot'"));
}

TEST(Merge, TellsTheDisputesThatItMakes) {
  const Folder folder;
  CaptureId a1, a2;
  {
    SamplePond pond(folder.path / "house");
    a1 = pond.a1, a2 = pond.a2;
  }
  fs::copy(folder.path / "house", folder.path / "laptop", fs::copy_options::recursive);
  Catalogue house = opened(folder.path / "house"), laptop = opened(folder.path / "laptop");
  const auto said =
      laptop.append(person("R2"), {Verdict{.capture = a2, .other = a1, .answer = Answer::different}});
  const MergeReport report = merge(house, laptop, person("R1"));
  ASSERT_EQ(report.disputes.size(), 1u);
  EXPECT_THAT(report.disputes[0].against, ElementsAre(said.back().id));
  EXPECT_EQ(report.disputes[0].contested.size(), 1u);
  // And back again: on the laptop the dispute is an old one.
  EXPECT_TRUE(merge(laptop, house, person("R2")).disputes.empty());
  EXPECT_EQ(told(laptop.identities()), told(house.identities()));
}

TEST(Merge, SeesASheetThatBothTookInAsOne) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field");
  const MergeReport report = merge(house.catalogue, field.catalogue, person("R1"));
  EXPECT_EQ(report.twins, 3u);
  EXPECT_EQ(report.photos, 0u);  // the same bytes
  const Identities& who = house.catalogue.identities();
  EXPECT_EQ(who.captures.size(), 3u);
  EXPECT_EQ(who.individuals.size(), 2u);
  EXPECT_TRUE(who.disputes.empty());
}

TEST(Merge, PutsBackPhotosThatWereLostOrDamaged) {
  const Folder folder;
  SamplePond house(folder.path / "house");
  fs::copy(folder.path / "house", folder.path / "copy", fs::copy_options::recursive);
  Catalogue copy = opened(folder.path / "copy");
  const auto file = [&](const fs::path& in, const PhotoId& photo) {
    return in / "photos" / photo.value.substr(0, 2) / photo.value;
  };
  fs::remove(file(folder.path / "house", house.photos[0]));
  write_file_durably(system_env(), file(folder.path / "house", house.photos[1]), bytes("damaged"));
  EXPECT_EQ(merge(house.catalogue, copy, person("R1")).photos, 1u);
  EXPECT_THROW(house.catalogue.read_photo(house.photos[1]), Error);
  EXPECT_EQ(merge(house.catalogue, copy, person("R1"), {.check_photos = true}).photos, 1u);
  EXPECT_EQ(house.catalogue.read_photo(house.photos[1]), bytes("a picture of b1"));
}

TEST(Merge, NamesPhotosThatNeitherHas) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field", "f-");
  const PhotoId photo = field.photos[2];
  const fs::path file = folder.path / "field/photos" / photo.value.substr(0, 2) / photo.value;
  write_file_durably(system_env(), file, bytes("damaged"));
  const MergeReport report = merge(house.catalogue, field.catalogue, person("R1"));
  EXPECT_THAT(report.photos_missing, ElementsAre(photo));
  EXPECT_FALSE(house.catalogue.has_photo(photo));
  EXPECT_EQ(report.photos, 2u);
}

fs::path file_of(const fs::path& pond, const PhotoId& photo) {
  return pond / "photos" / photo.value.substr(0, 2) / photo.value;
}

TEST(Merge, APhotoThatNeverCameIsToldAndNoLossOfTheReceivers) {
  const Folder folder;
  const fs::path at = folder.path / "house";
  SamplePond house(at), field(folder.path / "field", "f-");
  const PhotoId theirs = field.photos[2], ours = house.photos[0];
  fs::copy(folder.path / "field", folder.path / "whole", fs::copy_options::recursive);
  fs::remove(file_of(folder.path / "field", theirs));
  EXPECT_THAT(merge(house.catalogue, field.catalogue, person("R1")).photos_missing, ElementsAre(theirs));
  for (const bool read : {true, false}) {
    const AuditReport report = audit(house.catalogue, {.photos = read});
    EXPECT_TRUE(report.holds());
    EXPECT_THAT(report.never_here, ElementsAre(theirs));
  }
  EXPECT_FALSE(audit(field.catalogue).holds()) << "who took it in has lost it";

  // In a copy that goes on by itself as well; and what was lost here is never excused by a merge.
  fs::copy(at, folder.path / "copy", fs::copy_options::recursive);
  Catalogue copy = opened(folder.path / "copy");
  copy.append(person("R1"), {LabelGiven{house.a1, "Dot"}});
  EXPECT_TRUE(audit(copy).holds());
  EXPECT_THAT(audit(copy).never_here, ElementsAre(theirs));
  fs::remove(file_of(at, ours)), fs::remove(file_of(folder.path / "copy", ours));
  EXPECT_THAT(merge(house.catalogue, copy, person("R1")).photos_missing, UnorderedElementsAre(ours, theirs));
  EXPECT_EQ(audit(house.catalogue).findings.size(), 1u);
  EXPECT_THAT(audit(house.catalogue).never_here, ElementsAre(theirs));

  // Once its file came, it is missed like any other.
  Catalogue whole = opened(folder.path / "whole");
  EXPECT_EQ(merge(house.catalogue, whole, person("R1")).photos, 1u);
  const auto entries = hashes(house.catalogue);
  merge(house.catalogue, whole, person("R1"));
  EXPECT_EQ(hashes(house.catalogue), entries);
  EXPECT_TRUE(audit(house.catalogue).never_here.empty());
  fs::remove(file_of(at, theirs));
  EXPECT_EQ(audit(house.catalogue).findings.size(), 2u);
}

TEST(Merge, APhotoWhoseNameIsNoHashIsSetAside) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field", "f-");
  put_in(folder.path / "field", PhotoTaken::kKind,
         body_text(photo_of(PhotoId(std::string(63, 'a') + "<"), field.a1, "x.jpg")));
  Catalogue harmful = opened(folder.path / "field");
  const MergeReport report = merge(house.catalogue, harmful, person("R1"));
  EXPECT_EQ(report.set_aside.size(), 1u);
  EXPECT_TRUE(report.photos_missing.empty());
  EXPECT_TRUE(audit(house.catalogue).holds());
}

TEST(Merge, RefusesItself) {
  const Folder folder;
  SamplePond house(folder.path / "house");
  Catalogue again = opened(folder.path / "house" / ".");
  EXPECT_THAT(refusal(house.catalogue, again, ErrorKind::conflict), HasSubstr("the same catalogue"));
}

TEST(Merge, RefusesALedgerThatWasAltered) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field", "f-");
  tamper_unguarded(
      folder.path / "field",
      "UPDATE entry SET body = replace(body, '\"same\"', '\"different\"') WHERE kind = 'verdict'");
  const std::string text = refusal(house.catalogue, field.catalogue, ErrorKind::bad_input);
  EXPECT_THAT(text, HasSubstr("altered after it was written"));
  EXPECT_THAT(text, HasSubstr("evet audit"));
}

TEST(Merge, RefusesALedgerWithAHole) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field", "f-");
  tamper_unguarded(folder.path / "field", "PRAGMA foreign_keys = OFF; DELETE FROM entry WHERE position = 9");
  EXPECT_THAT(refusal(house.catalogue, field.catalogue, ErrorKind::bad_input),
              HasSubstr("its entries 9 are missing"));
}

TEST(Merge, RefusesTwoEntriesUnderOneId) {
  const Folder folder;
  { SamplePond pond(folder.path / "house"); }
  fs::copy(folder.path / "house", folder.path / "copy", fs::copy_options::recursive);
  // The last entry written anew with another reader, hash and all.
  Entry last;
  {
    Catalogue copy = opened(folder.path / "copy");
    last = copy.ledger().back().entry;
  }
  last.actor.name = "R9";
  tamper_unguarded(folder.path / "copy", "UPDATE entry SET actor = 'R9', hash = '" + hash_of(last) +
                                             "' WHERE id = '" + last.id.value + "'");
  Catalogue house = opened(folder.path / "house"), copy = opened(folder.path / "copy");
  EXPECT_THAT(refusal(house, copy, ErrorKind::conflict), HasSubstr("different entries under this id"));
}

TEST(Merge, RefusesKindsOfANewerVersion) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field", "f-");
  Entry made = field.catalogue.ledger().back().entry;
  made.prev = made.hash, made.seq += 1, made.kind = "hologram", made.body = "{}";
  made.id = EntryId("7fffffff-ffff-7fff-bfff-ffffffffffff");
  made.hash = hash_of(made);
  tamper_unguarded(
      folder.path / "field",
      "INSERT INTO entry (id, device, seq, time, actor_kind, actor, kind, body, prev, hash) VALUES ('" +
          made.id.value + "', '" + made.device.value + "', " + std::to_string(made.seq) + ", '" + made.time +
          "', 'person', 'R1', 'hologram', '{}', '" + made.prev + "', '" + made.hash + "')");
  EXPECT_THAT(refusal(house.catalogue, field.catalogue, ErrorKind::unsupported), HasSubstr("'hologram'"));
}

TEST(Merge, NeedsACatalogueThatMayBeWritten) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field", "f-");
  Catalogue reader = Catalogue::open(folder.path / "house", system_env(), {.access = Access::read});
  EXPECT_THAT(refusal(reader, field.catalogue, ErrorKind::storage), HasSubstr("reading only"));
}

TEST(Merge, ReadsFromACatalogueThatMayOnlyBeRead) {
  const Folder folder;
  SamplePond house(folder.path / "house");
  { SamplePond field(folder.path / "field", "f-"); }
  Catalogue field = Catalogue::open(folder.path / "field", system_env(), {.access = Access::read});
  EXPECT_EQ(merge(house.catalogue, field, person("R1")).entries, 10u);
}

std::string unfit_correction(const CaptureId& capture) {
  return R"({"capture":")" + capture.value + R"(","changes":{"night":"x"}})";
}

// The merge went through, and every command after it failed, undo too.
TEST(Merge, AnEntryThatCannotBeReadComesInAndIsSetAside) {
  const Folder folder;
  SamplePond house(folder.path / "house");
  { SamplePond made(folder.path / "field", "f-"); }
  CaptureId capture;
  {
    Catalogue field = opened(folder.path / "field");
    capture = field.identities().captures[0].id;
  }
  const Entry bad = put_in(folder.path / "field", Correction::kKind, unfit_correction(capture));
  Catalogue field = Catalogue::open(folder.path / "field", system_env(), {.access = Access::read});
  const MergeReport report = merge(house.catalogue, field, person("R1"));
  EXPECT_EQ(report.entries, 11u);
  ASSERT_EQ(report.set_aside.size(), 1u);
  EXPECT_EQ(report.set_aside[0].entry, bad.id);
  EXPECT_THAT(report.set_aside[0].why, HasSubstr("night 'x' is not a date"));
  EXPECT_EQ(house.catalogue.identities().capture(capture)->facts.night, "2031-05-10");
  const auto label = house.catalogue.append(person("R1"), {LabelGiven{capture, "Dot"}}).back().id;
  house.catalogue.append(person("R1"), {Withdrawal{label}});
  EXPECT_TRUE(merge(house.catalogue, field, person("R1")).set_aside.empty());
  Catalogue again = opened(folder.path / "house");
  const AuditReport audited = audit(again);
  EXPECT_TRUE(audited.holds()) << audited.findings.front().wrong();
  EXPECT_EQ(audited.set_aside.size(), 1u);
  // And on, in whatever order.
  SamplePond third(folder.path / "third", "t-");
  merge(third.catalogue, again, person("R1"));
  merge(again, third.catalogue, person("R1"));
  EXPECT_EQ(told(third.catalogue.identities()), told(again.identities()));
}

TEST(Merge, RefusesEntriesOfAClockThatRunsAhead) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field", "f-");
  const std::string body = R"({"capture":")" + field.a1.value + R"(","label":"Dot"})";
  put_in(folder.path / "field", LabelGiven::kKind, body, "ffffffff-ffff-7fff-bfff-ffffffffffff");
  EXPECT_THAT(refusal(house.catalogue, field.catalogue, ErrorKind::bad_input), HasSubstr("days ahead"));
  EXPECT_THROW(merge(house.catalogue, field.catalogue, person("R1"), {.most_days_ahead = -1}), Error);

  SamplePond wrong(folder.path / "wrong", "w-");
  testing_env::StillEnv later;
  later.clock = system_env().now();
  later.clock.unix_ms += 30 * 86'400'000ll + 3'600'000;
  const std::string label = R"({"capture":")" + wrong.a1.value + R"(","label":"Dot"})";
  put_in(folder.path / "wrong", LabelGiven::kKind, label, uuid7(later));
  EXPECT_THAT(refusal(house.catalogue, wrong.catalogue, ErrorKind::bad_input), HasSubstr("--days-ahead 31"));
  EXPECT_EQ(merge(house.catalogue, wrong.catalogue, person("R1"), {.most_days_ahead = 31}).entries, 11u);
}

// The same night taken in on two machines, one date a day off, or the pond spelt another way: eleven false
// recaptures, or twice the animals, and nothing was said.
TEST(Merge, OnePictureIsOneCaptureWhateverTheSheetsSay) {
  const Folder folder;
  const auto taken_in = [&](const std::string& name, const std::string& night, const std::string& pond) {
    Catalogue made = Catalogue::create(folder.path / name, "Alder Fen", person("R1"), system_env());
    for (const std::string animal : {"a", "b", "c"}) {
      const CaptureId id = made.new_capture_id();
      CaptureFacts what = facts(night, animal);
      what.pond = pond;
      const PhotoId photo = made.store_photo(bytes("a picture of " + animal));
      made.append(person("OB1"), {Capture{id, what}, photo_of(photo, id, animal + ".jpg"),
                                  Verdict{.capture = id, .answer = Answer::new_individual}});
    }
  };
  taken_in("house", "2031-05-14", "north");
  taken_in("day-off", "2031-05-15", "north");
  taken_in("spelt", "2031-05-14", "North");
  taken_in("alike", "2031-05-14", "north");
  std::set<std::string> outcomes;
  for (const std::vector<std::string>& order :
       {std::vector<std::string>{"house", "day-off", "spelt", "alike"},
        {"alike", "spelt", "day-off", "house"},
        {"spelt", "house", "alike", "day-off"}}) {
    const fs::path into = folder.path / ("into-" + order[0]);
    fs::copy(folder.path / order[0], into, fs::copy_options::recursive);
    Catalogue catalogue = opened(into);
    std::set<CaptureId> asked;
    for (size_t i = 1; i < order.size(); ++i) {
      Catalogue other = opened(folder.path / order[i]);
      const MergeReport report = merge(catalogue, other, person("R1"));
      EXPECT_EQ(report.twins, 3u);
      asked.insert(report.questions.begin(), report.questions.end());
      EXPECT_EQ(merge(catalogue, other, person("R1")).questions.size(), 0u);
    }
    const Identities& who = catalogue.identities();
    EXPECT_EQ(who.captures.size(), 3u);
    EXPECT_EQ(who.individuals.size(), 3u);
    EXPECT_TRUE(who.disputes.empty());
    for (const CaptureState& capture : who.captures) {
      EXPECT_EQ(capture.twins.size(), 3u);
      EXPECT_TRUE(asked.contains(capture.id));
      EXPECT_GE(capture.said_otherwise.size(), 2u);
    }
    outcomes.insert(told(who));
    EXPECT_TRUE(audit(catalogue).holds());
  }
  EXPECT_EQ(outcomes.size(), 1u);
}

TEST(Merge, AQuestionAboutAPictureClosesWhenTheSheetsAgree) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field");
  field.catalogue.append(person("R1"), {Correction{field.a1, {{"night", "2031-05-11"}}, "a slip"}});
  EXPECT_EQ(merge(house.catalogue, field.catalogue, person("R1")).questions.size(), 1u);
  const CaptureState state = *house.catalogue.identities().capture(house.a1);
  ASSERT_EQ(state.said_otherwise.size(), 1u);
  house.catalogue.append(
      person("R1"), {Correction{state.said_otherwise[0].twin, {{"night", state.facts.night}}, "mended"}});
  EXPECT_TRUE(house.catalogue.identities().capture(house.a1)->said_otherwise.empty());
}

// What only one of the sheets knows of the animal is not lost.
TEST(Merge, ATwinsTagAndItsLossCount) {
  const Folder folder;
  SamplePond house(folder.path / "house"), field(folder.path / "field");
  for (SamplePond* pond : {&house, &field})
    if (pond->a1 > std::min(house.a1, field.a1))
      pond->catalogue.append(person("R1"),
                             {Correction{pond->a1, {{"individual", "TAG-7"}, {"lost", true}}, ""}});
  merge(house.catalogue, field.catalogue, person("R1"));
  const CaptureState* capture = house.catalogue.identities().capture(house.a1);
  EXPECT_EQ(capture->facts.individual, "TAG-7");
  EXPECT_TRUE(capture->facts.lost);
  EXPECT_TRUE(capture->said_otherwise.empty());
}

}  // namespace
}  // namespace evet
