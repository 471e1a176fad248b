#include "tools/words/animal_words.h"

#include <array>
#include <utility>

#include "tools/words/in_words.h"
#include "tools/words/messages.h"

namespace evet {
namespace {

const std::array<std::pair<const char*, MessageText>, 6> kKnown = {{
    {"female", messages::kFemale},
    {"male", messages::kMale},
    {"adult", messages::kAdult},
    {"subadult", messages::kSubadult},
    {"juvenile", messages::kJuvenile},
    {"metamorph", messages::kMetamorph},
}};

std::string known_word(const std::string& value) {
  for (const auto& [name, text] : kKnown)
    if (value == name) return in_words(text);
  return value;
}

}  // namespace

std::string animal_in_words(const std::string& sex, const std::string& stage) {
  std::string words = sex == "unknown" ? std::string() : known_word(sex);
  if (!stage.empty()) words += (words.empty() ? "" : ", ") + known_word(stage);
  return words;
}

}  // namespace evet
