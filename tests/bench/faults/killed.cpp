#include "tests/bench/faults/catalogue_faults.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <random>

#include "matcher/base/error.h"
#include "matcher/catalogue/merge.h"
#include "tests/bench/faults/ponds.h"
#include "tests/bench/faults/program.h"
#include "tests/matcher/base/strict_disk.h"
#include "tests/matcher/catalogue/faulty_disk.h"

namespace evet::faults {
namespace {

namespace fs = std::filesystem;
using namespace try_out;

}  // namespace

namespace {

// What a process does until it is killed; each acknowledgement is a byte through the pipe.
void append_or_merge(const fs::path& copy, const fs::path& other, const Ponds& ponds, bool merges, int to) {
  const auto acknowledge = [&] {
    if (::write(to, "!", 1) != 1) ::_exit(3);
  };
  Catalogue catalogue = Catalogue::open(copy, system_env());
  if (merges) {
    Catalogue from = Catalogue::open_apart(other, system_env());
    merge(catalogue, from, person("R1"));
    return acknowledge();
  }
  for (int i = 0; i < 6; ++i) {
    catalogue.append(person("R1"), {LabelGiven{ponds.capture, "Dot " + std::to_string(i)}});
    acknowledge();
  }
}

}  // namespace

// A process that takes over a catalogue from elsewhere, and adds to it or merges another into it, is killed at its
// n-th change; what it acknowledged is there, and the rest whole or not.
Row kills(size_t wanted, unsigned seed) {
  Row row{
      "processes killed at a write, while a catalogue from elsewhere is taken over, added to, or merged "
      "into: "
      "acknowledged entries lost or catalogue not whole"};
  const Ponds ponds;
  const fs::path other = ponds.folder.path / "other";
  { SamplePond made(other, "o-"); }
  const AsTheProgram program(ponds.folder.path / "state/own");
  append_or_merge(ponds.copy(), other, ponds, true, ::open("/dev/null", O_WRONLY));
  const std::string merged = told_by(ponds.folder.path / "copy");
  std::mt19937 random(seed);
  while (row.tried < wanted) {
    const fs::path copy = ponds.copy();
    const bool merges = random() % 3 == 0;
    int pipe[2];
    if (::pipe(pipe) != 0) break;
    const int at = 1 + static_cast<int>(random() % 60);
    const pid_t child = ::fork();
    if (child == 0) {
      FaultyDisk disk;
      disk.fail_at(at, DiskFault::kill);
      append_or_merge(copy, other, ponds, merges, pipe[1]);
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
    const std::string when = (merges ? " of a merge" : "") + (" after change " + std::to_string(at));
    if (merges) {
      const std::string who = told_by(copy);
      row.expect(who == merged || (who == ponds.who && acknowledged == 0), "captures" + when);
    } else {
      Catalogue catalogue = Catalogue::open(copy, system_env(), {.access = Access::read});
      const size_t labels = catalogue.ledger({.kind = LabelGiven::kKind}).size();
      row.expect(labels == acknowledged || labels == acknowledged + 1, "labels" + when);
    }
    row.expect(audits(copy), "audit" + when);
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

// Every change of a merge and of an append fails once, by an error and by a full disk.
Row failing_writes() {
  Row row{
      "n-th change of the database failing, for every n of append and merge: something taken in, or not "
      "writable after"};
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

}  // namespace evet::faults
