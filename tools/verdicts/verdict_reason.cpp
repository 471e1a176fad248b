#include "tools/verdicts/verdict_reason.h"

#include <algorithm>

#include "tools/verdicts/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet {

std::string reason_from_evidence(const Verdict& verdict) {
  const Evidence& evidence = verdict.evidence;
  if (verdict.answer == Answer::new_individual && evidence.new_probability)
    return in_words(messages::kNewWithProbability, {{"p", percent(*evidence.new_probability)}});
  const auto best = std::find_if(evidence.shown.begin(), evidence.shown.end(),
                                 [&](const Shown& one) { return one.capture == verdict.other; });
  if (verdict.answer != Answer::same || best == evidence.shown.end()) return {};
  return in_words(messages::kSameWithProbability, {{"p", percent(best->probability)}});
}

std::string reason_shown(const Actor& by, const Verdict& verdict) {
  if (by.kind != ActorKind::program || by.name == kProgramOnPage) return verdict.reason;
  const std::string anew = reason_from_evidence(verdict);
  return anew.empty() ? verdict.reason : anew;
}

}  // namespace evet
