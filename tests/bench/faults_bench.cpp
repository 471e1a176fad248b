// What a catalogue stands: processes killed at a write, power cuts, failing calls, merges in every order,
// bytes changed on the disk, folders made to harm. Counts of what was tried and of what went wrong; the
// second is to be zero everywhere, and the program ends with 1 where it is not.
//
// Everything is done in memory where there is such a place. --share makes all counts smaller, for a look;
// --piece 2/4 does one of several pieces, which together are the whole, and --keep and --sum put them together.
#include <spdlog/spdlog.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <fstream>
#include <functional>
#include <iterator>
#include <optional>
#include <thread>
#include <utility>

#include "tests/bench/faults/broken_acts.h"
#include "tests/bench/faults/catalogue_faults.h"
#include "tests/bench/faults/hashing.h"
#include "tests/bench/faults/table.h"
#include "tests/bench/faults/workers.h"

namespace evet::faults {
namespace {

struct Wanted {
  std::vector<std::string> rows{};  // none: all
  std::vector<Nth> nth{};           // these faults instead

  bool acts() const {
    return !nth.empty() || rows.empty() ||
           std::any_of(rows.begin(), rows.end(), [](const auto& row) { return row.starts_with("acts"); });
  }
};

const std::vector<std::string> kRows{"kills",   "power",  "acts_power", "writes", "acts_nth",
                                     "hashing", "merges", "bytes",      "hostile"};

// What is counted through once is done by the first process.
Row row_of(const std::string& name, const Part& part, const Acts* acts, Row& ended) {
  const unsigned seed = part.seed * 1009 + static_cast<unsigned>(part.index);
  const bool first = part.index == 0;
  if (name == "kills") return kills(part.count(10'000), seed);
  if (name == "power") return power_cuts(part.count(1'000), seed);
  if (name == "acts_power") return power_cuts_of_acts(*acts, part.count(2'000), part);
  if (name == "writes") return first ? failing_writes() : Row{};
  if (name == "acts_nth") return every_nth_fault(*acts, part, ended);
  if (name == "hashing") return first ? hashing_without_memory() : Row{};
  if (name == "merges") return merges(part.count(5'000), seed);
  if (name == "bytes") return changed_bytes(part.count(100'000), seed);
  return hostile_folders(part.count(1'000), seed);
}

// All that one process tries, a row after the other.
std::vector<Row> rows_of(const Part& part, const Wanted& wanted, const Acts* acts) {
  Row ended;
  if (!wanted.nth.empty()) {
    const Row tried = these_faults(*acts, wanted.nth, part, ended);
    return {tried, ended};
  }
  std::vector<Row> rows;
  for (const std::string& name : wanted.rows.empty() ? kRows : wanted.rows) {
    if (Row row = row_of(name, part, acts, ended); !row.what.empty()) rows.push_back(std::move(row));
    if (!ended.what.empty()) rows.push_back(std::exchange(ended, {}));
    if (part.index % part.processes == 0)
      std::fprintf(stderr, "%s: done by the first process\n", name.c_str());
  }
  return rows;
}

std::vector<Row> sum_of(const std::vector<std::string>& files) {
  std::vector<Row> all;
  for (const std::string& file : files) {
    std::ifstream in(file);
    const auto rows = rows_in({std::istreambuf_iterator<char>(in), {}});
    if (!rows) throw CLI::ValidationError("--sum", file + " was not written by --keep");
    add(all, *rows);
  }
  return all;
}

std::string wrong_nth(const std::string& text) {
  return nth_of(text) ? "" : "'" + text + "' is not of the form rank:allocation:1-6000/7";
}
std::string wrong_piece(const std::string& text) {
  return piece_of(text) ? "" : "'" + text + "' is not of the form 2/4";
}

}  // namespace
}  // namespace evet::faults

int main(int argc, char** argv) {
  using namespace evet::faults;
  spdlog::set_level(spdlog::level::off);  // the table alone goes to standard output
  CLI::App app("What a catalogue stands");
  Part part;
  part.processes = std::max(1u, std::thread::hardware_concurrency());
  Wanted wanted;
  std::vector<std::string> named, files;
  std::string piece = "1/1", keep;
  app.add_option("--share", part.share, "Of the counts of the full run")->check(CLI::Range(0.0001, 1.0));
  app.add_option("--seed", part.seed, "Of all that is drawn");
  app.add_option("--processes", part.processes, "That share the work (else one a processor)")
      ->check(CLI::Range(1, 256));
  app.add_option("--piece", piece, "One piece of the run of so many: 1/4 to 4/4 are the whole")
      ->check(wrong_piece);
  app.add_option("--rows", wanted.rows, "Only these")->delimiter(',')->check(CLI::IsMember(kRows));
  app.add_option("--nth", named, "Only these faults: act:step:n, or act:step:from-to/stride")
      ->check(wrong_nth);
  app.add_option("--keep", keep, "Write the rows to this file too, for --sum");
  app.add_option("--sum", files, "Try nothing: add up what was kept")->check(CLI::ExistingFile);
  CLI11_PARSE(app, argc, argv);
  std::tie(part.piece, part.pieces) = *piece_of(piece);
  for (const std::string& text : named) wanted.nth.push_back(*nth_of(text));

  std::vector<Row> rows;
  try {
    if (!files.empty()) rows = sum_of(files);
  } catch (const CLI::Error& error) {
    return app.exit(error);
  }
  if (files.empty()) {
    std::optional<Acts> acts;  // before anything is forked: it is the same for all
    if (wanted.acts()) acts.emplace();
    rows = in_processes(part, [&](const Part& own) { return rows_of(own, wanted, acts ? &*acts : nullptr); });
  }
  if (!keep.empty() && !(std::ofstream(keep) << text_of(rows)).flush()) {
    std::fprintf(stderr, "faults_bench: %s cannot be written\n", keep.c_str());
    return 4;
  }
  return print(rows) ? 0 : 1;
}
