// Command lines with what they must answer, a file a case: tests/cases/<command>/<case>.txt
// reads like a screen.
//   $ evet ...   a command; words in double quotes may hold blanks, {night} stands for tests/data/night
//   "&" at its end: it serves until it is ended, which it is as soon as it has said where;
//   then what it says, on standard output and standard error, and "exit 3" where it does not end with 0.
// What lies in the working folder before the first command stands in a folder with the case's name beside it.
// Ids, hashes, addresses and made-up names of individuals differ from run to run and are written <id>, <hash>, <address>,
// <animal>, the date of the day <today>; what depends on the networks' last digits (three decimals and more) is written
// <figure> in a trial.
// EVET_ACCEPT=1 writes the answers afresh; read the difference before committing it.
#include <gtest/gtest.h>

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <iostream>
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
      if (one.path().extension() == ".txt")
        names.push_back(command.path().filename().string() + "/" + one.path().stem().string());
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

// Today by UTC and by the clock on the wall; yesterday, for a test that runs over midnight.
std::vector<std::string> days_about_now() {
  std::vector<std::string> days;
  for (const std::time_t ago : {0, 24 * 3600}) {
    const std::time_t moment = std::time(nullptr) - ago;
    for (const auto in_parts : {::gmtime_r, ::localtime_r}) {
      std::tm day{};
      in_parts(&moment, &day);
      char text[16];
      std::strftime(text, sizeof text, "%Y-%m-%d", &day);
      days.emplace_back(text);
    }
  }
  return days;
}

std::string steady(std::string text) {
  text = replaced(text, night_folder().string(), "{night}");
  for (const std::string& day : days_about_now()) text = replaced(text, day, "<today>");
  text = std::regex_replace(text, std::regex("http://[0-9.]+:[0-9]+/[^ \n]*"), "<address>");
  text = std::regex_replace(text, std::regex("[0-9a-f]{64}"), "<hash>");
  text = std::regex_replace(text, std::regex("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}"), "<id>");
  return std::regex_replace(text, std::regex("\\b[0-9A-Z]{3}-[0-9A-Z]{4}\\b"), "<animal>");
}

// A command that serves: in a process of its own, ended by a signal as soon as it has said where, as by Ctrl-C.
Answered served(const std::vector<std::string>& args) {
  int ends[2] = {};
  EXPECT_EQ(::pipe(ends), 0);
  std::fflush(nullptr);  // else the child says again what still waits here to be written
  const pid_t child = ::fork();
  if (child == 0) {
    ::dup2(ends[1], STDOUT_FILENO), ::dup2(ends[1], STDERR_FILENO);
    ::close(ends[0]), ::close(ends[1]);
    Console console{std::cout, std::cerr, false, false, false, system_env()};
    const int exit = run_evet(args, console);
    std::cout.flush();
    ::_exit(exit);
  }
  ::close(ends[1]);
  Answered answered;
  std::array<char, 4096> bytes{};
  bool ended = false;
  for (ssize_t n; (n = ::read(ends[0], bytes.data(), bytes.size())) > 0;) {
    answered.out.append(bytes.data(), static_cast<size_t>(n));
    if (!ended && answered.out.find("http://") != std::string::npos && answered.out.ends_with('\n'))
      ended = ::kill(child, SIGTERM) == 0;
  }
  ::close(ends[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  answered.exit = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  return answered;
}

// The commands of a case, one after the other in `folder`, as a screen would show them.
std::string screen_of(const std::string& script, const fs::path& folder) {
  const fs::path before = fs::current_path();
  fs::current_path(folder);
  std::string screen;
  std::istringstream lines(script);
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("$ ")) continue;
    std::vector<std::string> words = words_of(replaced(line, "{night}", night_folder().string()));
    const bool serves = words.back() == "&";
    if (serves) words.pop_back();
    EXPECT_GE(words.size(), 2u) << line;
    EXPECT_EQ(words.at(1), "evet") << line;
    const std::vector<std::string> args(words.begin() + 2, words.end());
    const Answered answered = serves ? served(args) : try_out::evet(args);
    std::string said = steady(answered.out + answered.err);
    if (!args.empty() && args[0] == "trial")
      said = std::regex_replace(said, std::regex("[0-9]+\\.[0-9]{3,}"), "<figure>");
    screen += line + "\n" + said;
    if (answered.exit != 0) screen += "exit " + std::to_string(answered.exit) + "\n";
  }
  fs::current_path(before);
  return screen;
}

class Case : public testing::TestWithParam<std::string> {};

TEST_P(Case, AnswersAsWritten) {
  const fs::path file = cases_folder() / (GetParam() + ".txt"), beside = cases_folder() / GetParam();
  const Folder folder;
  if (fs::exists(beside)) fs::copy(beside, folder.path, fs::copy_options::recursive);
  const std::string script = read(file), screen = screen_of(script, folder.path);
  EXPECT_NE(screen, "") << "no command in it";
  if (std::getenv("EVET_ACCEPT") != nullptr) write(file, screen);
  EXPECT_EQ(screen, read(file));
}

TEST(Cases, EveryFolderBelongsToACase) {
  for (const auto& command : fs::directory_iterator(cases_folder()))
    for (const auto& one : fs::directory_iterator(command))
      EXPECT_TRUE(one.is_regular_file() || fs::exists(one.path().string() + ".txt")) << one.path();
}

INSTANTIATE_TEST_SUITE_P(Cases, Case, testing::ValuesIn(all_cases()), [](const auto& one) {
  std::string name = one.param;
  std::replace_if(
      name.begin(), name.end(), [](unsigned char c) { return !std::isalnum(c); }, '_');
  return name;
});

}  // namespace
}  // namespace evet
