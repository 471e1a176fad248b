#include "tools/train/pairs_file.h"

#include <algorithm>
#include <charconv>
#include <fstream>
#include <limits>
#include <string>

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "tools/train/messages.h"

namespace evet::train {
namespace {

constexpr size_t kFacts = 6;  // before the measures

std::string header() {
  std::string out = "same,weight,independent,query,gallery,animal";
  for (const auto& name : kMeasureNames) out += fmt::format(",{}", name);
  return out;
}

// The line's numbers; fewer where one of them is none.
std::vector<double> numbers_in(const std::string& line) {
  std::vector<double> out;
  const char *at = line.data(), *const end = at + line.size();
  while (at < end) {
    double value = 0;
    const auto [after, failure] = std::from_chars(at, end, value);
    if (failure != std::errc{} || (after != end && *after != ',')) return out;
    out.push_back(value);
    at = after + 1;
  }
  return out;
}

}  // namespace

void write_pairs(const std::vector<ComparedPair>& pairs, const std::filesystem::path& path) {
  std::ofstream file(path);
  file << header() << "\n";
  for (const ComparedPair& pair : pairs) {
    file << fmt::format("{},{},{},{},{},{}", pair.same ? 1 : 0, pair.weight, pair.independent, pair.query,
                        pair.gallery, pair.animal);
    for (const double measure : pair.measures) file << fmt::format(",{}", measure);
    file << "\n";
  }
  if (!file.flush()) throw Error(ErrorKind::storage, path.string(), messages::kPairsCouldNotBeWritten);
}

std::vector<ComparedPair> read_pairs(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::string line;
  if (!std::getline(file, line) || line != header())
    throw Error(ErrorKind::bad_input, path.string(), messages::kFirstLineDoesNotName,
                messages::kComparePairsAgainWithCompare);
  std::vector<ComparedPair> out;
  for (size_t number = 2; std::getline(file, line); ++number) {
    const std::vector<double> values = numbers_in(line);
    if (values.size() != kFacts + kMeasures)
      throw Error(ErrorKind::bad_input, fmt::format("{}, line {}", path.string(), number),
                  Message(messages::kHoldsNumbersNot, {{"values", fmt::format("{}", values.size())},
                                                       {"measures", fmt::format("{}", kFacts + kMeasures)}}),
                  messages::kComparePairsAgainWithCompare);
    ComparedPair pair{static_cast<size_t>(values[3]),
                      static_cast<size_t>(values[4]),
                      static_cast<size_t>(values[5]),
                      values[0] != 0,
                      values[1],
                      values[2],
                      {},
                      Order::unknown,
                      {},
                      false};
    for (size_t k = 0; k < kMeasures; ++k) pair.measures[k] = values[kFacts + k];
    out.push_back(pair);
  }
  return out;
}

std::vector<ComparedPair> read_pairs(const std::vector<std::filesystem::path>& paths) {
  std::vector<ComparedPair> out;
  size_t next = 0;
  for (const std::filesystem::path& path : paths) {
    const size_t before = next;
    for (ComparedPair& pair : read_pairs(path)) {
      pair.query += before;
      next = std::max(next, pair.query + 1);
      out.push_back(pair);
    }
  }
  return out;
}

}  // namespace evet::train
