#include "matcher/catalogue/catalogue.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet {
namespace {

using namespace try_out;

TEST(Catalogue, KeepsWhatWasSaidAndOpensAgain) {
  const Folder folder;
  CaptureId capture;
  {
    Catalogue catalogue = Catalogue::create(folder.path / "pond", "Mill pond", person("R1"), system_env());
    const Bytes picture = bytes("not really a picture");
    const PhotoId photo = catalogue.store_photo(picture);
    capture = catalogue.new_capture_id();
    const auto entries = catalogue.append(
        person("R1"), {Capture{capture, facts("2031-05-14", "c1")}, photo_of(photo, capture, "a.jpg"),
                       Verdict{.capture = capture, .answer = Answer::new_individual, .reason = "no match"}});
    ASSERT_EQ(entries.size(), 3u);
    EXPECT_EQ(entries[2].prev, entries[1].hash);
    EXPECT_EQ(catalogue.head_hash(), entries[2].hash);
  }
  Catalogue again = Catalogue::open(folder.path / "pond", system_env());
  EXPECT_EQ(again.title(), "Mill pond");
  const Identities& who = again.identities();
  ASSERT_EQ(who.captures.size(), 1u);
  ASSERT_EQ(who.individuals.size(), 1u);
  EXPECT_EQ(who.individuals[0].captures[0], capture);
  EXPECT_EQ(who.captures[0].facts, facts("2031-05-14", "c1"));
  EXPECT_EQ(again.read_photo(who.captures[0].photos.at(0).photo), bytes("not really a picture"));
}

std::string refusal(Catalogue& catalogue, const std::vector<Body>& bodies, ErrorKind kind,
                    const Actor& actor = person("R1")) {
  const size_t before = catalogue.ledger().size();
  try {
    catalogue.append(actor, bodies);
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), kind) << error.what();
    EXPECT_EQ(catalogue.ledger().size(), before);
    return error.what();
  }
  return "it was taken";
}

TEST(Catalogue, TakesNothingThatSpeaksOfWhatIsNotThere) {
  const Folder folder;
  Catalogue catalogue = Catalogue::create(folder.path / "pond", "P", person("R1"), system_env());
  const CaptureId none("019e6a3b-7c11-7f00-8a2e-00000000000a"), real = catalogue.new_capture_id();
  const PhotoId photo = catalogue.store_photo(bytes("a picture")), no_photo(std::string(64, 'a'));
  catalogue.append(person("R1"), {Capture{real, facts("2031-05-14", "c")}});
  const Body label = LabelGiven{real, "Dot"};
  // Each time a right word comes first: it must not stay either.
  for (const Body& wrong :
       {Body(LabelGiven{none, "Dot"}), Body(Verdict{.capture = none, .answer = Answer::new_individual}),
        Body(Verdict{.capture = real, .other = none, .answer = Answer::same}),
        Body(Correction{none, {{"notes", "x"}}, ""}), Body(Reading{.capture = none, .usable = true}),
        Body(photo_of(photo, none, "x.jpg")), Body(photo_of(no_photo, real, "x.jpg")),
        Body(Reexamined{no_photo, {}}), Body(Withdrawal{EntryId("019e6a3b-7c11-7f00-8a2e-0000000000e1")})})
    EXPECT_THAT(refusal(catalogue, {label, wrong}, ErrorKind::bad_input),
                ::testing::HasSubstr("not in the catalogue"));
  refusal(catalogue, {label, Capture{real, facts("2031-05-14", "again")}}, ErrorKind::conflict);
  refusal(catalogue, {label, Verdict{.capture = real, .other = real, .answer = Answer::same}},
          ErrorKind::bad_input);
  refusal(catalogue, {label, Capture{catalogue.new_capture_id(), facts("May", "c")}}, ErrorKind::bad_input);
  refusal(catalogue, {label, LabelGiven{real, "\xff"}}, ErrorKind::bad_input);
  refusal(catalogue, {label}, ErrorKind::bad_input, person(""));
}

TEST(Catalogue, IsNotMadeWhereSomethingIs) {
  const Folder folder;
  const auto make = [&](const std::filesystem::path& at) {
    return Catalogue::create(at, "P", person("R1"), system_env());
  };
  std::filesystem::create_directories(folder.path / "used" / "photos");
  EXPECT_NO_THROW(make(folder.path / "used"));  // as an attempt that was cut short leaves it
  EXPECT_THROW(make(folder.path / "used"), Error);
  std::filesystem::create_directories(folder.path / "full");
  system_env().write_file(folder.path / "full" / "letter.txt", bytes("dear"));
  try {
    make(folder.path / "full");
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::conflict);
    EXPECT_THAT(error.what(), ::testing::HasSubstr("letter.txt"));
  }
}

