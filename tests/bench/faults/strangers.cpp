#include "tests/bench/faults/catalogue_faults.h"

#include <algorithm>
#include <random>
#include <set>

#include "matcher/base/error.h"
#include "matcher/catalogue/merge.h"
#include "tests/bench/faults/ponds.h"
#include "tests/bench/faults/program.h"
#include "tests/matcher/catalogue/every_kind.h"
#include "tests/matcher/catalogue/hostile_files.h"
#include "tests/matcher/catalogue/tamper.h"

namespace evet::faults {
namespace {

namespace fs = std::filesystem;
using namespace try_out;

}  // namespace

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

namespace {

Bytes harmed(Bytes bytes, std::mt19937& random) {
  const size_t from = random() % bytes.size(), length = 1 + random() % (random() % 2 == 0 ? 16 : 4096);
  for (size_t i = from; i < std::min(from + length, bytes.size()); ++i)
    bytes[i] = static_cast<std::byte>(random());
  return bytes;
}

constexpr unsigned kLinks = 1;

// Makes the catalogue in `field` one of a kind of harmful ones; with the kind's number.
class Harm {
 public:
  Harm(const Ponds& ponds, const fs::path& victim) : ponds_(ponds), victim_(victim) {
    EveryKind every;
    every.a = ponds.capture;
    samples_ = every.bodies();
  }
  unsigned make(const fs::path& field, std::mt19937& random) const {
    const fs::path file = field / "catalogue.sqlite", cache = field / "cache/patterns.sqlite";
    const unsigned kind = random() % 7;
    switch (kind) {
      case 0:
        system_env().write_file(file.string() + "-journal", journal_naming(victim_.string(), 10));
        break;
      case kLinks:
        lead_elsewhere(field, random() % 2 == 0 ? "photos" : "cache");
        break;
      case 2:
        tamper(field, random() % 2 == 0
                          ? "CREATE VIEW v AS SELECT 1"
                          : "CREATE TRIGGER t AFTER INSERT ON here BEGIN DELETE FROM verdict; END");
        break;
      case 3:
        system_env().write_file(file, harmed(system_env().read_file(file), random));
        break;
      case 4:
        system_env().write_file(cache, harmed(system_env().read_file(cache), random));
        break;
      default:
        put_in_entries(field, random);
    }
    return kind;
  }

 private:
  void lead_elsewhere(const fs::path& field, const char* name) const {
    fs::remove_all(field / name);
    fs::create_symlink(ponds_.folder.path, field / name);
  }
  void put_in_entries(const fs::path& field, std::mt19937& random) const {
    for (int n = 0; n < 3; ++n) {
      const Body& sample = samples_[random() % samples_.size()];
      std::string body = body_text(sample);
      for (unsigned changes = random() % 4; changes > 0; --changes)
        body[random() % body.size()] = static_cast<char>(32 + random() % 90);
      put_in(field, kind_of(sample), body,
             random() % 8 == 0 ? "ffffffff-ffff-7fff-bfff-fffffffffff" + std::to_string(n) : "");
    }
  }
  const Ponds& ponds_;
  const fs::path& victim_;
  std::vector<Body> samples_;
};

// Who is handed the folder runs commands on it: those that read leave it as it is.
void run_commands(const fs::path& field, const Ponds& ponds, Row& row, unsigned kind) {
  const std::string when = ", kind " + std::to_string(kind);
  const std::string at = field.string(), out = (ponds.folder.path / "report.html").string();
  const auto before = tree(field);
  for (const Args& args :
       {Args{"rank", at, "--threads", "1"}, Args{"report", at, "--out", out, "--threads", "1"},
        Args{"individuals", at}, Args{"histories", at}, Args{"estimate", at}}) {
    const int code = code_of(args);
    row.expect(code == kDone || code == kDoesNotHold || code >= 3,
               args[0] + when + ": " + std::to_string(code));
    row.expect(tree(field) == before, args[0] + when + ": it changed the folder");
  }
  code_of({"verdict", at, "a2", "different", "b1", "--by", "R1"});
  // What a repair made is a catalogue that opens; links out of it are not its to mend.
  const int code = code_of({"audit", at, "--repair"});
  if (kind != kLinks && (code == kDone || code == kDoesNotHold))
    row.expect(code_of({"individuals", at}) == kDone, "after a repair" + when);
}

}  // namespace

Row hostile_folders(size_t wanted, unsigned seed) {
  Row row{
      "folders made to harm, merged, and opened by rank, report, individuals, histories, estimate, verdict "
      "and a "
      "repair: files outside touched, folders changed by who only reads, receivers that no longer work"};
  const Ponds ponds;
  const AsTheProgram program(ponds.folder.path / "state/own");
  const fs::path victim = ponds.folder.path / "victim";
  const Bytes theirs = bytes("of somebody else");
  system_env().write_file(victim, theirs);
  std::mt19937 random(seed);
  const Harm harm(ponds, victim);
  for (; row.tried < wanted; ++row.tried) {
    const fs::path house = ponds.folder.path / "house", field = ponds.copy("field");
    fs::remove_all(house);
    { SamplePond made(house, "h-"); }
    const unsigned number = harm.make(field, random);
    const std::string kind = ", kind " + std::to_string(number);
    try {
      Catalogue into = Catalogue::open(house, system_env());
      Catalogue from = Catalogue::open_apart(field, system_env());
      merge(into, from, person("R1"));
    } catch (const Error&) {
    }
    row.expect(system_env().read_file(victim) == theirs, "the file outside" + kind);
    try {
      Catalogue into = Catalogue::open(house, system_env());
      into.append(person("R1"), {LabelGiven{into.identities().captures.front().id, "Dot"}});
      const AuditReport report = audit(into);
      row.expect(report.holds(),
                 "audit" + kind + ": " +
                     (report.holds() ? "" : report.findings[0].item + ": " + report.findings[0].wrong()));
    } catch (const std::exception& error) {
      row.expect(false, error.what() + kind);
    }
    run_commands(field, ponds, row, number);
    row.expect(system_env().read_file(victim) == theirs, "the file outside, by a command" + kind);
  }
  return row;
}

}  // namespace evet::faults
