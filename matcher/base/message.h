// What a person is told, as a value: a code that programs go by, and arguments. Words come last, through a
// catalogue in the form of GNU gettext, so that they can be translated; English needs no file.
//
// The texts stand in a messages.h of each folder, and nowhere does code read words back: it asks for the code or
// an argument. tools/messages.sh gathers the texts for translators.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace evet {

// One text of the catalogue. `code` stays for good, `english` is what a translator is given: {names} stand for
// arguments. Where `english_many` is given the argument {n} decides which of the two is said.
struct MessageText {
  constexpr MessageText(const char* the_code, const char* the_english)
      : code(the_code), english(the_english) {}
  constexpr MessageText(const char* the_code, const char* one, const char* many)
      : code(the_code), english(one), english_many(many) {}
  const char* code;
  const char* english;
  const char* english_many = nullptr;
};

class Message {
 public:
  struct Argument;
  Message(const MessageText& text);  // without arguments; implicit, it reads well
  Message(const MessageText& text, std::vector<Argument> arguments);

  std::string_view code() const { return text_->code; }
  // As it stands in the words; empty when there is none of that name.
  std::string argument(std::string_view name) const;
  // In the language of the surroundings (LANGUAGE, LC_MESSAGES), English where that has no words for it.
  std::string words() const;

 private:
  const MessageText* text_;  // one of the constants of a messages.h: they outlive every message
  std::vector<Argument> arguments_;
};

// A number says itself in digits; a message within a message is worded with it.
struct Message::Argument {
  std::string name;
  std::variant<std::string, std::size_t, Message> value;
};

// Words that stand in no catalogue yet, or came from elsewhere: their code is empty.
Message bare(std::string words);

// What is wrong, and what would be right.
struct Reason {
  Message wrong;
  std::optional<Message> right{};
  std::string words() const;  // "'fermale' is not known; did you mean female?"
};

// From here on words come from the translations below `folder` (<language>/LC_MESSAGES/evet.mo), in the
// language of the surroundings. For programs; never called, everything is said in English.
void speak_from(const std::string& folder);

}  // namespace evet
