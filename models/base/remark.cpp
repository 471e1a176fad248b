#include "models/base/remark.h"

#include <algorithm>

#include "models/base/messages.h"

namespace evet::models {

void add_once(Sentences& list, const Message& sentence) {
  const auto says_it = [&](const Message& one) { return Remark(one) == Remark(sentence); };
  if (std::none_of(list.begin(), list.end(), says_it)) list.push_back(sentence);
}

std::string words(const Sentences& sentences) {
  std::string text;
  for (const Message& one : sentences) text += (text.empty() ? "" : " ") + one.words();
  return text;
}

std::vector<std::string> each_in_words(const Sentences& sentences) {
  std::vector<std::string> texts;
  texts.reserve(sentences.size());
  for (const Message& one : sentences) texts.push_back(one.words());
  return texts;
}

std::string listed(const std::vector<std::string>& names) {
  return listed(names, messages::kAnd);
}

std::string listed(const std::vector<std::string>& names, const MessageText& last) {
  if (names.empty()) return {};
  std::string first = names.front();
  for (std::size_t i = 1; i + 1 < names.size(); ++i) first += ", " + names[i];
  if (names.size() == 1) return first;
  return Message(last, {{"first", first}, {"last", names.back()}}).words();
}

}  // namespace evet::models
