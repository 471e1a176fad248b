#include "matcher/catalogue/knowledge.h"

namespace evet {

Knowledge::Knowledge(const std::vector<Said<Merge>>& merges) {
  for (const auto& said : merges) merges_[said.stamp.device][said.stamp.seq] = &said.what.heads;
}

bool Knowledge::knew(const Stamp& later, const Stamp& earlier) const {
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
