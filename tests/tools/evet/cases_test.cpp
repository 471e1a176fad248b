// Command lines with what they must answer, as folders: tests/cases/<command>/<case>/
//   cmd   one command line a line; words in double quotes may hold blanks. {night} stands for
//   tests/data/night in/   files that lie in the working folder when the commands run (may be absent) out
//   standard output and standard error of all of them, as a user sees them rc    the exit code of the last
//   one
// Ids, hashes and made-up names of individuals differ from run to run and are written <id>, <hash>, <animal>.
// EVET_ACCEPT=1 writes out and rc afresh; read the difference before committing it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <regex>
#include <sstream>

#include "tests/tools/evet/try_evet.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
using namespace try_out;

fs::path cases_folder() {
  return fs::path(EVET_SOURCE_DIR) / "tests" / "cases";
}

std::vector<std::string> all_cases() {
  std::vector<std::string> names;
  for (const auto& command : fs::directory_iterator(cases_folder()))
    for (const auto& one : fs::directory_iterator(command))
      names.push_back(command.path().filename().string() + "/" + one.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  for (size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
    text.replace(at, what.size(), by);
  return text;
}

std::vector<std::string> words_of(const std::string& line) {
  std::vector<std::string> words;
  std::string word;
  bool quoted = false, any = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted, any = true;
    } else if (c == ' ' && !quoted) {
      if (any) words.push_back(word);
      word.clear(), any = false;
    } else {
      word += c, any = true;
    }
  }
  if (any) words.push_back(word);
  return words;
}

std::string steady(std::string text) {
  text = replaced(text, night_folder().string(), "{night}");
  text = std::regex_replace(text, std::regex("[0-9a-f]{64}"), "<hash>");
  text = std::regex_replace(text, std::regex("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}"), "<id>");
  return std::regex_replace(text, std::regex("\\b[0-9A-Z]{3}-[0-9A-Z]{4}\\b"), "<animal>");
}

class Case : public testing::TestWithParam<std::string> {};

TEST_P(Case, AnswersAsWritten) {
  const fs::path at = cases_folder() / GetParam();
  const Folder folder;
  if (fs::exists(at / "in")) fs::copy(at / "in", folder.path, fs::copy_options::recursive);
  const fs::path before = fs::current_path();
  fs::current_path(folder.path);
  std::string said;
  int exit = 0;
  std::istringstream lines(read(at / "cmd"));
  for (std::string line; std::getline(lines, line);) {
    std::vector<std::string> words = words_of(replaced(line, "{night}", night_folder().string()));
    if (words.empty()) continue;
    ASSERT_EQ(words.front(), "evet") << line;
    const Answered answered = try_out::evet({words.begin() + 1, words.end()});
    said += answered.out + answered.err;
    exit = answered.exit;
  }
  fs::current_path(before);
  said = steady(said);
  if (std::getenv("EVET_ACCEPT") != nullptr) {
    write(at / "out", said);
    write(at / "rc", std::to_string(exit) + "\n");
  }
  EXPECT_EQ(said, read(at / "out"));
  EXPECT_EQ(std::to_string(exit) + "\n", read(at / "rc"));
}

INSTANTIATE_TEST_SUITE_P(Cases, Case, testing::ValuesIn(all_cases()), [](const auto& one) {
  std::string name = one.param;
  std::replace_if(
      name.begin(), name.end(), [](unsigned char c) { return !std::isalnum(c); }, '_');
  return name;
});

}  // namespace
}  // namespace evet
