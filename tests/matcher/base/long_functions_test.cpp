// No function outside tests runs over 60 lines: one that does is several steps without names.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <string>
#include <vector>

namespace evet {
namespace {

namespace fs = std::filesystem;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

constexpr std::size_t kMostLines = 60;

bool ends_with_any(const std::string& line, std::string_view signs) {
  return !line.empty() && signs.find(line.back()) != std::string_view::npos;
}
bool begins_with_comment(const std::string& line) {
  const std::size_t at = line.find_first_not_of(' ');
  return at != std::string::npos && (line.compare(at, 2, "//") == 0 || line[at] == '#');
}

// Where the declaration begins whose brace opens on `line`: arguments may fill several lines.
std::size_t head_of(const std::vector<std::string>& lines, std::size_t line) {
  while (line > 0 && !lines[line - 1].empty() && !ends_with_any(lines[line - 1], ";}{:") &&
         !begins_with_comment(lines[line - 1]))
    --line;
  return line;
}

// Of a file laid out by clang-format: functions of a namespace, and of a class within one.
std::vector<std::string> long_functions(const std::string& file, const std::vector<std::string>& lines) {
  static const std::regex other(
      R"(^ *(namespace|struct|class|enum|union|extern|if|for|while|switch|else|do)\b.*|^ *\}.*)"),
      values(R"(.*= *(\w+)?\{$)");
  std::vector<std::string> found;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!ends_with_any(lines[i], "{")) continue;
    std::size_t head = head_of(lines, i);
    const std::size_t indent = lines[head].find_first_not_of(' ');
    if (lines[head].compare(indent, 8, "template") == 0 && head < i) ++head;
    if (indent > 2 || std::regex_match(lines[head], other) || std::regex_match(lines[i], values)) continue;
    const std::string close = std::string(indent, ' ') + "}";
    std::size_t end = i + 1;
    while (end < lines.size() && lines[end] != close && lines[end] != close + ";") ++end;
    if (end - i + 1 > kMostLines)
      found.push_back(file + ":" + std::to_string(head + 1) + ": " + std::to_string(end - i + 1) + " lines");
    i = end;
  }
  return found;
}

std::vector<std::string> lines_of(const fs::path& file) {
  std::ifstream stream(file);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::vector<std::string> made_up(std::size_t body) {
  std::vector<std::string> lines{"namespace evet {", "", "// Says.", "int says(int one,",
                                 "         int two) {"};
  lines.insert(lines.end(), body, "  ++one;");
  lines.insert(lines.end(), {"}", "", "}  // namespace evet"});
  return lines;
}

TEST(LongFunctions, TheCheckerSeesOne) {
  EXPECT_THAT(long_functions("a.cpp", made_up(58)), IsEmpty());
  EXPECT_THAT(long_functions("a.cpp", made_up(59)), ElementsAre("a.cpp:4: 61 lines"));
  std::vector<std::string> table = made_up(100);
  table[3] = "const Row kRows[] = {", table[4] = "    {1, 2},";
  table[table.size() - 3] = "};";
  EXPECT_THAT(long_functions("a.cpp", table), IsEmpty()) << "a table may be as long as it is";
}

TEST(LongFunctions, ThereAreNone) {
  const fs::path root = EVET_SOURCE_DIR;
  std::vector<std::string> found;
  std::size_t files = 0;
  for (const char* folder : {"matcher", "models", "tools"})
    for (fs::recursive_directory_iterator at(root / folder), end; at != end; ++at) {
      if (at->path().filename() == "node_modules") at.disable_recursion_pending();
      const std::string ending = at->path().extension();
      if (ending != ".cpp" && ending != ".h") continue;
      ++files;
      for (std::string& one : long_functions(at->path().lexically_relative(root), lines_of(at->path())))
        found.push_back(std::move(one));
    }
  EXPECT_GT(files, 500u);
  EXPECT_THAT(found, IsEmpty());
}

}  // namespace
}  // namespace evet
