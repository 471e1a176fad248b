#include "tools/review/page_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>

#include "tests/matcher/catalogue/try_out.h"
#include "tests/tools/evet/pseudo_language.h"

namespace evet::review {
namespace {

using testing::ElementsAre;
using testing::Gt;
using testing::HasSubstr;
using testing::Pair;
using testing::SizeIs;

TEST(PageWords, AreFoundInAScript) {
  const PageTexts found = texts_in_script(R"js(
    el('p', {}, t('At the tray'), other('no text'), t('it\'s {n}\u00a0%', { n: t('inside') }));
    counted(list.length, '{n} photo', '{n} photos'); counted(f(1, 'x'), '{n} one of {all}', '{n} of {all}', { all }); not('{n} alone');
    // a reader's comment
    t('after it'); object.t('a method'); last('never closed)js");
  EXPECT_THAT(found.one, ElementsAre("At the tray", "it's {n}\u00a0%", "inside", "after it"));
  EXPECT_THAT(found.many,
              ElementsAre(Pair("{n} photo", "{n} photos"), Pair("{n} one of {all}", "{n} of {all}")));
}

TEST(PageWords, KnowTheEscapesOfAScript) {
  EXPECT_THAT(texts_in_script(R"js( t('\u2262\ud84c\udfb4 a\nb'))js").one,
              ElementsAre("\u2262\U000233B4 a\nb"));
  EXPECT_THAT(texts_in_script(R"js( t('half \ud84c'); t('none \u00'); t('\)js").one,
              ElementsAre("half \uFFFD", "none u00"));
}

TEST(PageWords, NeedNothingInEnglish) {
  EXPECT_EQ(spoken_script(), "export default {\"many\":{},\"one\":{}};\n");
}

// The made-up language with other plurals than English is that of tests/matcher/base/message_test.cpp.
TEST(PageWords, ComeInTheLanguageOfTheSurroundings) {
  const try_out::Folder folder;
  try_out::write_pseudo_language(folder.path);
  const auto child = [&] {
    try_out::speak_pseudo_language(folder.path);
    std::ofstream(folder.path / "spoken.js") << spoken_script();
    std::_Exit(0);
  };
  EXPECT_EXIT(child(), testing::ExitedWithCode(0), "");
  std::ifstream in(folder.path / "spoken.js");
  const std::string spoken{std::istreambuf_iterator<char>(in), {}};
  ASSERT_TRUE(spoken.starts_with("export default ") && spoken.ends_with(";\n"));
  const auto json = nlohmann::json::parse(spoken.substr(15, spoken.size() - 17));
  EXPECT_THAT(json["one"], SizeIs(Gt(600u)));
  EXPECT_EQ(json["one"]["At the tray"], "«At the tray»");
  const auto& photos = json["many"]["{n} photo"];
  EXPECT_EQ(photos["forms"], nlohmann::json({"«{n} photos»", "«{n} photo»"}));
  EXPECT_THAT(photos["which"].get<std::string>(), HasSubstr("0100"));
  EXPECT_THAT(photos["which"].get<std::string>(), SizeIs(200));
}

}  // namespace
}  // namespace evet::review
