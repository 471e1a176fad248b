// A folder that is a catalogue and holds what the program never writes: a schema that would act by itself, a
// journal that names another file, a link out of it. Nobody opens it; to an audit it is a finding.
#pragma once
#include "matcher/base/error.h"

namespace evet {

struct AlteredCatalogue : Error {
  AlteredCatalogue(const std::string& item, const std::string& what_is_wrong,
                   const std::string& what_would_be_right)
      : Error(ErrorKind::bad_input, item, what_is_wrong, what_would_be_right) {}
};

}  // namespace evet
