// A folder that is a catalogue and holds what the program never writes: a schema that would act by itself, a
// journal that names another file, a link out of it. Nobody opens it; to an audit it is a finding.
#pragma once
#include <utility>

#include "matcher/base/error.h"

namespace evet {

struct AlteredCatalogue : Error {
  AlteredCatalogue(const std::string& item, Reason reason)
      : Error(ErrorKind::bad_input, item, std::move(reason)) {}
};

}  // namespace evet
