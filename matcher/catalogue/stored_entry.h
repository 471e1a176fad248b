// An entry and where in the database it lies.
#pragma once
#include <cstdint>

#include "matcher/catalogue/entry.h"

namespace evet {

struct StoredEntry {
  std::int64_t position = 0;  // its row: grows in the order in which this folder took entries in
  Entry entry;
};

}  // namespace evet
