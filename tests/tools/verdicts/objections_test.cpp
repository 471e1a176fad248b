// Each gate with what cannot be, and with the like that can.
#include "tools/verdicts/objections.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "matcher/catalogue/photo_work.h"
#include "tests/matcher/catalogue/try_out.h"
#include "tests/matcher/search/synthetic_maps.h"
#include "tools/verdicts/labels.h"
#include "tools/verdicts/sheet_misfits.h"

namespace evet {
namespace {

using namespace try_out;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// A catalogue whose patterns are drawn: photo (animal, view) shows that animal.
struct Drawn : testing::Test {
  Folder folder;
  Catalogue catalogue = Catalogue::create(folder.path / "pond", "Alder Fen", person("OB1"), system_env());
  int names = 0;

  struct View {
    unsigned animal;
    int view;
    bool usable = true;
  };
  CaptureId capture(CaptureFacts facts, const std::vector<View>& views) {
    facts.name = "c" + std::to_string(++names);
    const CaptureId id = catalogue.new_capture_id();
    std::vector<Body> bodies{Capture{id, facts}};
    for (const View& view : views) {
      const std::string name =
          facts.name + "-" + std::to_string(view.animal) + "-" + std::to_string(view.view);
      const PhotoId photo = catalogue.store_photo(bytes(name));
      PhotoTaken taken = photo_of(photo, id, name + ".jpg", view.usable);
      taken.examination.maker = maker_of({});
      const SpotMap map = synthetic::warped(synthetic::spotted(view.animal), {.v_shift = 0.03 * view.view},
                                            0.004, view.animal * 10 + static_cast<unsigned>(view.view));
      catalogue.cache().keep_pattern(photo, maker_of({}), pattern_of(map, 0.9999));
      bodies.push_back(taken);
    }
    catalogue.append(person("OB1"), bodies);
    return id;
  }
  static CaptureFacts on(const std::string& night) {
    CaptureFacts all = facts(night, "");
    return all;
  }
  void fresh(const CaptureId& capture) {
    catalogue.append(person("R1"), {Verdict{.capture = capture, .answer = Answer::new_individual}});
  }
  std::vector<std::string> against(const CaptureId& capture, Answer answer, const CaptureId& other = {},
                                   bool blind = false) {
    std::vector<std::string> codes;
    for (const Against& one : objections_to(
             catalogue, Verdict{.capture = capture, .other = other, .answer = answer, .blind = blind}))
      codes.push_back(one.objection.code);
    return codes;
  }
  std::vector<std::string> against_same(const CaptureId& capture, const CaptureId& other) {
    return against(capture, Answer::same, other);
  }
};

TEST_F(Drawn, TheTrueCaseIsSaidWithoutAWord) {
  const CaptureId first = capture(on("2030-05-14"), {{1, 0}, {1, 1}}),
                  again = capture(on("2031-05-14"), {{1, 2}});
  fresh(first);
  EXPECT_THAT(against_same(again, first), IsEmpty());
  EXPECT_THAT(against(again, Answer::new_individual), IsEmpty());
  EXPECT_THAT(against(again, Answer::different, first), IsEmpty());
}

TEST_F(Drawn, OneAnimalIsNotInTwoHandsTheSameNight) {
  const CaptureId first = capture(on("2030-05-14"), {{1, 0}}), twin = capture(on("2031-05-14"), {{1, 1}}),
                  asked = capture(on("2031-05-14"), {{1, 2}});
  fresh(first);
  EXPECT_THAT(against_same(asked, first), IsEmpty()) << "nobody of that night is it yet";
  catalogue.append(person("R1"), {Verdict{.capture = twin, .other = first, .answer = Answer::same}});
  EXPECT_THAT(against_same(asked, first), ElementsAre("same_night"));
  const auto found =
      objections_to(catalogue, Verdict{.capture = asked, .other = first, .answer = Answer::same});
  EXPECT_EQ(found[0].beside, twin) << "the picture to look at is that night's";
  EXPECT_THAT(found[0].objection.sentence, HasSubstr("in hand on 2031-05-14 already, as capture 'c2'"));
  EXPECT_THAT(against_same(twin, first), IsEmpty()) << "said again of what is joined already";
  EXPECT_THAT(against(asked, Answer::same, first, true), IsEmpty()) << "a blind reader is told nothing";
}

TEST_F(Drawn, SexLengthAndStageDoNotTurnBack) {
  CaptureFacts before = on("2030-05-14"), after = on("2031-05-14");
  const CaptureId first = capture(before, {{1, 0}});
  fresh(first);
  after.svl_mm = *before.svl_mm - svl_tolerance_mm() + 0.1;
  EXPECT_THAT(against_same(capture(after, {{1, 1}}), first), IsEmpty()) << "within measuring error";
  after.svl_mm = *before.svl_mm - svl_tolerance_mm() - 0.1;
  EXPECT_THAT(against_same(capture(after, {{1, 1}}), first), ElementsAre("shrunk"));
  after.svl_mm = *before.svl_mm + 12;
  EXPECT_THAT(against_same(capture(after, {{1, 1}}), first), IsEmpty()) << "it grew";
  after.sex = Sex::male;
  EXPECT_THAT(against_same(capture(after, {{1, 1}}), first), ElementsAre("other_sex"));
  after.sex = Sex::unknown, after.stage = "juvenile";
  EXPECT_THAT(against_same(capture(after, {{1, 1}}), first), ElementsAre("younger_stage"));
  // An earlier night's capture that comes in late is held against the later one the right way round.
  CaptureFacts long_ago = on("2020-05-14");
  long_ago.stage = "juvenile", long_ago.svl_mm = 40;
  EXPECT_THAT(against_same(capture(long_ago, {{1, 1}}), first), IsEmpty());
}

TEST_F(Drawn, AnotherSitesAnimalAndOneThatWasNotReleased) {
  CaptureFacts there = on("2031-05-14"), pond = there;
  there.site = "Reed Hollow", pond.pond = "south";
  const CaptureId first = capture(on("2030-05-14"), {{1, 0}}), away = capture(there, {{1, 1}});
  fresh(first);
  EXPECT_THAT(against_same(away, first), ElementsAre("other_site"));
  EXPECT_THAT(against_same(capture(pond, {{1, 1}}), first), IsEmpty()) << "ponds of one site are near";
  catalogue.append(person("R1"), {Verdict{.capture = away, .other = first, .answer = Answer::same}});
  there.night = "2032-05-14";
  EXPECT_THAT(against_same(capture(there, {{1, 2}}), first), IsEmpty()) << "it has been there";

  CaptureFacts last = on("2033-05-14");
  last.lost = true;
  const CaptureId dead = capture(last, {{1, 2}});
  EXPECT_THAT(against_same(dead, first), IsEmpty());
  catalogue.append(person("R1"), {Verdict{.capture = dead, .other = first, .answer = Answer::same}});
  EXPECT_THAT(against_same(capture(on("2034-05-14"), {{1, 2}}), first), ElementsAre("not_released"));
}

TEST_F(Drawn, TwoPhotosOfOneCaptureThatDisagree) {
  const CaptureId first = capture(on("2030-05-14"), {{1, 0}});
  fresh(first);
  const CaptureId mixed = capture(on("2031-05-14"), {{1, 1}, {2, 0}}),
                  right = capture(on("2031-05-15"), {{1, 1}, {1, 2}});
  EXPECT_THAT(against_same(mixed, first), ElementsAre("photos_disagree"));
  EXPECT_THAT(against(mixed, Answer::new_individual), ElementsAre("photos_disagree"));
  EXPECT_THAT(against(mixed, Answer::cannot_tell, first), IsEmpty());
  EXPECT_THAT(against_same(right, first), IsEmpty());
}

TEST_F(Drawn, AnUnusableCaptureIsNoNewIndividualAndCanBeClosed) {
  const CaptureId first = capture(on("2030-05-14"), {{1, 0}}),
                  blurred = capture(on("2031-05-14"), {{1, 1, false}});
  fresh(first);
  EXPECT_THAT(against(blurred, Answer::new_individual), ElementsAre("no_usable_photo"));
  EXPECT_THAT(against_same(blurred, first), ElementsAre("no_usable_photo"));
  const auto closing = [&](const CaptureId& capture, ClosedAs as, const CaptureId& other = {}) {
    std::vector<std::string> codes;
    for (const Against& one : objections_to(catalogue, Closing{.capture = capture, .as = as, .other = other}))
      codes.push_back(one.objection.code);
    return codes;
  };
  EXPECT_THAT(closing(blurred, ClosedAs::no_animal), IsEmpty());
  EXPECT_THAT(closing(blurred, ClosedAs::not_identifiable), IsEmpty());
  EXPECT_THAT(closing(first, ClosedAs::no_animal), ElementsAre("settled", "usable_photo"));
  const CaptureId twice = capture(on("2031-05-14"), {{1, 1}}), other = capture(on("2031-05-14"), {{2, 1}});
  EXPECT_THAT(closing(blurred, ClosedAs::same_capture, twice), IsEmpty());
  EXPECT_THAT(closing(twice, ClosedAs::same_capture, first), ElementsAre("other_night"));
  EXPECT_THAT(closing(twice, ClosedAs::same_capture, other), ElementsAre("photos_disagree"));
  catalogue.append(person("R2"), {Closing{.capture = blurred, .as = ClosedAs::no_animal}});
  EXPECT_THAT(against_same(blurred, first), ElementsAre("no_usable_photo", "closed"));
}

TEST_F(Drawn, TwoKnownAnimalsAreTwo) {
  CaptureFacts one = on("2030-05-14"), other = on("2031-05-14");
  one.individual = "TAG-1", other.individual = "TAG-2";
  const CaptureId a = capture(one, {{1, 0}}), b = capture(other, {{1, 1}});
  EXPECT_THAT(against_same(b, a), ElementsAre("known_as_other"));
}

TEST_F(Drawn, ObjectionsAreOverruledByAReasonAndListed) {
  CaptureFacts male = on("2031-05-14");
  male.sex = Sex::male;
  const CaptureId first = capture(on("2030-05-14"), {{1, 0}}), asked = capture(male, {{1, 1}});
  fresh(first);
  Verdict verdict{.capture = asked, .other = first, .answer = Answer::same, .reason = "the chin row"};
  const auto found = objections_to(catalogue, verdict);
  const std::vector<std::string> shown{"other_sex"}, none;
  EXPECT_THROW(overrule(found, "", &shown, "capture", bare("say why")), Error);
  EXPECT_THROW(overrule(found, "sexed as a juvenile", &none, "capture", bare("say why")), Error)
      << "it was not shown";
  verdict.in_spite_of = overrule(found, "sexed as a juvenile", &shown, "capture", bare("say why"));
  const EntryId entry = catalogue.append(person("R1"), {verdict}).back().id;
  auto list = overruled(catalogue);
  ASSERT_EQ(list.size(), 1u);
  EXPECT_EQ(list[0].entry, entry);
  EXPECT_EQ(list[0].capture, asked);
  EXPECT_EQ(list[0].by, "R1");
  EXPECT_EQ(list[0].code, "other_sex");
  EXPECT_EQ(list[0].reason, "sexed as a juvenile");
  EXPECT_TRUE(list[0].stands);
  catalogue.append(person("R1"), {Withdrawal{entry}});
  list = overruled(catalogue);
  ASSERT_EQ(list.size(), 1u);
  EXPECT_FALSE(list[0].stands);
}

TEST_F(Drawn, TwoIndividualsNeverShareALabel) {
  const CaptureId a = capture(on("2030-05-14"), {{1, 0}}), b = capture(on("2030-05-15"), {{2, 0}});
  fresh(a), fresh(b);
  catalogue.append(person("R1"), {LabelGiven{a, "N-1"}});
  const Identities who = catalogue.identities();
  const std::set<IndividualId> own{*who.capture(a)->individual}, other{*who.capture(b)->individual};
  EXPECT_NO_THROW(refuse_shared_label(who, "N-1", own));
  EXPECT_THROW(refuse_shared_label(who, "N-1", other), Error);
  EXPECT_THROW(refuse_shared_label(who, who.individual(*other.begin())->name, own), Error)
      << "what it goes by";
  EXPECT_NO_THROW(refuse_shared_label(who, "N-2", other));
  EXPECT_THAT(shared_labels(who), IsEmpty());
  catalogue.append(person("R1"), {LabelGiven{b, "N-1"}});  // as a merge brings it
  ASSERT_EQ(shared_labels(catalogue.identities()).size(), 1u);
  EXPECT_THAT(shared_labels(catalogue.identities())[0],
              HasSubstr("2 individuals were given the label 'N-1'"));
}

}  // namespace
}  // namespace evet
