#include "tools/words/numbers_listed.h"

#include <sstream>

#include "matcher/base/error.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {

std::vector<int> numbers_listed(const std::string& item, const std::string& text) {
  std::vector<int> out;
  std::istringstream parts(text);
  for (std::string part; std::getline(parts, part, ',');) {
    int from = 0, to = 0;
    char dash = 0, rest = 0;
    std::istringstream one(part);
    const bool single = static_cast<bool>(one >> from) && (one >> std::ws).eof();
    if (single) to = from;
    const bool range = !single && static_cast<bool>(one >> dash >> to) && dash == '-' && !(one >> rest);
    if (!(single || range) || from > to || from < 1 || to - from > 100)
      throw Error(ErrorKind::usage, item, Message(messages::kNoNumberAndNoRange, {{"text", in_quotes(part)}}),
                  messages::kWriteNumbersListed);
    for (int n = from; n <= to; ++n) out.push_back(n);
  }
  if (out.empty())
    throw Error(ErrorKind::usage, item, messages::kNoNumbersListed, messages::kWriteNumbersListed);
  return out;
}

}  // namespace evet
