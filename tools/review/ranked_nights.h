// The ranking of each night's unsettled captures, worked out beside the page so that no request waits for it.
//
// One thread with a catalogue object of its own. A ranking is made again when the catalogue has come to know
// other individuals; until then the last one stays on view, and its generation says which one a verdict was
// given on.
#pragma once
#include <condition_variable>
#include <deque>
#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <thread>

#include "matcher/base/env.h"
#include "matcher/catalogue/catalogue.h"
#include "matcher/catalogue/search_catalogue.h"
#include "tools/verdicts/objections.h"

namespace evet::review {

struct RankedNight {
  int generation = 0;
  std::string night;
  SearchOptions search;  // what it was made with
  std::unordered_map<CaptureId, RankedCapture> captures;
  std::unordered_map<CaptureId, Evidence> evidence;
  std::map<CaptureId, PeopleSaid> people;
  HeldBack held;  // what the program would have been sure of, had nothing spoken against it
};

struct RankingProgress {
  bool running = false;
  std::size_t done = 0, all = 0;
  std::string failed{};  // why the last ranking of the night failed; empty when it did not
};

class RankedNights {
 public:
  RankedNights(std::filesystem::path folder, Env& env, int threads);
  ~RankedNights();
  RankedNights(const RankedNights&) = delete;
  RankedNights& operator=(const RankedNights&) = delete;

  // Asks for the night to be ranked, again if `known` differs from what the last ranking was made for.
  // `known` stands for who is in the catalogue and how it ranks: knowledge_of() and settings_of().
  void want(const std::string& night, const std::string& known);
  std::shared_ptr<const RankedNight> of(const std::string& night) const;  // null until there is one
  // One of the last few, for the verdict of a reader who still has it on the table.
  std::shared_ptr<const RankedNight> generation(int generation) const;
  RankingProgress progress(const std::string& night) const;

 private:
  struct Wish {
    std::string night, known;
  };
  void work();
  std::shared_ptr<const RankedNight> rank(Catalogue& catalogue, PatternCache& kept, const std::string& night);

  const std::filesystem::path folder_;
  Env* env_;
  const int threads_;
  mutable std::mutex mutex_;
  std::condition_variable woken_;
  bool stop_ = false;
  int generations_ = 0;
  std::deque<Wish> wishes_;
  std::map<std::string, std::string> made_for_;  // night -> known
  std::map<std::string, std::shared_ptr<const RankedNight>> nights_;
  std::deque<std::shared_ptr<const RankedNight>> recent_;
  std::map<std::string, RankingProgress> progress_;
  std::thread thread_;
};

// Changes when a capture joins or leaves the individuals, a photo becomes usable or not, or people say
// something of a capture that waits which binds the program.
std::string knowledge_of(const Statements& said, const Identities& who);
// Changes with the catalogue's own calibration and costs. Takes in what others wrote, as identities() does.
std::string settings_of(Catalogue& catalogue);

}  // namespace evet::review
