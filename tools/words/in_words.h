// A text of a messages.h said at once, for what is printed and kept by nobody as a Message:
//   in_words(messages::kObserver), in_words(messages::kWrote, {{"file", file}}), counted(3, messages::kPhotos).
#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "matcher/base/message.h"
#include "tools/words/messages.h"

namespace evet {

std::string in_words(const MessageText& text, std::vector<Message::Argument> arguments = {});

// A text of one and many, of which {n} is all that it needs: "1 photo", "2 photos". Of a count as it comes: any
// whole number, of 0 or more.
template <typename Count>
std::string counted(Count n, const MessageText& text) {
  return in_words(text, {{"n", static_cast<std::size_t>(n)}});
}

}  // namespace evet
