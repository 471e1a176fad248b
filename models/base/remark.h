// Something that is said of a figure, or nothing; and sentences that follow each other. Words come last.
#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "matcher/base/message.h"

namespace evet::models {

class Remark {
 public:
  Remark() = default;  // nothing is said
  Remark(const MessageText& text) : said_(Message(text)) {}
  Remark(Message message) : said_(std::move(message)) {}

  bool empty() const { return !said_; }
  const Message& message() const { return *said_; }  // where something is said
  std::string_view code() const { return said_ ? said_->code() : std::string_view(); }
  std::string words() const { return said_ ? said_->words() : std::string(); }

 private:
  std::optional<Message> said_;
};
inline bool operator==(const Remark& a, const Remark& b) {
  return a.code() == b.code() && a.words() == b.words();
}

using Sentences = std::vector<Message>;
// Adds what has not been said yet.
void add_once(Sentences& list, const Message& sentence);
// One after another, parted by spaces.
std::string words(const Sentences& sentences);
// Each by itself.
std::vector<std::string> each_in_words(const Sentences& sentences);

// "sex, age and site", or with another word before the last.
std::string listed(const std::vector<std::string>& names);
std::string listed(const std::vector<std::string>& names, const MessageText& last);

}  // namespace evet::models
