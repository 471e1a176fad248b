// The texts of every messages.h: one code each, each of them said somewhere, and nothing reads them back.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

namespace evet {
namespace {

namespace fs = std::filesystem;
using ::testing::IsEmpty;

// Path -> text of the program's sources.
std::map<std::string, std::string> sources() {
  std::map<std::string, std::string> all;
  for (const char* top : {"matcher", "models", "tools"})
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(EVET_SOURCE_DIR) / top)) {
      if (entry.path().extension() != ".h" && entry.path().extension() != ".cpp") continue;
      std::ostringstream text;
      text << std::ifstream(entry.path()).rdbuf();
      all[fs::relative(entry.path(), EVET_SOURCE_DIR).generic_string()] = text.str();
    }
  return all;
}

std::vector<std::string> found(const std::string& text, const std::string& pattern) {
  const std::regex regex(pattern);
  std::vector<std::string> out;
  for (std::sregex_iterator at(text.begin(), text.end(), regex), end; at != end; ++at)
    out.push_back((*at)[1]);
  return out;
}

TEST(Messages, EachHasACodeOfItsOwnAndIsSaid) {
  const auto files = sources();
  std::map<std::string, int> codes;
  std::map<std::string, int> names;  // all folders share a namespace
  std::string others;
  for (const auto& [path, text] : files) {
    if (!path.ends_with("/messages.h")) {
      others += text;
      continue;
    }
    for (const std::string& code : found(text, R"(MessageText\(\s*"([^"]*)\")")) ++codes[code];
    for (const std::string& name : found(text, R"(constexpr (?:auto|MessageText) (k\w+))")) ++names[name];
  }
  EXPECT_GT(codes.size(), 50u);
  for (const auto& [code, times] : codes) {
    EXPECT_EQ(times, 1) << code;
    EXPECT_TRUE(std::regex_match(code, std::regex("[a-z0-9_]+"))) << code;
  }
  std::set<std::string> used;
  for (const std::string& name : found(others, R"(messages::(k\w+))")) used.insert(name);
  for (const auto& [name, times] : names) {
    EXPECT_EQ(times, 1) << name;
    EXPECT_TRUE(used.contains(name)) << name << " is never said";
  }
}

// What is worded is for people: a program asks for the code or an argument.
TEST(Messages, NoWordsAreReadBack) {
  std::vector<std::string> readers;
  const std::string searches = R"(\.(?:find|rfind|starts_with|ends_with|contains|substr)\()";
  for (const auto& [path, text] : sources())
    for (const char* words : {R"(what\(\)\)?)", R"(\.words\(\))", R"(sentence\(\))", R"(\bsentence)"})
      if (std::regex_search(text, std::regex(words + searches))) readers.push_back(path);
  EXPECT_THAT(readers, IsEmpty());
  EXPECT_TRUE(
      std::regex_search("x = std::string(e.what()).find(\"y\")", std::regex(R"(what\(\)\)?)" + searches)));
}

}  // namespace
}  // namespace evet
