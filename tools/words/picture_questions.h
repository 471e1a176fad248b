// One picture that several sheets speak of, and not alike: what a person has to settle, in words.
#pragma once
#include <string>
#include <vector>

#include "tools/words/names.h"

namespace evet {

// A sentence for each twin that says otherwise; none where all agree.
std::vector<std::string> picture_questions(const CaptureState& capture, const Names& names);
// Of all captures.
std::vector<std::string> picture_questions(const Identities& who, const Names& names);

}  // namespace evet
