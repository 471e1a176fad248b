#include "matcher/catalogue/agreement.h"

#include <algorithm>
#include <map>
#include <set>
#include <unordered_set>

#include "matcher/catalogue/version_vectors.h"

namespace evet {
namespace {

using Pair = std::pair<CaptureId, CaptureId>;

// Twins are one capture.
CaptureId one_of(const Identities& who, const CaptureId& id) {
  const CaptureState* capture = who.capture(id);
  return capture == nullptr ? id : capture->id;
}
Pair pair_of(const Identities& who, const CaptureId& a, const CaptureId& b) {
  const CaptureId x = one_of(who, a), y = one_of(who, b);
  return x < y ? Pair{x, y} : Pair{y, x};
}
std::optional<IndividualId> individual_of(const Identities& who, const CaptureId& id) {
  const CaptureState* capture = who.capture(id);
  return capture == nullptr ? std::nullopt : capture->individual;
}

CaseAnswer case_answer(Answer answer) {
  return answer == Answer::same          ? CaseAnswer::same
         : answer == Answer::cannot_tell ? CaseAnswer::cannot_tell
                                         : CaseAnswer::different;
}

// Verdicts of people that stand as said: all but the withdrawn. Oldest first.
std::vector<const Said<Verdict>*> said_by_people(const Statements& statements, const Identities& who) {
  std::unordered_set<EntryId> withdrawn;
  for (const auto& said : statements.withdrawals)
    if (who.in_force(said.stamp.id) && said.stamp.actor.kind == ActorKind::person)
      withdrawn.insert(said.what.target);
  std::vector<const Said<Verdict>*> list;
  for (const auto& said : statements.verdicts)
    if (said.stamp.actor.kind == ActorKind::person && !withdrawn.contains(said.stamp.id))
      list.push_back(&said);
  std::sort(list.begin(), list.end(), [](const auto* x, const auto* y) { return x->stamp.id < y->stamp.id; });
  return list;
}

// Answers to questions that were not put in words: whoever declares a capture new, or the same as another
// individual, says that it is none of those who were in the catalogue by then, as far as their device knew.
class Implied {
 public:
  Implied(const Statements& statements, const Identities& who) : who_(who), versions_(statements.merges) {
    for (const auto& said : statements.captures)
      if (!said.what.facts.individual.empty())
        placing_[one_of(who, said.what.id)].push_back({&said.stamp, {}});
    for (const auto& said : statements.verdicts) {
      const Verdict& verdict = said.what;
      if (verdict.planted || (verdict.answer != Answer::same && verdict.answer != Answer::new_individual))
        continue;
      const CaptureId subject = one_of(who, verdict.capture), other = one_of(who, verdict.other);
      placing_[subject].push_back({&said.stamp, other});
      if (!verdict.other.empty()) placing_[other].push_back({&said.stamp, subject});
    }
  }

  // What the verdict answers to the pair of `a` and `b`, given that it is about `a`; nothing when it leaves
  // it open.
  std::optional<CaseAnswer> answer(const Said<Verdict>& said, const CaptureId& a, const CaptureId& b) const {
    const Verdict& verdict = said.what;
    const CaptureId subject = one_of(who_, verdict.capture), other = one_of(who_, verdict.other);
    if ((subject == a && other == b) || (subject == b && other == a)) return case_answer(verdict.answer);
    if (subject != a || !placed_before(said.stamp, b, a)) return std::nullopt;
    if (verdict.answer == Answer::new_individual) return CaseAnswer::different;
    if (verdict.answer != Answer::same) return std::nullopt;
    const auto theirs = individual_of(who_, other), asked = individual_of(who_, b);
    return theirs && asked && *theirs != *asked ? std::optional(CaseAnswer::different) : std::nullopt;
  }

 private:
  struct Placing {
    const Stamp* by;
    CaptureId with;  // the other capture of a verdict; empty for "new" and for the sheet
  };
  bool placed_before(const Stamp& said, const CaptureId& capture, const CaptureId& not_with) const {
    const auto found = placing_.find(capture);
    return found != placing_.end() &&
           std::any_of(found->second.begin(), found->second.end(), [&](const Placing& placing) {
             return placing.with != not_with && versions_.happened_before(*placing.by, said);
           });
  }

