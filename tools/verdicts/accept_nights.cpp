#include "tools/verdicts/accept_nights.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "matcher/base/version.h"
#include "tools/words/names.h"

namespace evet {
namespace {

// What is known while nights are accepted one after the other.
class Standing {
 public:
  virtual ~Standing() = default;
  virtual const Identities& who() = 0;
  virtual const Statements& statements() = 0;
  virtual const Supposed* supposed() = 0;
  virtual void add(const std::vector<Verdict>& verdicts) = 0;
};

class Recorded : public Standing {
 public:
  explicit Recorded(Catalogue& catalogue) : catalogue_(catalogue) {}
  const Identities& who() override { return catalogue_.identities(); }
  const Statements& statements() override { return catalogue_.statements(); }
  const Supposed* supposed() override { return nullptr; }
  void add(const std::vector<Verdict>& verdicts) override {
    catalogue_.append({ActorKind::program, kProgram}, {verdicts.begin(), verdicts.end()});
  }

 private:
  Catalogue& catalogue_;
};

class Previewed : public Standing {
 public:
  explicit Previewed(Catalogue& catalogue) : then_{catalogue.statements(), catalogue.identities()} {}
  const Identities& who() override { return then_.who; }
  const Statements& statements() override { return then_.statements; }
  const Supposed* supposed() override { return &then_; }
  void add(const std::vector<Verdict>& verdicts) override {
    for (const Verdict& verdict : verdicts) {
      Stamp stamp;
      stamp.id = EntryId(fmt::format("fffffff0-0000-7000-8000-{:012x}", ++count_));  // after every real one
      stamp.actor = {ActorKind::program, kProgram};
      then_.statements.verdicts.push_back({stamp, verdict});
      then_.statements.verdicts.back().what.evidence = {};
    }
    then_.who = fold(then_.statements);
  }

 private:
  Supposed then_;
  int count_ = 0;
};

std::set<std::string> open_nights(const Identities& who, const std::string& only) {
  std::set<std::string> nights;
  for (const CaptureState& capture : who.captures)
    if (!capture.individual && !capture.closed && (only.empty() || capture.facts.night == only))
      nights.insert(capture.facts.night);
  return nights;
}

// The night of the capture that the program last judged; empty when it never has.
std::string last_judged(const Statements& statements, const Identities& who) {
  const Said<Verdict>* newest = nullptr;
  for (const auto& said : statements.verdicts)
    if (said.stamp.actor.kind == ActorKind::program &&
        (newest == nullptr || newest->stamp.id < said.stamp.id))
      newest = &said;
  if (newest == nullptr) return {};
  const CaptureState* capture = who.capture(newest->what.capture);
  return capture == nullptr ? std::string() : capture->facts.night;
}

// The first open night after `at`, or else the first of all, that has not been looked at since the ledger
// last changed.
std::string next_night(const std::set<std::string>& open, const std::string& at,
                       const std::set<std::string>& quiet) {
  const auto waiting = [&](const std::string& night) { return !quiet.contains(night); };
  const auto after = std::find_if(open.upper_bound(at), open.end(), waiting);
  if (after != open.end()) return *after;
  const auto any = std::find_if(open.begin(), open.end(), waiting);
  return any == open.end() ? std::string() : *any;
}

// `itself_too`: a night is looked at again with what it taught itself, though no other has taught anything since.
AcceptedNights go_through(Catalogue& catalogue, RankRequest request, Standing& standing, bool itself_too) {
  const std::string only = request.night;
  PatternCache kept;
  if (request.kept == nullptr) request.kept = &kept;
  std::map<CaptureId, RankedLine> lines;
  Accepted accepted;
  std::set<std::string> quiet;
  std::string at = last_judged(standing.statements(), standing.who());
  for (;;) {
    request.night = next_night(open_nights(standing.who(), only), at, quiet);
    if (request.night.empty()) break;
    at = request.night;
    request.supposed = standing.supposed();
    Ranking ranking = rank_unsettled(catalogue, request);
    const Statements& statements = standing.statements();
    const Identities who = standing.who();  // a copy: reading photos may refresh the catalogue's own
    const HeldBack held = hold_back(catalogue, ranking, &who);
    for (RankedLine& line : ranked_lines(catalogue, who, ranking, held)) lines[line.id] = std::move(line);
    const std::vector<Verdict> sure = sure_verdicts(statements, who, ranking);
    for (const Verdict& verdict : sure) ++(verdict.answer == Answer::same ? accepted.same : accepted.fresh);
    if (sure.empty()) {
      quiet.insert(at);
      continue;
    }
    standing.add(sure);
    quiet.clear();  // every other night is looked at again with what it taught
    if (!itself_too) quiet.insert(at);
  }
  AcceptedNights out{{}, accepted};
  for (auto& [id, line] : lines) out.lines.push_back(std::move(line));
  const Identities& who = standing.who();
  std::sort(out.lines.begin(), out.lines.end(), [&](const RankedLine& a, const RankedLine& b) {
    return listed_before(*who.capture(a.id), *who.capture(b.id));
  });
  return out;
}

}  // namespace

AcceptedNights accept_nights(Catalogue& catalogue, RankRequest request) {
  Recorded recorded(catalogue);
  return go_through(catalogue, std::move(request), recorded, true);
}

AcceptedNights preview_nights(Catalogue& catalogue, RankRequest request) {
  Previewed previewed(catalogue);
  return go_through(catalogue, std::move(request), previewed, false);
}

}  // namespace evet
