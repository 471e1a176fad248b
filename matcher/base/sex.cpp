#include "matcher/base/sex.h"

namespace evet {

const char* name(Sex sex) {
  switch (sex) {
    case Sex::female:
      return "female";
    case Sex::male:
      return "male";
    case Sex::unknown:
      break;
  }
  return "unknown";
}

std::optional<Sex> sex_named(const std::string& text) {
  if (text.empty() || text == "unknown") return Sex::unknown;
  if (text == "female") return Sex::female;
  if (text == "male") return Sex::male;
  return std::nullopt;
}

}  // namespace evet
