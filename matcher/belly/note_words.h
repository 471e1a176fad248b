// What is said of a finding about a photo: what is wrong and what to do, in the language of who reads it.
#pragma once
#include <optional>
#include <string>

#include "matcher/base/message.h"
#include "matcher/belly/quality.h"

namespace evet {

// "12 % of the belly", and never "0 %" or "100 %" of it; `none` where it is less than half a percent.
Message part_of_belly(double share, const MessageText& none);

// The words of a measure. Nothing for one whose words do not follow from what is kept: why a part of the belly is not
// seen, or what a person did.
std::optional<Message> words_of_note(const std::string& measure, bool blocks, const Quality& quality);

// A kept finding as it is shown, whatever language it was written in; as it was written where that cannot be told.
std::string shown_note(const QualityNote& note, const Quality& quality);

}  // namespace evet
