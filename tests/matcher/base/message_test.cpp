#include "matcher/base/message.h"

#include <gtest/gtest.h>
#include <stdlib.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "matcher/base/error.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet {
namespace {

constexpr auto kCaught = MessageText("caught", "{n} photo of {night}", "{n} photos of {night}");
constexpr auto kInside = MessageText("inside", "{what}: in {place}");
constexpr auto kPlain = MessageText("plain", "take it out");

Message caught(std::size_t n) {
  return {kCaught, {{"n", n}, {"night", "2031-05-14"}}};
}

TEST(Message, IsACodeAndArgumentsUntilItIsWorded) {
  const Message one = caught(1), many(kInside, {{"what", caught(3)}, {"place", std::string("{n}")}});
  EXPECT_EQ(one.code(), "caught");
  EXPECT_EQ(one.argument("night"), "2031-05-14");
  EXPECT_EQ(one.argument("n"), "1");
  EXPECT_EQ(one.argument("pond"), "");
  EXPECT_EQ(one.words(), "1 photo of 2031-05-14");
  EXPECT_EQ(many.words(), "3 photos of 2031-05-14: in {n}") << "arguments are not read as texts";
  EXPECT_EQ(caught(0).words(), "0 photos of 2031-05-14");
  EXPECT_EQ(Message(kPlain).words(), "take it out");
}

TEST(Message, MakesErrorsThatKeepWhatTheySay) {
  const Error error(ErrorKind::bad_input, "line 7", caught(2), kPlain);
  EXPECT_STREQ(error.what(), "line 7: 2 photos of 2031-05-14; take it out");
  EXPECT_EQ(error.wrong().code(), "caught");
  EXPECT_EQ(error.reason().words(), "2 photos of 2031-05-14; take it out");
  const Error bare(ErrorKind::bad_input, "line 7", "it is {wrong}");
  EXPECT_STREQ(bare.what(), "line 7: it is {wrong}");
  EXPECT_EQ(bare.wrong().code(), "");
  EXPECT_FALSE(bare.reason().right);
}

// A made-up language with other plurals than English, and one text that nobody has translated yet.
constexpr const char* kTranslation = R"po(msgid ""
msgstr "Content-Type: text/plain; charset=UTF-8\nPlural-Forms: nplurals=2; plural=n>2;\n"

msgid "{n} photo of {night}"
msgid_plural "{n} photos of {night}"
msgstr[0] "am {night} wenige Bilder"
msgstr[1] "am {night} viele Bilder, nämlich {n}"

msgid "{what}: in {place}"
msgstr "in {place} ({what})"
)po";

TEST(Message, IsSaidInTheLanguageOfTheSurroundings) {
  const try_out::Folder folder;
  const auto place = folder.path / "de" / "LC_MESSAGES";
  std::filesystem::create_directories(place);
  std::ofstream(folder.path / "de.po") << kTranslation;
  const std::string command =
      "msgfmt -o " + (place / "evet.mo").string() + " " + (folder.path / "de.po").string();
  ASSERT_EQ(std::system(command.c_str()), 0);
  const Message all(kInside, {{"what", caught(3)}, {"place", std::string("Moor")}});
  // In a process of its own: a language once chosen stays.
  const auto said_in = [&](const char* language) {
    ::setenv("LC_ALL", "C.UTF-8", 1), ::setenv("LANGUAGE", language, 1);
    speak_from(folder.path.string());
    std::cerr << all.words() << " | " << caught(2).words() << " | " << Message(kPlain).words();
    std::exit(0);
  };
  EXPECT_EXIT(said_in("de"), testing::ExitedWithCode(0),
              "in Moor .am 2031-05-14 viele Bilder, nämlich 3. . am 2031-05-14 wenige Bilder . take it out");
  EXPECT_EXIT(said_in("en"), testing::ExitedWithCode(0),
              "3 photos of 2031-05-14: in Moor . 2 photos of 2031-05-14 . take it out");
}

}  // namespace
}  // namespace evet
