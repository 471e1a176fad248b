// Patterns that wait in memory for the next ranking, so that the verdict on one capture does not have tens of
// thousands of photos read again. What was examined since is read anew.
//
// For one catalogue object, and as large as the gallery that is made of it: the spot maps
// themselves are shared.
#pragma once
#include <optional>
#include <unordered_map>
#include <vector>

#include "matcher/catalogue/photo_work.h"

namespace evet {

class PatternCache {
 public:
  // As patterns_of(): in the order asked for, absent where the photo has none. One that was left out is tried
  // again the next time: it may have been put back.
  std::vector<std::optional<Pattern>> of(Catalogue& catalogue, const std::vector<PhotoRef>& photos,
                                         int threads, LeftOut* left_out = nullptr);

 private:
  void forget_examined(const Statements& statements);
  std::unordered_map<PhotoId, std::optional<Pattern>> kept_;
  size_t examinations_ = 0, withdrawals_ = 0;  // of the ledger, when it was last looked at
};

}  // namespace evet
