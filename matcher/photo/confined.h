// Processes for work on bytes from elsewhere, where they can do no harm: each confines itself (sandbox.h) before
// it reads the first of them. What it answers is not believed by whoever asked.
//
// A process of their own makes them, forked before there is any thread and anything worth having in memory.
#pragma once
#include <functional>
#include <memory>
#include <mutex>
#include <span>
#include <vector>

#include "matcher/photo/wire.h"

namespace evet {

// Runs in the new process, beside its line to the asker, until it returns or throws. Nothing but the line is
// open, as descriptor 3. It calls confine() before it reads what the asker does not vouch for.
using ConfinedWork = std::function<void(Line& line)>;
inline constexpr int kConfinedLine = 3;

// One such process, as its asker sees it; ended, whatever it is doing, when this goes.
class Confined {
 public:
  Confined(int socket, int process) : line(socket), socket_(socket), process_(process) {}
  ~Confined();
  Confined(const Confined&) = delete;
  Confined& operator=(const Confined&) = delete;
  // Open files for a work that calls take_files(). Errors: LineBroken.
  void hand_over(std::span<const int> files);

  Line line;

 private:
  int socket_, process_;
};

// In the work, before it is confined. Errors: LineBroken when not so many come.
std::vector<int> take_files(std::size_t count);

class ConfinedMaker {
 public:
  // Forks: call it before the first thread. Errors: storage when no process can be had.
  explicit ConfinedMaker(const std::vector<ConfinedWork>& kinds);
  ~ConfinedMaker();
  ConfinedMaker(const ConfinedMaker&) = delete;
  ConfinedMaker& operator=(const ConfinedMaker&) = delete;

  // Of the kind at this place of the list. Errors: storage when no process can be had.
  std::unique_ptr<Confined> make(std::uint8_t kind);

 private:
  std::mutex mutex_;
  int maker_ = -1;  // the socket to the process that makes them
  int maker_pid_ = -1;
};

}  // namespace evet
