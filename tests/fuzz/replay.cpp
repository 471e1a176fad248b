// The fuzz programs' inputs without a fuzzer: all that is kept of each (tests/data/fuzz), and random changes of
// it, in the ordinary build and on any machine. What crashes ends the program; the input lies in the working
// folder as crash-NAME.
//
// Usage: fuzz_replay FOLDER [--random N] [--seed S] [--processes P] [--only NAME,...]
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <csignal>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

#define EVET_FUZZ_PROGRAM(name) extern "C" int fuzz_##name(const std::uint8_t*, std::size_t);
#include "fuzz_programs.inc"
#undef EVET_FUZZ_PROGRAM

namespace {

namespace fs = std::filesystem;
using Input = std::vector<std::uint8_t>;

struct Program {
  const char* name;
  int (*run)(const std::uint8_t*, std::size_t);
};
#define EVET_FUZZ_PROGRAM(name) {#name, fuzz_##name},
const Program kPrograms[] = {
#include "fuzz_programs.inc"
};
#undef EVET_FUZZ_PROGRAM

std::vector<Input> inputs_of(const fs::path& folder) {
  std::vector<fs::path> files;
  if (fs::exists(folder))
    for (const auto& entry : fs::directory_iterator(folder)) files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  std::vector<Input> inputs;
  for (const fs::path& file : files) {
    std::ifstream in(file, std::ios::binary);
    inputs.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
  }
  return inputs;
}

Input changed(const std::vector<Input>& inputs, std::mt19937_64& random) {
  constexpr std::size_t kLongest = 4096;
  Input input;
  if (!inputs.empty() && random() % 8 != 0)
    input = inputs[random() % inputs.size()];
  else
    for (std::size_t n = random() % 300; n > 0; --n) input.push_back(static_cast<std::uint8_t>(random()));
  for (std::size_t n = random() % 8; n > 0; --n) {
    const std::size_t at = random() % (input.size() + 1);
    const auto where = input.begin() + static_cast<std::ptrdiff_t>(at);
    switch (random() % 5) {
      case 0:
        input.insert(where, static_cast<std::uint8_t>(random()));
        break;
      case 1:
        if (at < input.size()) input.erase(where);
        break;
      case 2:
        if (at < input.size()) input[at] ^= static_cast<std::uint8_t>(1u << random() % 8);
        break;
      case 3:
        if (at < input.size()) input[at] = static_cast<std::uint8_t>(random());
        break;
      default:  // a piece of another input
        if (!inputs.empty()) {
          const Input& other = inputs[random() % inputs.size()];
          const std::size_t from = random() % (other.size() + 1),
                            size = std::min(other.size() - from, random() % 64);
          input.insert(where, other.begin() + static_cast<std::ptrdiff_t>(from),
                       other.begin() + static_cast<std::ptrdiff_t>(from + size));
        }
    }
  }
  if (input.size() > kLongest) input.resize(kLongest);
  return input;
}

// What is being tried, for the handler of the signal that it ends with.
const Program* current_program = nullptr;
const Input* current_input = nullptr;

void keep_and_end(int signal) {
  char file[64] = "crash-";
  std::strncat(file, current_program->name, 40);
  const int fd = ::open(file, O_WRONLY | O_CREAT | O_TRUNC, 0666);
  const bool kept = ::write(fd, current_input->data(), current_input->size()) >= 0;
  std::signal(signal, SIG_DFL);
  if (kept) ::raise(signal);
  ::_exit(1);
}

void run_one(const Program& program, const Input& input) {
  constexpr unsigned kHangs_s = 60;
  current_program = &program, current_input = &input;
  ::alarm(kHangs_s);
  program.run(input.data(), input.size());
  ::alarm(0);
}

std::size_t run(const Program& program, const fs::path& folder, std::size_t random_ones, unsigned seed) {
  const std::vector<Input> inputs = inputs_of(folder / program.name);
  for (const Input& input : inputs) run_one(program, input);
  std::mt19937_64 random(seed);
  for (std::size_t i = 0; i < random_ones; ++i) run_one(program, changed(inputs, random));
  return inputs.size() + random_ones;
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app("Kept inputs of the fuzz programs, and random changes of them");
  std::string folder;
  std::size_t random_ones = 0;
  unsigned seed = 1, processes = 1;
  std::vector<std::string> only;
  app.add_option("FOLDER", folder, "With a folder of inputs for each program")->required();
  app.add_option("--random", random_ones, "Changed inputs for each program and process");
  app.add_option("--seed", seed, "Of the changes");
  app.add_option("--processes", processes, "That each draw changes of their own")->check(CLI::Range(1, 256));
  app.add_option("--only", only, "These programs")->delimiter(',');
  CLI11_PARSE(app, argc, argv);
  for (const int signal : {SIGABRT, SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGALRM})
    std::signal(signal, keep_and_end);
  std::vector<pid_t> children;
  for (unsigned p = 0; p < processes; ++p) {
    const pid_t child = processes > 1 ? ::fork() : 0;
    if (child > 0) {
      children.push_back(child);
      continue;
    }
    for (const Program& program : kPrograms) {
      if (!only.empty() && std::find(only.begin(), only.end(), program.name) == only.end()) continue;
      const std::size_t tried = run(program, folder, random_ones, seed * 1009 + p);
      if (p == 0) std::printf("%s: %zu inputs%s\n", program.name, tried, processes > 1 ? " a process" : "");
      std::fflush(stdout);
    }
    if (processes > 1) ::_exit(0);
  }
  int failed = 0;
  for (const pid_t child : children) {
    int status = 0;
    ::waitpid(child, &status, 0);
    failed += status != 0;
  }
  if (failed > 0) std::printf("%d processes ended by an input: see crash-*\n", failed);
  return failed == 0 ? 0 : 1;
}
