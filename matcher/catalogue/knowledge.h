// What a device knew when it wrote an entry: its own earlier entries, and those that its merges had brought
// in.
#pragma once
#include <map>
#include <unordered_map>

#include "matcher/catalogue/statements.h"

namespace evet {

class Knowledge {
 public:
  explicit Knowledge(const std::vector<Said<Merge>>& merges);
  // Whether `earlier` was in the folder when `later` was written.
  bool knew(const Stamp& later, const Stamp& earlier) const;

 private:
  // Of each device: sequence number of a Merge -> what it says of the others.
  std::unordered_map<DeviceId, std::map<std::int64_t, const std::map<DeviceId, Merge::Head>*>> merges_;
};

}  // namespace evet
