// A folder that is a catalogue and holds what the program never writes: a schema that would act by itself, a
// journal that names another file, a link out of it. Nobody opens it; to an audit it is a finding.
#pragma once
#include "matcher/base/error.h"

namespace evet {

struct AlteredCatalogue : Error {
  AlteredCatalogue(const std::string& item, const Message& wrong, const Message& right)
      : Error(ErrorKind::bad_input, item, wrong, right) {}
};

}  // namespace evet
