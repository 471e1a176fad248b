// Searches every capture whose answer is known: once with its individual in the gallery, once without.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "matcher/search/rank.h"
#include "tools/trial/trial_score.h"

namespace evet::trial {

struct KnownCapture {
  std::string individual;
  QueryCapture capture;  // no photos: none was usable, a failure to acquire
  bool enrolled = true;  // belongs to the gallery (never to the one it is searched in itself)
  bool searched = true;
  // Captures that bear the same were in hand on one evening: none of them is in the gallery when another is
  // searched, as none was in the catalogue then. Empty: of no account.
  std::string evening{};
  std::map<std::string, std::string> groups;
};

struct RunOptions {
  SearchOptions search;  // `keep` is of no account: every candidate is wanted
  int threads = 2;
  std::function<void(size_t done, size_t of)> progress;  // called from one thread at a time; may be empty
};

// In order of the captures, whatever the number of threads. A searched capture whose individual has no other
// enrolled capture gives a non-mated search only.
Trial run(const std::vector<KnownCapture>& captures, const RunOptions& options = {});

}  // namespace evet::trial
