// The captures themselves, before anyone is joined to anyone: corrections applied, photos
// attached, twins merged.
#pragma once
#include <unordered_map>
#include <vector>

#include "matcher/catalogue/identities.h"
#include "matcher/catalogue/retractions.h"

namespace evet {

struct GatheredCapture {
  CaptureState state;  // identity not filled in yet
  Stamp stamp;         // of its entry
};

struct Gathered {
  std::vector<GatheredCapture> captures;  // by night, then id
  std::vector<SetAside> set_aside;
  std::unordered_map<CaptureId, int> index_of;  // twins' ids lead to the capture that stands for them
};

// Twins: captures that share a photo byte for byte, as when two laptops take in the same sheet. A picture is
// taken once, of one animal in hand, so that they are one capture even where the sheets do not agree on the
// night or on how the pond is spelt: the one with the smallest id stands for all, and what the others say
// otherwise is kept as a question. Where it does not know the animal and a twin does, the twin's word counts;
// an animal that any of them lost is lost.
Gathered gather(const Statements& statements, const Retractions& retractions);

}  // namespace evet
