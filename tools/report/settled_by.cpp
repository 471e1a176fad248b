#include "tools/report/settled_by.h"

#include "tools/report/messages.h"
#include "tools/words/in_words.h"

namespace evet {

std::string SettledBy::words() const {
  if (kind == Kind::program) return in_words(messages::kTheProgram);
  if (kind == Kind::sheet) return in_words(messages::kTheSheet);
  return code;
}

std::string in_words(const ReportDecided& decided) {
  if (decided.how == ReportDecided::How::not_yet) return {};
  if (decided.how == ReportDecided::How::known_by_other_means)
    return in_words(messages::kKnownByOtherMeans, {{"individual", decided.individual}});
  const bool same = decided.how == ReportDecided::How::same;
  if (decided.by.kind == SettledBy::Kind::program)
    return in_words(same ? messages::kSameByProgram : messages::kNewByProgram, {{"date", decided.on}});
  return in_words(same ? messages::kSameBy : messages::kNewBy,
                  {{"who", decided.by.words()}, {"date", decided.on}});
}

}  // namespace evet
