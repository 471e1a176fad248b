// The captures themselves, before anyone is joined to anyone: corrections applied, photos attached, twins
// merged.
#pragma once
#include <unordered_map>
#include <vector>

#include "matcher/catalogue/identities.h"
#include "matcher/catalogue/in_force.h"

namespace evet {

struct GatheredCapture {
  CaptureState state;  // identity not filled in yet
  Stamp stamp;         // of its entry
};

struct Gathered {
  std::vector<GatheredCapture> captures;        // by night, then id
  std::unordered_map<CaptureId, int> index_of;  // twins' ids lead to the capture that stands for them
};

// Twins: captures of one night, place and name that share a photo, as when two laptops take in the same
// sheet. The one with the smallest id stands for all.
Gathered gather(const Statements& statements, const Force& force);

}  // namespace evet
