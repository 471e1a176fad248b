#include "matcher/catalogue/version_vectors.h"

namespace evet {

VersionVectors::VersionVectors(const std::vector<Said<Merge>>& merges) {
  for (const auto& said : merges) merges_[said.stamp.device][said.stamp.seq] = &said.what.heads;
}

bool VersionVectors::happened_before(const Stamp& earlier, const Stamp& later) const {
  if (later.device == earlier.device) return earlier.seq < later.seq;
  const auto device = merges_.find(later.device);
  if (device == merges_.end()) return false;
  auto merge = device->second.lower_bound(later.seq);  // the last one before it says the most
  if (merge == device->second.begin()) return false;
  --merge;
  const auto head = merge->second->find(earlier.device);
  return head != merge->second->end() && earlier.seq <= head->second.seq;
}

}  // namespace evet
