// Which entry happened before which: a device has seen its own earlier entries, and those that its merges
// brought in. Version vectors, after D. S. Parker et al. 1983, IEEE Transactions on Software Engineering
// SE-9:240-247 (from memory): each Merge names the last entry seen of every other device.
#pragma once
#include <map>
#include <unordered_map>

#include "matcher/catalogue/statements.h"

namespace evet {

class VersionVectors {
 public:
  explicit VersionVectors(const std::vector<Said<Merge>>& merges);
  // Whether `earlier` was in the folder when `later` was written.
  bool happened_before(const Stamp& earlier, const Stamp& later) const;

 private:
  // Of each device: sequence number of a Merge -> what it says of the others.
  std::unordered_map<DeviceId, std::map<std::int64_t, const std::map<DeviceId, Merge::Head>*>> merges_;
};

}  // namespace evet