TEST(Catalogue, KeepsAPhotoOnceUnderAnyNumberOfNames) {
  const Folder folder;
  Catalogue catalogue = Catalogue::create(folder.path / "pond", "P", person("R1"), system_env());
  const PhotoId photo = catalogue.store_photo(bytes("a picture"));
  EXPECT_EQ(catalogue.store_photo(bytes("a picture")), photo);
  const CaptureId one = catalogue.new_capture_id(), two = catalogue.new_capture_id();
  catalogue.append(person("R1"), {Capture{one, facts("2031-05-14", "c1")}, photo_of(photo, one, "a.jpg"),
                                  Capture{two, facts("2031-05-14", "c2")}, photo_of(photo, two, "b.jpg")});
  EXPECT_EQ(catalogue.captures_with_photo(photo), (std::vector<CaptureId>{one, two}));
  EXPECT_EQ(catalogue.photo(photo, two).name, "b.jpg");
  EXPECT_THROW(catalogue.photo(PhotoId("../../etc/passwd"), one), Error);
  EXPECT_THROW(catalogue.read_photo(PhotoId("../../etc/passwd")), Error);
}

TEST(Catalogue, ListsItsLedgerByKindCaptureAndReader) {
  const Folder folder;
  Catalogue catalogue = Catalogue::create(folder.path / "pond", "P", person("R1"), system_env());
  const CaptureId one = catalogue.new_capture_id(), two = catalogue.new_capture_id();
  catalogue.append(person("R1"),
                   {Capture{one, facts("2031-05-14", "c1")}, Capture{two, facts("2031-05-15", "c2")}});
  catalogue.append(person("R2"),
                   {Verdict{.capture = two, .other = one, .answer = Answer::same}, LabelGiven{one, "Dot"}});
  const auto count = [&](const LedgerQuery& query) { return catalogue.ledger(query).size(); };
  LedgerQuery query;
  EXPECT_EQ(count(query), 5u);
  query.capture = one;
  EXPECT_EQ(count(query), 3u);
  query.kind = "verdict";
  EXPECT_EQ(count(query), 1u);
  query = {};
  query.actor = "R2";
  EXPECT_EQ(count(query), 2u);
  query = {};
  query.limit = 2, query.newest_first = true;
  EXPECT_EQ(catalogue.ledger(query).front().entry.kind, "label");
  query.after_position = 4, query.newest_first = false;
  EXPECT_EQ(count(query), 1u);
  query = {};
  query.before_position = 4, query.newest_first = true, query.limit = 2;
  EXPECT_EQ(catalogue.ledger(query).front().position, 3);
  EXPECT_EQ(catalogue.ledger(query).back().position, 2);
  query = {};
  query.until = "1999-12-31";
  EXPECT_EQ(count(query), 0u);
  query.until = catalogue.ledger().back().entry.time.substr(0, 10);
  EXPECT_EQ(count(query), 5u);
}

TEST(Catalogue, ACopyWritesAChainOfItsOwn) {
  const Folder folder;
  CaptureId capture;
  {
    Catalogue catalogue = Catalogue::create(folder.path / "pond", "P", person("R1"), system_env());
    capture = catalogue.new_capture_id();
    catalogue.append(person("R1"), {Capture{capture, facts("2031-05-14", "c1")}});
  }
  std::filesystem::copy(folder.path / "pond", folder.path / "copy", std::filesystem::copy_options::recursive);
  Catalogue original = Catalogue::open(folder.path / "pond", system_env()),
            copy = Catalogue::open(folder.path / "copy", system_env());
  original.append(person("R1"), {LabelGiven{capture, "Dot"}});
  copy.append(person("R1"), {LabelGiven{capture, "Dash"}});
  const Entry here = original.ledger().back().entry, there = copy.ledger().back().entry;
  EXPECT_NE(here.device, there.device);
  EXPECT_EQ(here.seq, 3);
  EXPECT_EQ(there.seq, 2);  // after the entry that says what the original had reached
}

}  // namespace
}  // namespace evet
