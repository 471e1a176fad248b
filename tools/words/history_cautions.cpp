#include "tools/words/history_cautions.h"

#include "tools/words/messages.h"

namespace evet {

std::vector<Message> cautions(const HistoriesReport& report) {
  std::vector<Message> out;
  const auto say = [&](size_t n, const MessageText& text) {
    if (n > 0) out.push_back({text, {{"n", n}}});
  };
  // Each kind of open capture with what can settle it.
  size_t open = 0, unmatchable = 0, contested = 0;
  for (const NotedCapture& capture : report.unsettled)
    ++(capture.disputed ? contested : capture.usable ? open : unmatchable);
  say(open, messages::kOpenCaptures);
  say(unmatchable, messages::kUnmatchableCaptures);
  say(contested, messages::kContestedCaptures);
  say(report.disputed.size() - contested, messages::kDoubtfulCaptures);
  for (const std::string& night : report.open_nights)
    out.push_back({messages::kOpenNight, {{"night", night}}});
  say(report.by_program.size(), messages::kPlacedByProgram);
  say(report.seen_after_loss.size(), messages::kSeenAfterLoss);
  return out;
}

}  // namespace evet