  const Identities& who_;
  const VersionVectors versions_;
  std::map<CaptureId, std::vector<Placing>> placing_;
};

std::vector<JudgedCase> judged(const std::vector<const Said<Verdict>*>& verdicts, const Identities& who,
                               const Implied& implied, int& not_independent) {
  std::map<CaptureId, std::vector<const Said<Verdict>*>> about;
  std::set<Pair> pairs;
  for (const auto* said : verdicts) {
    if (said->what.planted) continue;
    about[one_of(who, said->what.capture)].push_back(said);
    if (said->what.other.empty()) continue;
    about[one_of(who, said->what.other)].push_back(said);
    pairs.insert(pair_of(who, said->what.capture, said->what.other));
  }
  std::vector<JudgedCase> cases;
  for (const auto& [a, b] : pairs) {
    std::map<EntryId, std::pair<const Said<Verdict>*, CaseAnswer>> by_age;
    for (const auto& [one, other] : {std::pair(a, b), std::pair(b, a)})
      for (const auto* said : about[one])
        if (const auto answer = implied.answer(*said, one, other)) by_age[said->stamp.id] = {said, *answer};
    JudgedCase judged{a, b, {}};
    std::set<std::string> readers;
    for (const auto& [id, given] : by_age) {
      const auto& [said, answer] = given;
      if (!readers.insert(said->stamp.actor.name).second) continue;
      if (!judged.answers.empty() && !said->what.blind)
        ++not_independent;
      else
        judged.answers.emplace_back(said->stamp.actor.name, answer);
    }
    std::sort(judged.answers.begin(), judged.answers.end());
    if (judged.answers.size() >= 2) cases.push_back(std::move(judged));
  }
  return cases;
}

std::vector<ReaderPair> reader_pairs(const std::vector<JudgedCase>& cases, double level) {
  std::map<std::pair<std::string, std::string>, ReaderPair> pairs;
  for (const JudgedCase& one : cases)
    for (size_t i = 0; i < one.answers.size(); ++i)
      for (size_t j = i + 1; j < one.answers.size(); ++j) {
        ReaderPair& pair = pairs[{one.answers[i].first, one.answers[j].first}];
        if (pair.table.empty()) {
          pair.first = one.answers[i].first, pair.second = one.answers[j].first;
          pair.table.assign(kCaseAnswers, std::vector<int>(kCaseAnswers));
        }
        ++pair.table[static_cast<size_t>(one.answers[i].second)][static_cast<size_t>(one.answers[j].second)];
        ++pair.cases;
      }
  std::vector<ReaderPair> list;
  for (auto& [names, pair] : pairs) {
    pair.kappa = cohen_kappa(pair.table, level);
    list.push_back(std::move(pair));
  }
  return list;
}

// Whether the planted verdict was about one animal seen twice; nothing when nobody knows.
std::optional<bool> truth(const Verdict& verdict, const Identities& who) {
  const CaptureState* capture = who.capture(verdict.capture);
  if (capture == nullptr || !capture->individual || capture->disputed) return std::nullopt;
  if (verdict.answer == Answer::new_individual)
    return who.individual(*capture->individual)->captures.size() > 1;
  const CaptureState* other = who.capture(verdict.other);
  if (other == nullptr || !other->individual || other->disputed) return std::nullopt;
  return *capture->individual == *other->individual;
}

std::vector<ReaderErrors> planted_errors(const std::vector<const Said<Verdict>*>& verdicts,
                                         const Identities& who, double level) {
  struct Count {
    int mated = 0, missed = 0, not_mated = 0, wrong = 0, open = 0, unknown = 0;
  };
  std::map<std::string, Count> counts;
  for (const auto* said : verdicts) {
    if (!said->what.planted) continue;
    Count& count = counts[said->stamp.actor.name];
    const auto mated = truth(said->what, who);
    const CaseAnswer answer = case_answer(said->what.answer);
    if (!mated) {
      ++count.unknown;
    } else if (answer == CaseAnswer::cannot_tell) {
      ++count.open;
    } else if (*mated) {
      ++count.mated, count.missed += answer == CaseAnswer::different;
    } else {
      ++count.not_mated, count.wrong += answer == CaseAnswer::same;
    }
  }
  std::vector<ReaderErrors> list;
  list.reserve(counts.size());
  for (const auto& [reader, count] : counts)
    list.push_back({reader, error_rate(count.wrong, count.not_mated, level),
                    error_rate(count.missed, count.mated, level), count.open, count.unknown});
  return list;
}

}  // namespace

bool JudgedCase::agreed() const {
  return std::all_of(answers.begin(), answers.end(),
                     [&](const auto& answer) { return answer.second == answers.front().second; });
}

Agreement agreement(const Statements& statements, const Identities& identities, double level) {
  Agreement out;
  const auto verdicts = said_by_people(statements, identities);
  out.cases = judged(verdicts, identities, Implied(statements, identities), out.not_independent);
  out.pairs = reader_pairs(out.cases, level);
  std::vector<std::vector<int>> counts;
  for (const JudgedCase& one : out.cases) {
    counts.emplace_back(kCaseAnswers);
    for (const auto& [reader, answer] : one.answers) ++counts.back()[static_cast<size_t>(answer)];
  }
  out.all = fleiss_kappa(counts, level);
  out.errors = planted_errors(verdicts, identities, level);
  return out;
}

}  // namespace evet
