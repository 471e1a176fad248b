#include "matcher/belly/note_words.h"

#include <gtest/gtest.h>

#include "matcher/belly/measure_quality.h"

namespace evet {
namespace {

// Of a photo with which everything is wrong at once.
Quality bad() {
  Quality q;
  q.glare_share = 0.456, q.dark_share = 0.996, q.seen_share = 0.4, q.belly_length_px = 88.4;
  q.bend_deg = 170, q.roll = 0.9;
  return q;
}

TEST(NoteWords, FollowFromWhatIsKeptAsTheyWereFirstSaid) {
  const std::vector<QualityNote> notes = advise(bad());
  ASSERT_EQ(notes.size(), 8u);
  for (QualityNote note : notes) {
    const std::string first_said = note.sentence;
    if (note.measure != "seen_share") note.sentence = "in another language";
    EXPECT_EQ(shown_note(note, bad()), first_said) << note.measure;
  }
}

TEST(NoteWords, NameTheShareOrTheLength) {
  EXPECT_TRUE(
      shown_note({"glare_share", "", false}, bad()).starts_with("reflected light hides 46 % of the belly: "));
  EXPECT_TRUE(shown_note({"dark_share", "", true}, bad()).starts_with("all of the belly is too dark"));
  EXPECT_TRUE(
      shown_note({"belly_length_px", "", true}, bad()).starts_with("the belly is only 88 pixels long: "));
}

TEST(NoteWords, OfASmallSpeciesBlockOrWarn) {
  EXPECT_TRUE(shown_note({"small_species", "", true}, {}).starts_with("the underside shows no spots"));
  EXPECT_TRUE(shown_note({"small_species", "", false}, {}).starts_with("this may be a small species"));
}

TEST(NoteWords, StayAsWrittenWhereNothingKeptTellsThem) {
  for (const char* measure : {"seen_share", "set_aside", "turned", "of_a_later_version"})
    EXPECT_EQ(shown_note({measure, "as written", true}, bad()), "as written") << measure;
}

}  // namespace
}  // namespace evet
