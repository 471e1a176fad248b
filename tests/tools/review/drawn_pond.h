// A catalogue with drawn bellies: patterns and strips go straight into the cache, so that a night costs
// milliseconds and thirty thousand photos a minute. For tests of the review page; the whole way from photos
// is tested elsewhere.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"

namespace evet::try_out {

struct PondPlan {
  int animals = 6;               // in the catalogue before the night
  int captures_each = 2;         // of those, on earlier nights
  int patterns = 1000000;        // different ones; fewer where only the number of entries matters
  bool labels_on_sheet = false;  // identities known by other means
  // The last night: animals caught again, new ones, captures without a usable photo.
  int again = 4, fresh = 2, unusable = 1;
  int fresh_twice = 0;  // of the new ones, caught a second time in the same night
  int fresh_later = 0;  // of the new ones, caught again on a night three days on
};

struct DrawnPond {
  std::vector<std::vector<CaptureId>> captures;   // of each animal, oldest first
  std::vector<CaptureId> again, fresh, unusable;  // of the last night; again[i] is animal i
  std::vector<CaptureId> twice;                   // twice[i] is the animal of fresh[i]
  std::vector<CaptureId> later;                   // later[i] is the animal of fresh[i]
  std::string last_night;
};

// Makes the catalogue in `folder`, which must not exist.
DrawnPond draw_pond(const std::filesystem::path& folder, const PondPlan& plan = {});

}  // namespace evet::try_out
