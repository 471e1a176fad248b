// The words of the page's scripts in the language of the surroundings (matcher/base/message.h).
//
// The scripts are written in English, each text as t('...'), or counted(n, '...', '...') where a number decides, and
// are the list of what there is to say: nothing is named twice. See tools/review/page/words.js.
#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace evet::review {

struct PageTexts {
  std::vector<std::string> one;
  std::vector<std::pair<std::string, std::string>> many;  // both forms, with {n}
};
PageTexts texts_in_script(std::string_view script);

// A module that exports what differs from English: {one: {english: words}, many: {english: {forms, which}}}, `which`
// a form for each number from 0 to 199.
std::string spoken_script();

}  // namespace evet::review
