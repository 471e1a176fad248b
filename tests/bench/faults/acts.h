// What a user does with a catalogue, each act on a copy of its own and in a process of its own, so that it can
// be broken anywhere: a night taken in, ranked and accepted, a verdict, a merge, a verdict on the page, an audit of
// what holds and of what does not.
#pragma once
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "matcher/catalogue/reader_keys.h"
#include "tests/bench/faults/row.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet::faults {

struct Act {
  std::string name;
  std::filesystem::path before;                                // the catalogue that it starts from
  std::function<bool(const std::filesystem::path& pond)> run;  // whether it was acknowledged
  bool whole = true;                                           // all or nothing; else a run that carries on
  bool apart = false;      // what is from elsewhere is read in another process, as the program does
  bool holds = true;       // as an audit sees it, before and after
  bool elsewhere = false;  // the catalogue was not written on this machine: it is taken over first
  std::string sketch_before{}, sketch_after{};
};

// Who is who, without the ids that differ from run to run.
std::string sketch(const std::filesystem::path& pond);

class Acts {
 public:
  Acts();  // takes in two nights: some seconds
  const std::vector<Act>& all() const { return acts_; }
  const std::filesystem::path& folder() const { return folder_.path; }

 private:
  try_out::Folder folder_;
  ReaderKeys keys_{system_env(), folder_.path / "keys"};  // what is said is signed
  std::vector<Act> acts_;
};

// How a child process ended.
struct Ended {
  bool acknowledged = false;
  bool power_gone = false;
  bool without_memory = false;  // told and ended where nothing could be thrown (tools/evet/out_of_memory.h)
  std::string crashed{};        // by a signal or by hanging
};
// Runs `act` on `pond` in a child, in which `arm` is called first and `done` last.
Ended in_child(const Act& act, const std::filesystem::path& pond, const std::function<void()>& arm,
               const std::function<void()>& done = {});

// After a child: the catalogue opens and audits, what was acknowledged is there, what was not left nothing or
// is carried on by the same act again.
void check_after(Row& row, const Act& act, const std::filesystem::path& pond, const Ended& ended,
                 const std::string& when);

std::filesystem::path fresh_copy(const Act& act, const std::filesystem::path& folder);

}  // namespace evet::faults
