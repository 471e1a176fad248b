#include "tools/words/markup.h"

#include <gtest/gtest.h>

#include "tools/words/animal_words.h"
#include "tools/words/in_words.h"

namespace evet {
namespace {

constexpr auto kBoth =
    MessageText("both", "{n} <newt> of {place} & {other}", "{n} <newts> of {place} & {other}");

TEST(Html, EscapesTheTextAndTakesMarkupAsItIs) {
  const std::size_t one = 1, two = 2;
  EXPECT_EQ(
      html(kBoth, {{"n", one}, {"place", std::string("<b>Fen</b>")}, {"other", std::string("{place}")}}),
      "1 &lt;newt&gt; of <b>Fen</b> &amp; {place}")
      << "an argument is not read as a text";
  EXPECT_EQ(html(kBoth, {{"n", two}, {"place", std::string("x")}, {"other", std::string()}}),
            "2 &lt;newts&gt; of x &amp; ");
}

// What is worded elsewhere, as a message within a message, is text and is escaped.
TEST(Html, EscapesAMessageWithin) {
  const Message within(kBoth,
                       {{"n", std::size_t{1}}, {"place", std::string("<i>")}, {"other", std::string()}});
  EXPECT_EQ(html(kBoth, {{"n", std::size_t{2}}, {"place", within}, {"other", std::string()}}),
            "2 &lt;newts&gt; of 1 &lt;newt&gt; of &lt;i&gt; &amp;  &amp; ");
}

TEST(Counted, SaysOneOrMany) {
  EXPECT_EQ(counted(1, MessageText("x", "{n} newt", "{n} newts")), "1 newt");
  EXPECT_EQ(counted(0, MessageText("x", "{n} newt", "{n} newts")), "0 newts");
}

TEST(AnimalInWords, LeavesOutWhatIsNotKnown) {
  EXPECT_EQ(animal_in_words("female", "adult"), "female, adult");
  EXPECT_EQ(animal_in_words("unknown", "juvenile"), "juvenile");
  EXPECT_EQ(animal_in_words("male", ""), "male");
  EXPECT_EQ(animal_in_words("unknown", ""), "");
  EXPECT_EQ(animal_in_words("<sex>", "egg"), "<sex>, egg") << "what is no word of the sheet stays";
}

}  // namespace
}  // namespace evet
