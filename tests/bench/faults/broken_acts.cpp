#include "tests/bench/faults/broken_acts.h"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <regex>

#include "tests/bench/faults/machine.h"

namespace evet::faults {
namespace {

namespace fs = std::filesystem;

// What a child counted, through a pipe.
template <class Value>
Value counted(const Act& act, const fs::path& pond, const std::function<void()>& arm,
              const std::function<Value()>& count) {
  int pipe[2];
  Value value{};
  if (::pipe(pipe) != 0) return value;
  in_child(act, pond, arm, [&] {
    const Value found = count();
    if (::write(pipe[1], &found, sizeof found) != sizeof found) ::_exit(3);
  });
  ::close(pipe[1]);
  if (::read(pipe[0], &value, sizeof value) != sizeof value) value = Value{};
  ::close(pipe[0]);
  return value;
}

Counts calls_of(const Act& act, const fs::path& folder) {
  const fs::path pond = fresh_copy(act, folder);
  return counted<Counts>(
      act, pond, [] { fail_at(Step::read, 0); }, [] { return Counts(stop_failing()); });
}

}  // namespace

std::optional<Nth> nth_of(const std::string& text) {
  static const std::regex form("([a-z-]+):([a-z]+):([0-9]{1,9})(?:-([0-9]{1,9}))?(?:/([0-9]{1,9}))?");
  std::smatch part;
  if (!std::regex_match(text, part, form)) return std::nullopt;
  Nth nth{.act = part[1], .from = std::stol(part[3])};
  nth.to = part[4].matched ? std::stol(part[4]) : nth.from;
  nth.stride = part[5].matched ? std::stol(part[5]) : 1;
  for (std::size_t i = 0; i < kSteps; ++i)
    if (nth.step = static_cast<Step>(i); part[2] == name(nth.step))
      return nth.from > 0 && nth.stride > 0 ? std::optional(nth) : std::nullopt;
  return std::nullopt;
}

namespace {

constexpr const char* kEndedThere =
    "of these, ended at once with exit code 4 since a destructor got no memory: not counted wrong";

void try_fault(const Acts& acts, const Act& act, Step step, long n, Row& row, Row& ended_there) {
  const fs::path pond = fresh_copy(act, acts.folder());
  const Ended ended = in_child(act, pond, [&] { fail_at(step, n); });
  ++row.tried, ended_there.tried += ended.without_memory;
  check_after(row, act, pond, ended, std::string(name(step)) + " " + std::to_string(n));
}

}  // namespace

Row these_faults(const Acts& acts, const std::vector<Nth>& wanted, const Part& part, Row& ended_there) {
  ended_there.what = kEndedThere;
  Row row{"single faults asked for by name"};
  std::size_t turn = 0;
  for (const Nth& nth : wanted)
    for (const Act& act : acts.all())
      for (long n = nth.from; act.name == nth.act && n <= nth.to; n += nth.stride)
        if (turn++ % part.of == part.index) try_fault(acts, act, nth.step, n, row, ended_there);
  return row;
}

Row every_nth_fault(const Acts& acts, const Part& part, Row& ended_there, long most) {
  ended_there.what = kEndedThere;
  Row row{
      "the n-th allocation, read, write, sync or rename fails, in intake, rank, verdict, merge, review and "
      "audit: "
      "crashes, half of an act taken in, acknowledged entries lost, or an act that does not carry on"};
  std::size_t turn = 0;  // which process tries it
  for (const Act& act : acts.all()) {
    const Counts counts = calls_of(act, acts.folder());
    for (std::size_t i = 0; i < kSteps; ++i) {
      const long all = counts[i];
      const double wanted = std::max(1.0, static_cast<double>(std::min(all, most)) * part.share);
      const double stride = static_cast<double>(all) / wanted;
      const double start = stride > 1 ? std::fmod(part.seed * 0.618033988749895, 1.0) * stride : 0;
      for (double at = start; at < static_cast<double>(all); at += stride)
        if (turn++ % part.of == part.index)
          try_fault(acts, act, static_cast<Step>(i), static_cast<long>(at) + 1, row, ended_there);
    }
  }
  return row;
}

Row power_cuts_of_acts(const Acts& acts, std::size_t wanted, const Part& part) {
  Row row{
      "power cuts in intake, rank, verdict, merge and review, on a disk that keeps nothing unsynced and on "
      "one that keeps some of it, torn: acknowledged entries lost, half of an act, or a catalogue not whole"};
  std::mt19937 random(part.seed * 1000 + static_cast<unsigned>(part.index));
  std::vector<long> changes_of;
  for (const Act& act : acts.all()) {
    const fs::path pond = fresh_copy(act, acts.folder());
    changes_of.push_back(counted<long>(
        act, pond, [&] { cut_power_at(pond, 0, Disk::forgets, 0); }, [] { return changes(); }));
  }
  while (row.tried < wanted) {
    const std::size_t which = random() % acts.all().size();
    const Act& act = acts.all()[which];
    if (changes_of[which] == 0) continue;  // it only reads
    const Disk disk = random() % 2 == 0 ? Disk::forgets : Disk::shuffles;
    const long n = 1 + static_cast<long>(random() % static_cast<unsigned long>(changes_of[which] + 2));
    const unsigned seed = random();
    const fs::path pond = fresh_copy(act, acts.folder());
    // Where the act is done before, the power goes right after.
    const Ended ended = in_child(
        act, pond, [&] { cut_power_at(pond, n, disk, seed); }, lose_what_is_not_synced);
    ++row.tried;
    check_after(row, act, pond, ended,
                std::string(disk == Disk::forgets ? "keeping nothing" : "keeping some") + ", change " +
                    std::to_string(n));
  }
  return row;
}

}  // namespace evet::faults
