#include "tools/words/history_cautions.h"

#include "tools/words/text.h"

namespace evet {

std::vector<std::string> cautions(const HistoriesReport& report) {
  std::vector<std::string> out;
  const auto say = [&](size_t n, const std::string& one, const std::string& many, const std::string& rest) {
    if (n > 0) out.push_back(counted(n, "capture") + " " + (n == 1 ? one : many) + " " + rest);
  };
  // Each kind of open capture with what can settle it.
  size_t open = 0, unmatchable = 0, contested = 0;
  for (const NotedCapture& capture : report.unsettled)
    ++(capture.disputed ? contested : capture.usable ? open : unmatchable);
  const auto it = [](size_t n) { return std::string(n == 1 ? "it" : "them"); };
  say(open, "is", "are",
      "not settled and left out; settle " + it(open) + " with 'evet rank --accept' and 'evet verdict'");
  say(unmatchable, "is", "are",
      "left out because no photo of " + it(unmatchable) +
          " can be matched; only a person who knows the animal can settle " + it(unmatchable) +
          ", with 'evet verdict'");
  say(contested, "is", "are",
      "in dispute and left out: verdicts about " + it(contested) +
          " contradict each other; settle that on the page of 'evet review'");
  const size_t doubtful = report.disputed.size() - contested;
  say(doubtful, "is", "are",
      "in dispute: verdicts about " + it(doubtful) + " contradict each other; settle that on the page of " +
          "'evet review'");
  for (const std::string& night : report.open_nights)
    out.push_back(
        "the night of " + night +
        " is not settled: it is no night without a catch, and figures stop before it unless who was "
        "caught is drawn");
  say(report.by_program.size(), "was", "were", "placed by the program alone; no person has looked");
  if (const size_t n = report.seen_after_loss.size(); n > 0)
    out.push_back(counted(n, "animal") + " noted as not released " + (n == 1 ? "was" : "were") +
                  " caught later: not counted as lost");
  return out;
}

}  // namespace evet
