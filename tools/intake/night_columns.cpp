#include "tools/intake/night_columns.h"

namespace evet {

const std::vector<std::string>& night_columns() {
  static const std::vector<std::string> names{"method", "effort",  "effort_unit", "weather",
                                              "air_c",  "water_c", "holder"};
  return names;
}

}  // namespace evet
