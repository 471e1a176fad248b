// What people are told stands in a messages.h, where it can be translated: a sentence that is written anywhere else
// in the folders that speak to people is found by the shape of English, in string literals.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>

namespace evet {
namespace {

namespace fs = std::filesystem;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

constexpr std::array kFolders = {"words",  "verdicts", "numbers", "intake", "drawings",
                                 "report", "trial",    "share",   "review", "evet"};

// What is English and stays so, each with why. Short, and shorter if it can be.
struct Allowed {
  const char* literal;  // a regular expression for the whole of it
  const char* why;
};
constexpr std::array kAllowed = {
    Allowed{R"(evet [^]*)", "a command line to be typed, as an example"},
    Allowed{R"(field '[^]*)", "names a JSON key that the page itself sends"},
    Allowed{R"([^]*(charset=|filename=|max-age=|default-src |HTTP/1.1)[^]*)", "what a browser reads"},
    Allowed{R"(Location|Allow|Cookie|Origin|Connection)", "names of HTTP headers"},
    Allowed{R"([^]*(display:|font:) [^]*)", "a style sheet"},
    Allowed{R"(Id|Target)", "attributes in a workbook"},
    Allowed{R"([^]* re [fS]\\n)", "drawing commands of a PDF"},
    Allowed{R"(Usage|Positionals|Excludes)", "by which CLI11 asks for its labels"},
    Allowed{R"((sex|from|for|before) )", "names a parameter of an address that the page itself asks"},
    Allowed{R"((planted|which|write|strip|mask|evidence) )",
            "begins what is hashed, or the name of a kept picture"},
    Allowed{R"(wrong join)", "read in what somebody wrote about costs"},
    Allowed{R"(Cllr)", "a symbol"},
    Allowed{R"(export default )", "JavaScript"},
};
constexpr std::array kAllowedFiles = {
    Allowed{"tools/trial/trial_text.cpp", "tables of the benchmarks, for developers"},
    Allowed{"tools/trial/trial_catalogue.cpp", "groups as JSON has them; trial/group_words words them"},
    Allowed{"tools/trial/trial_groups.cpp", "asks for one of those groups"},
    Allowed{"tools/evet/out_of_memory.cpp", "there is no memory to look a translation up"},
};

// The string literals of a source, each with those that follow it directly; comments and includes left out.
std::vector<std::string> literals(const std::string& source) {
  std::vector<std::string> out;
  bool joins = false;  // nothing but blanks since the last literal
  for (std::size_t i = 0; i < source.size(); ++i) {
    const auto from = [&](std::string_view start) { return source.compare(i, start.size(), start) == 0; };
    if (from("//") || from("#include")) {
      i = std::min(source.find('\n', i), source.size() - 1);
    } else if (from("R\"")) {
      const std::size_t open = source.find('(', i);
      const std::string end = ")" + source.substr(i + 2, open - i - 2) + "\"";
      const std::size_t close = source.find(end, open);
      if (!joins) out.emplace_back();
      out.back() += source.substr(open + 1, close - open - 1);
      joins = true, i = close + end.size() - 1;
    } else if (source[i] == '"') {
      const std::size_t open = i++;
      while (source[i] != '"') i += source[i] == '\\' ? 2 : 1;
      if (!joins) out.emplace_back();
      out.back() += source.substr(open + 1, i - open - 1);
      joins = true;
    } else if (source[i] == '\'' &&
               (i == 0 || std::isalnum(static_cast<unsigned char>(source[i - 1])) == 0)) {
      ++i;
      while (source[i] != '\'') i += source[i] == '\\' ? 2 : 1;
      joins = false;
    } else if (std::isspace(static_cast<unsigned char>(source[i])) == 0) {
      joins = false;
    }
  }
  return out;
}

// Two words beside each other, a word with a capital alone, or one with a blank at an end ("photo ", " places"): it
// is put together. Tags of HTML and {placeholders} are no words, what an attribute says to people is.
bool is_english(std::string text) {
  text = std::regex_replace(text, std::regex(R"(\\[nrt])"), " ");
  if (std::regex_search(text, std::regex(R"((aria-label|alt|title)=\\?"[A-Za-z])"))) return true;
  text = std::regex_replace(text, std::regex(R"(<[^>]*>?|\{[^{}]*\})"), " ");
  text = std::regex_replace(text, std::regex(R"(\\.)"), "");
  return std::regex_search(text, std::regex(R"(\b[A-Za-z][a-z]+[,;:]? [a-z]+\b)")) ||
         std::regex_match(text, std::regex(R"([^A-Za-z]*[A-Z][a-z]+[^A-Za-z]*|[a-z]{3,} | [a-z]{3,}[.:]?)"));
}

bool is_allowed(const std::string& literal) {
  return std::any_of(kAllowed.begin(), kAllowed.end(),
                     [&](const Allowed& one) { return std::regex_match(literal, std::regex(one.literal)); });
}

std::vector<std::string> bare_sentences(const std::string& source) {
  std::vector<std::string> out;
  for (const std::string& literal : literals(source))
    if (is_english(literal) && !is_allowed(literal)) out.push_back(literal);
  return out;
}

TEST(BareSentences, StandInNoSourceThatSpeaksToPeople) {
  std::vector<std::string> found;
  int files = 0;
  for (const char* folder : kFolders)
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(EVET_SOURCE_DIR) / "tools" / folder)) {
      const std::string path = fs::relative(entry.path(), EVET_SOURCE_DIR).generic_string();
      if (path.find("node_modules") != std::string::npos || path.ends_with("/messages.h")) continue;
      if (!path.ends_with(".cpp") && !path.ends_with(".h")) continue;
      if (std::any_of(kAllowedFiles.begin(), kAllowedFiles.end(),
                      [&](const Allowed& one) { return path == one.literal; }))
        continue;
      std::ostringstream text;
      text << std::ifstream(entry.path()).rdbuf();
      for (const std::string& one : bare_sentences(text.str())) found.push_back(path + ": " + one);
      ++files;
    }
  EXPECT_GT(files, 150);
  EXPECT_THAT(found, IsEmpty())
      << "move them to the folder's messages.h, and say them by in_words() or html()";
}

// What of a script of the page is said by no t() and no counted(), see tools/review/page/words.js: two words in a string
// that are no class, selector or command line.
std::vector<std::string> bare_in_script(std::string script) {
  script = std::regex_replace(script, std::regex(R"((^|\s)//[^\n]*)"), "\n");
  script = std::regex_replace(
      script, std::regex(R"(\bt\('([^'\\]|\\.)*'|'([^'\\]|\\.)*\{n\}([^'\\]|\\.)*', '([^'\\]|\\.)*')"), "");
  const std::regex stays(
      R"(evet [^]*|[.#][^]*|(input|button|a)[ ,:][^]*|[^]*system-ui[^]*|small quiet|(view|worked|cell|shot|tray-card) [^]*)");
  std::vector<std::string> out;
  const std::regex string(R"('((?:[^'\\\n]|\\.)*)'|`((?:[^`\\]|\\.)*)`)");
  for (std::sregex_iterator at(script.begin(), script.end(), string), end; at != end; ++at) {
    const std::string text = (*at)[1].matched ? (*at)[1].str() : (*at)[2].str();
    std::string words = text;
    for (std::size_t before = 0; before != words.size();) {  // from the innermost braces outwards
      before = words.size();
      words = std::regex_replace(words, std::regex(R"(\$?\{[^{}]*\})"), "");
    }
    if (std::regex_search(words, std::regex(R"([A-Za-z][a-z]+,? [a-z]{2,})")) &&
        !std::regex_match(text, stays))
      out.push_back(text);
  }
  return out;
}

TEST(BareSentences, StandInNoScriptOfThePage) {
  std::vector<std::string> found;
  for (const auto& entry : fs::directory_iterator(fs::path(EVET_SOURCE_DIR) / "tools/review/page")) {
    if (entry.path().extension() != ".js") continue;
    std::ostringstream text;
    text << std::ifstream(entry.path()).rdbuf();
    for (const std::string& one : bare_in_script(text.str()))
      found.push_back(entry.path().filename().string() + ": " + one);
  }
  EXPECT_THAT(found, IsEmpty()) << "say them by t('...'), or counted(n, '...', '...')";
  EXPECT_THAT(bare_in_script("el('p', {}, t('said so'), 'not said', `${n} are not`); // 'no word'\n"),
              ElementsAre("not said", "${n} are not"));
}

// Log lines are read by people as well.
std::vector<std::string> bare_in_log(const std::string& source) {
  const std::regex line(R"x(spdlog::[a-z]+\(\s*"((?:[^"\\]|\\.)*)")x");
  std::vector<std::string> out;
  for (std::sregex_iterator at(source.begin(), source.end(), line), end; at != end; ++at)
    if (is_english((*at)[1].str())) out.push_back((*at)[1].str());
  return out;
}

TEST(BareSentences, AreNotLogged) {
  std::vector<std::string> found;
  for (const char* folder : {"matcher", "tools"})
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(EVET_SOURCE_DIR) / folder)) {
      if (entry.path().extension() != ".cpp") continue;
      std::ostringstream text;
      text << std::ifstream(entry.path()).rdbuf();
      for (const std::string& one : bare_in_log(text.str()))
        found.push_back(entry.path().filename().string() + ": " + one);
    }
  EXPECT_THAT(found, IsEmpty()) << "move them to the folder's messages.h, and log their words()";
  EXPECT_THAT(bare_in_log("spdlog::warn(\n  \"{} was lost\", a); spdlog::info(\"{}: {}\", a, b);"),
              ElementsAre("{} was lost"));
}

TEST(BareSentences, AreFoundHoweverTheyAreWritten) {
  EXPECT_THAT(bare_sentences("out << \"Wrote \" << n;  // \"no words\"\nf(\"two \"\n  \"words\");"),
              ElementsAre("Wrote ", "two words"));
  EXPECT_THAT(
      bare_sentences(R"x(a = R"(<p class="a b">Ponds</p>)"; b = "<th>{}</th>"; c = "sex_m"; d = 'c';)x"),
      ElementsAre("<p class=\"a b\">Ponds</p>"));
  EXPECT_THAT(bare_sentences(R"x(x("photo " + name); y("<img alt=\"Belly\">"); z("evet rank pond");)x"),
              ElementsAre("photo ", R"(<img alt=\"Belly\">)"));
}

}  // namespace
}  // namespace evet
