// The machine below everything, made to fail: in this program the C library's calls for memory and files pass
// through here first, so that those of SQLite and of every other library are counted as well.
//
// Either the n-th call of a kind fails, once; or at the n-th change the power goes, and the folder watched is
// left as a disk would leave it that keeps only what was synced. For a process of its own: nothing is undone.
#pragma once
#include <array>
#include <filesystem>
#include <string>

namespace evet::faults {

enum class Step { allocation, read, write, sync, rename };
inline constexpr std::size_t kSteps = 5;
const char* name(Step step);
using Counts = std::array<long, kSteps>;

// From now on the n-th `step` fails (allocation: no memory; write: half of it is done, and the disk is full;
// the others: an input/output error). n = 0: none does, all are counted.
void fail_at(Step step, long n);
// From now on no call fails; how many there were of each kind.
Counts stop_failing();

// What survives of that which was not synced: nothing at all, neither bytes nor names (all that POSIX
// promises); or the names up to some moment and any of the writes, some of them torn, in 512 bytes a piece (a
// file system with a journal for its names).
enum class Disk { forgets, shuffles };
inline constexpr int kPowerIsGone = 77;  // exit status

// At the n-th change under `root` from now on (n = 0: never) the power goes.
void cut_power_at(const std::filesystem::path& root, long n, Disk disk, unsigned seed);
long changes();                  // since then
void lose_what_is_not_synced();  // now, and go on

// Past all of this, to say what was acknowledged.
void say(int pipe, char what);

}  // namespace evet::faults
