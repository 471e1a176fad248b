// What a catalogue stands: processes killed at a write, power cuts, failing writes, merges in every order,
// bytes changed on the disk, folders made to harm. Counts of what was tried and of what went wrong; the
// second is to be zero everywhere, and the program ends with 1 where it is not.
//
// Everything is done in memory where there is such a place. --share makes all counts smaller, for a look.
#include <spdlog/spdlog.h>
#include <sys/wait.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <csignal>
#include <cstdio>
#include <functional>
#include <nlohmann/json.hpp>
#include <random>
#include <set>
#include <sstream>
#include <thread>
#include <utility>

#include "matcher/base/error.h"
#include "matcher/catalogue/audit.h"
#include "matcher/catalogue/merge.h"
#include "tests/bench/faults/broken_acts.h"
#include "tests/bench/faults/hashing.h"
#include "tests/matcher/base/strict_disk.h"
#include "tests/matcher/catalogue/every_kind.h"
#include "tests/matcher/catalogue/faulty_disk.h"
#include "tests/matcher/catalogue/hostile_files.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/matcher/catalogue/tamper.h"

namespace evet {
namespace {

using namespace try_out;
using faults::Part;
using faults::Row;
namespace fs = std::filesystem;

struct Ponds {
  Folder folder;
  fs::path pond = folder.path / "pond";
  CaptureId capture;
  std::string who;
  Ponds() {
    SamplePond made(pond);
    capture = made.a1, who = told(made.catalogue.identities());
    made.catalogue.cache().keep_strip(made.photos[0], "v1", bytes("a strip"));
  }
  fs::path copy(const std::string& name = "copy") const {
    const fs::path to = folder.path / name;
    fs::remove_all(to);
    fs::copy(pond, to, fs::copy_options::recursive);
    return to;
  }
};

std::string told_by(const fs::path& folder) {
  return told(Catalogue::open(folder, system_env(), {.access = Access::read}).identities());
}
bool audits(const fs::path& folder) {
  Catalogue catalogue = Catalogue::open(folder, system_env(), {.access = Access::read});
  return audit(catalogue).holds();
}

// A process that writes is killed at its n-th change; what it acknowledged is there, and
// the rest whole or not.
Row kills(size_t wanted, unsigned seed) {
  Row row{"processes killed at a write, acknowledged entries lost or catalogue not whole"};
  const Ponds ponds;
  std::mt19937 random(seed);
  while (row.tried < wanted) {
    const fs::path copy = ponds.copy();
    int pipe[2];
    if (::pipe(pipe) != 0) break;
    const int at = 1 + static_cast<int>(random() % 60);
    const pid_t child = ::fork();
    if (child == 0) {
      FaultyDisk disk;
      Catalogue catalogue = Catalogue::open(copy, system_env());
      disk.fail_at(at, DiskFault::kill);
      for (int i = 0; i < 6; ++i) {
        catalogue.append(person("R1"), {LabelGiven{ponds.capture, "Dot " + std::to_string(i)}});
        if (::write(pipe[1], "!", 1) != 1) ::_exit(3);
      }
      ::_exit(0);
    }
    ::close(pipe[1]);
    size_t acknowledged = 0;
    for (char c; ::read(pipe[0], &c, 1) == 1;) ++acknowledged;
    ::close(pipe[0]);
    int status = 0;
    ::waitpid(child, &status, 0);
    if (!WIFSIGNALED(status)) continue;
    ++row.tried;
    Catalogue catalogue = Catalogue::open(copy, system_env(), {.access = Access::read});
    const size_t labels = catalogue.ledger({.kind = LabelGiven::kKind}).size();
    row.expect(labels == acknowledged || labels == acknowledged + 1,
               "labels after change " + std::to_string(at));
    row.expect(audits(copy), "audit after change " + std::to_string(at));
  }
  return row;
}

Row power_cuts(size_t wanted, unsigned seed) {
  Row row{"power cuts under strict POSIX rules while photos are kept, acknowledged photos lost"};
  std::mt19937 random(seed);
  while (row.tried < wanted) {
    const Folder folder;
    testing_env::StrictDisk disk(random());
    Catalogue catalogue = Catalogue::create(folder.path / "over" / "pond", "Alder Fen", person("R1"), disk);
    disk.changes = 0, disk.fail_at = 1 + static_cast<int>(random() % 40),
    disk.half_written = random() % 2 == 0;
    std::vector<PhotoId> kept;
    for (int i = 0; i < 8; ++i) try {
        kept.push_back(catalogue.store_photo(bytes("picture " + std::to_string(random() % 4))));
      } catch (const Error&) {
      }
    disk.cut_power();
    ++row.tried;
    for (const PhotoId& photo : kept) {
      bool there = true;
      try {
        catalogue.read_photo(photo);
      } catch (const Error&) {
        there = false;
      }
      row.expect(there, "photo after change " + std::to_string(disk.fail_at));
    }
    row.expect(fs::exists(folder.path / "over" / "pond" / "catalogue.sqlite"), "the catalogue itself");
  }
  return row;
}

constexpr const char* kFailingWrites =
    "n-th change of the database failing, for every n of append and merge: something taken in, or not "
    "writable "
    "after";
// Every change of a merge and of an append fails once, by an error and by a full disk.
Row failing_writes() {
  Row row{kFailingWrites};
  const Ponds ponds;
  { SamplePond other(ponds.folder.path / "other", "o-"); }
  for (const DiskFault fault : {DiskFault::io_error, DiskFault::full})
    for (const bool merges : {false, true})
      for (int n = 1;; ++n) {
        const fs::path copy = ponds.copy();
        FaultyDisk disk;
        bool failed = false;
        {
          Catalogue catalogue = Catalogue::open(copy, system_env());
          Catalogue other =
              Catalogue::open(ponds.folder.path / "other", system_env(), {.access = Access::read});
          disk.fail_at(n, fault);
          try {
            if (merges)
              merge(catalogue, other, person("R1"));
            else
              catalogue.append(person("R1"), {LabelGiven{ponds.capture, "Dot"}});
          } catch (const Error&) {
            failed = true;
          }
          disk.fail_at(0, DiskFault::none);
        }
        ++row.tried;
        row.expect(!failed || told_by(copy) == ponds.who, "change " + std::to_string(n));
        row.expect(audits(copy), "audit after change " + std::to_string(n));
        if (!failed) break;
      }
  return row;
}

// Ponds that share sheets, spelt otherwise or a day off, and that contradict each other.
Row merges(size_t wanted, unsigned seed) {
  Row row{
      "merges in random orders, with the same pictures under other dates and spellings, and contradictions: "
      "outcomes that differ, or a second merge that changes something"};
  std::mt19937 random(seed);
  while (row.tried < wanted) {
    const Folder folder;
    constexpr int kPonds = 4;
    for (int i = 0; i < kPonds; ++i) {
      Catalogue made =
          Catalogue::create(folder.path / std::to_string(i), "Alder Fen", person("R1"), system_env());
      std::vector<CaptureId> captures;
      for (int animal = 0; animal < 3; ++animal) {
        CaptureFacts what =
            facts(random() % 4 == 0 ? "2031-05-15" : "2031-05-14", "c" + std::to_string(animal));
        if (random() % 4 == 0) what.pond = "North";
        captures.push_back(made.new_capture_id());
        const PhotoId photo = made.store_photo(bytes("picture " + std::to_string(random() % 5)));
        made.append(person("OB1"),
                    {Capture{captures.back(), what}, photo_of(photo, captures.back(), "x.jpg")});
      }
      for (int n = 0; n < 4; ++n) {
        const CaptureId a = captures[random() % 3], b = captures[random() % 3];
        if (a == b)
          made.append(person("R" + std::to_string(random() % 2)),
                      {Verdict{.capture = a, .answer = Answer::new_individual}});
        else
          made.append(person("R" + std::to_string(random() % 2)),
                      {Verdict{.capture = a, .other = b, .answer = static_cast<Answer>(random() % 3)}});
      }
    }
    std::set<std::string> outcomes;
    for (int round = 0; round < 3; ++round) {
      std::vector<int> order{0, 1, 2, 3};
      std::shuffle(order.begin(), order.end(), random);
      const fs::path into = folder.path / ("into" + std::to_string(round));
      fs::copy(folder.path / std::to_string(order[0]), into, fs::copy_options::recursive);
      Catalogue catalogue = Catalogue::open(into, system_env());
      for (int i = 1; i < kPonds; ++i) {
        Catalogue other = Catalogue::open(folder.path / std::to_string(order[static_cast<size_t>(i)]),
                                          system_env(), {.access = Access::read});
        merge(catalogue, other, person("R1"));
        const std::string head = catalogue.head_hash();
        merge(catalogue, other, person("R1"));
        row.expect(catalogue.head_hash() == head, "a second merge");
        row.tried += 2;
      }
      outcomes.insert(told(catalogue.identities()));
      row.expect(audit(catalogue).holds(), "audit");
    }
    row.expect(outcomes.size() == 1, "order");
  }
  return row;
}

// One byte anywhere in the folder: the audit says so, or all that is read is as it was.
Row changed_bytes(size_t wanted, unsigned seed) {
  Row row{
      "single bytes changed in database, photos and cache: changes of what is read that the audit did not "
      "see, "
      "or crashes"};
  const Ponds ponds;
  std::mt19937 random(seed);
  const fs::path copy = ponds.copy();
  std::vector<std::pair<fs::path, Bytes>> files;
  for (const auto& entry : fs::recursive_directory_iterator(copy))
    if (entry.is_regular_file()) files.emplace_back(entry.path(), system_env().read_file(entry.path()));
  const auto read = [&] {
    Catalogue catalogue = Catalogue::open(copy, system_env(), {.access = Access::read});
    std::string all = told(catalogue.identities()) + catalogue.title();
    for (const ListedEntry& one : catalogue.ledger())
      all += one.entry.hash + one.entry.body + name(one.entry.actor.kind) + one.entry.actor.name +
             one.entry.time;
    for (const auto& said : catalogue.statements().photos) {
      const Bytes photo = catalogue.read_photo(said.what.photo);
      all.append(reinterpret_cast<const char*>(photo.data()), photo.size());
      const auto strip = catalogue.cache().strip(said.what.photo, "v1");
      all += strip && *strip != bytes("a strip") ? "another strip" : "";
    }
    return all;
  };
  const std::string expected = read();
  for (; row.tried < wanted; ++row.tried) {
    const auto& [path, whole] = files[random() % files.size()];
    Bytes changed = whole;
    const size_t at = random() % changed.size();
    changed[at] ^= static_cast<std::byte>(1 + random() % 255);
    system_env().write_file(path, changed);
    try {
      Catalogue catalogue = Catalogue::open(copy, system_env(), {.access = Access::read});
      if (audit(catalogue).holds())
        row.expect(read() == expected, path.filename().string() + " " + std::to_string(at));
    } catch (const Error&) {  // told
    }
    system_env().write_file(path, whole);
  }
  return row;
}

Row hostile_folders(size_t wanted, unsigned seed) {
  Row row{"folders made to harm, merged and opened: files outside touched, receivers that no longer work"};
  const Ponds ponds;
  const fs::path victim = ponds.folder.path / "victim";
  const Bytes theirs = bytes("of somebody else");
  system_env().write_file(victim, theirs);
  std::mt19937 random(seed);
  EveryKind every;
  every.a = ponds.capture;
  const std::vector<Body> samples = every.bodies();
  for (; row.tried < wanted; ++row.tried) {
    const fs::path house = ponds.folder.path / "house", field = ponds.copy("field"),
                   file = field / "catalogue.sqlite";
    fs::remove_all(house);
    { SamplePond made(house, "h-"); }
    const std::string kind = std::to_string(random() % 5);
    try {
      if (kind == "0") {
        system_env().write_file(file.string() + "-journal", journal_naming(victim.string(), 10));
      } else if (kind == "1") {
        const char* name = random() % 2 == 0 ? "photos" : "cache";
        fs::rename(field / name, ponds.folder.path / "moved");
        fs::create_symlink(ponds.folder.path, field / name);
        fs::remove_all(ponds.folder.path / "moved");
      } else if (kind == "2") {
        tamper(field, random() % 2 == 0
                          ? "CREATE VIEW v AS SELECT 1"
                          : "CREATE TRIGGER t AFTER INSERT ON here BEGIN DELETE FROM verdict; END");
      } else {
        for (int n = 0; n < 3; ++n) {
          const Body& sample = samples[random() % samples.size()];
          std::string body = body_text(sample);
          for (unsigned changes = random() % 4; changes > 0; --changes)
            body[random() % body.size()] = static_cast<char>(32 + random() % 90);
          put_in(field, kind_of(sample), body,
                 random() % 8 == 0 ? "ffffffff-ffff-7fff-bfff-fffffffffff" + std::to_string(n) : "");
        }
      }
      Catalogue into = Catalogue::open(house, system_env());
      Catalogue from = Catalogue::open(field, system_env(), {.access = Access::read});
      merge(into, from, person("R1"));
    } catch (const Error&) {
    } catch (const SQLite::Exception&) {
    }
    row.expect(system_env().read_file(victim) == theirs, "the file outside, kind " + kind);
    try {
      Catalogue into = Catalogue::open(house, system_env());
      into.append(person("R1"), {LabelGiven{into.identities().captures.front().id, "Dot"}});
      row.expect(audit(into).holds(), "audit, kind " + kind);
    } catch (const std::exception& error) {
      row.expect(false, "kind " + kind + ": " + error.what());
    }
  }
  return row;
}

// All that one process tries, a row after the other.
std::vector<Row> rows_of(const Part& part, const std::vector<std::string>& wanted,
                         const std::vector<faults::Nth>& nth, const faults::Acts* acts) {
  const unsigned seed = part.seed * 1009 + static_cast<unsigned>(part.index);
  Row ended;
  const std::vector<std::pair<std::string, std::function<Row()>>> all = {
      {"kills", [&] { return kills(part.count(10'000), seed); }},
      {"power", [&] { return power_cuts(part.count(1'000), seed); }},
      {"acts_power", [&] { return faults::power_cuts_of_acts(*acts, part.count(2'000), part); }},
      {"writes", [&] { return part.index == 0 ? failing_writes() : Row{kFailingWrites}; }},
      {"acts_nth", [&] { return faults::every_nth_fault(*acts, part, ended); }},
      {"hashing", [&] { return part.index == 0 ? faults::hashing_without_memory() : Row{}; }},
      {"merges", [&] { return merges(part.count(5'000), seed); }},
      {"bytes", [&] { return changed_bytes(part.count(100'000), seed); }},
      {"hostile", [&] { return hostile_folders(part.count(1'000), seed); }}};
  if (!nth.empty()) {
    const Row tried = faults::these_faults(*acts, nth, part, ended);
    return {tried, ended};
  }
  std::vector<Row> rows;
  for (const auto& [name, run] : all) {
    if (!wanted.empty() && std::find(wanted.begin(), wanted.end(), name) == wanted.end()) continue;
    if (Row row = run(); !row.what.empty()) rows.push_back(std::move(row));
    if (!ended.what.empty()) rows.push_back(std::exchange(ended, {}));
    if (part.index == 0)
      std::fprintf(stderr, "%s: %zu tried by the first process\n", name.c_str(), rows.back().tried);
  }
  return rows;
}

// The rows of a process of its own, as JSON through a pipe.
struct Worker {
  pid_t child = 0;
  int from = -1;
  explicit Worker(const std::function<std::vector<Row>()>& work) {
    int pipe[2];
    if (::pipe(pipe) != 0) std::exit(4);
    child = ::fork();
    from = pipe[0];
    if (child != 0) {
      ::close(pipe[1]);
      return;
    }
    nlohmann::json json = nlohmann::json::array();
    try {
      for (const Row& row : work()) json.push_back({row.what, row.tried, row.wrong, row.first_wrong});
    } catch (const std::exception& error) {
      json.push_back({"the harness itself", 1, 1, error.what()});
    }
    const std::string text = json.dump(-1, ' ', true, nlohmann::json::error_handler_t::replace);
    for (std::size_t at = 0; at < text.size();) {
      const ssize_t n = ::write(pipe[1], text.data() + at, text.size() - at);
      if (n <= 0) ::_exit(4);
      at += static_cast<std::size_t>(n);
    }
    ::_exit(0);
  }
  std::vector<Row> rows() const {
    std::string text;
    char some[4096];
    for (ssize_t n = 0; (n = ::read(from, some, sizeof some)) > 0;)
      text.append(some, static_cast<std::size_t>(n));
    ::close(from);
    ::waitpid(child, nullptr, 0);
    const nlohmann::json json = nlohmann::json::parse(text, nullptr, false);
    if (!json.is_array()) return {{"processes of the harness that ended early", 1, 1, "a process"}};
    std::vector<Row> rows;
    for (const auto& one : json) rows.push_back({one[0], one[1], one[2], one[3]});
    return rows;
  }
};

}  // namespace
}  // namespace evet

int main(int argc, char** argv) {
  spdlog::set_level(spdlog::level::off);  // the table alone goes to standard output
  CLI::App app("What a catalogue stands");
  evet::faults::Part part;
  part.of = std::max(1u, std::thread::hardware_concurrency());
  std::vector<std::string> wanted;
  app.add_option("--share", part.share, "Of the counts of the full run")->check(CLI::Range(0.0001, 1.0));
  app.add_option("--seed", part.seed, "Of all that is drawn");
  app.add_option("--processes", part.of, "That share the work (else one a processor)")
      ->check(CLI::Range(1, 256));
  app.add_option("--rows", wanted, "Only these")
      ->delimiter(',')
      ->check(CLI::IsMember(
          {"kills", "power", "acts_power", "writes", "acts_nth", "hashing", "merges", "bytes", "hostile"}));
  std::vector<std::string> named;
  app.add_option("--nth", named, "Only these faults: act:step:n, or act:step:from-to/stride")
      ->check([](const std::string& text) {
        return evet::faults::nth_of(text) ? std::string()
                                          : "'" + text + "' is not of the form rank:allocation:1-6000/7";
      });
  CLI11_PARSE(app, argc, argv);
  std::vector<evet::faults::Nth> nth;
  for (const std::string& text : named) nth.push_back(*evet::faults::nth_of(text));
  // Before anything is forked: it is the same for all.
  std::optional<evet::faults::Acts> acts;
  if (wanted.empty() ||
      std::any_of(wanted.begin(), wanted.end(), [](const auto& row) { return row.starts_with("acts"); }))
    acts.emplace();
  std::vector<evet::Worker> workers;
  for (std::size_t i = 0; i < part.of; ++i) {
    evet::faults::Part own = part;
    own.index = i;
    workers.emplace_back([&, own] { return evet::rows_of(own, wanted, nth, acts ? &*acts : nullptr); });
  }
  std::vector<evet::Row> all;
  for (const evet::Worker& worker : workers)
    for (const evet::Row& row : worker.rows()) {
      const auto same =
          std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.what == row.what; });
      evet::Row& sum = same == all.end() ? all.emplace_back(evet::Row{row.what}) : *same;
      sum.tried += row.tried;
      if (sum.wrong == 0) sum.first_wrong = row.first_wrong;
      sum.wrong += row.wrong;
    }
  std::printf("| what | tried | wrong |\n|---|---:|---:|\n");
  std::size_t wrong = 0;
  for (const evet::Row& row : all) {
    std::printf("| %s | %zu | %zu%s |\n", row.what.c_str(), row.tried, row.wrong,
                row.wrong > 0 ? (" (first: " + row.first_wrong + ")").c_str() : "");
    wrong += row.wrong;
  }
  return wrong == 0 ? 0 : 1;
}
