// One line of the table of faults, and which part of it a process has to try.
#pragma once
#include <algorithm>
#include <cstddef>
#include <cstdio>
#include <optional>
#include <string>
#include <utility>

namespace evet::faults {

struct Row {
  std::string what;
  std::size_t tried = 0, wrong = 0;
  std::string first_wrong{};
  void expect(bool holds, const std::string& what_failed) {
    if (holds) return;
    if (wrong++ == 0) first_wrong = what_failed;
    std::fprintf(stderr, "wrong: %s\n", what_failed.c_str());
  }
};

// Several processes share the work, and a run may be done in pieces: each process draws from a seed of its
// own, and of what is counted through takes every `of`-th.
struct Part {
  double share = 1;  // of the counts of the full run
  unsigned seed = 1;
  std::size_t processes = 1, piece = 0, pieces = 1;
  std::size_t index = 0, of = 1;  // of a process, among those of all pieces
  // How many of `all` this process tries.
  std::size_t count(std::size_t all) const {
    const auto wanted = static_cast<std::size_t>(std::max(1.0, static_cast<double>(all) * share));
    return wanted / of + (index < wanted % of ? 1 : 0);
  }
};

// "2/4": the second of four pieces, counted from 0.
inline std::optional<std::pair<std::size_t, std::size_t>> piece_of(const std::string& text) {
  unsigned piece = 0, pieces = 0;
  char more = 0;
  if (std::sscanf(text.c_str(), "%3u/%3u%c", &piece, &pieces, &more) != 2) return std::nullopt;
  if (piece < 1 || piece > pieces) return std::nullopt;
  return std::pair<std::size_t, std::size_t>(piece - 1, pieces);
}

}  // namespace evet::faults
