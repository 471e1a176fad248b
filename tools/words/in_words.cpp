#include "tools/words/in_words.h"

#include <utility>

namespace evet {

std::string in_words(const MessageText& text, std::vector<Message::Argument> arguments) {
  return Message(text, std::move(arguments)).words();
}

}  // namespace evet
