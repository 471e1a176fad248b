#include "tools/verdicts/rank_night.h"

#include <algorithm>
#include <map>

#include "matcher/base/version.h"
#include "matcher/belly/note_words.h"
#include "matcher/search/posterior.h"
#include "tools/verdicts/messages.h"
#include "tools/verdicts/verdict_reason.h"
#include "tools/words/in_words.h"
#include "tools/words/look_reasons.h"
#include "tools/words/names.h"
#include "tools/words/text.h"

namespace evet {
namespace {

RankedLine::Photo photo_line(Catalogue& catalogue, const CaptureId& capture, const PhotoState& state,
                             const LeftOut& left_out) {
  RankedLine::Photo photo{state.name, state.usable, {}};
  if (const auto why = left_out.find(state.photo); why != left_out.end())
    return {state.name, false, {why->second}};
  if (state.usable) return photo;
  const Examination seen = catalogue.photo(state.photo, capture).examination;
  for (const QualityNote& note : seen.notes)
    if (note.blocks) photo.reasons.push_back(shown_note(note, seen.quality));
  return photo;
}

std::string photo_name(const Identities& who, const PhotoId& id, const IndividualId& individual) {
  if (const Individual* found = who.individual(individual))
    for (const CaptureId& capture : found->captures)
      if (const CaptureState* state = who.capture(capture))
        for (const PhotoState& photo : state->photos)
          if (photo.photo == id) return photo.name;
  return id.value;
}

// What the program has said already of captures that are unsettled all the same: people have said otherwise,
// or will. Saying it again would change nothing, for ever.
class SaidInVain {
 public:
  SaidInVain(const Statements& statements, const Identities& who) : who_(who) {
    for (const auto& said : statements.verdicts) {
      if (said.stamp.actor.kind != ActorKind::program) continue;
      if (std::binary_search(who_.out_of_force.begin(), who_.out_of_force.end(), said.stamp.id)) continue;
      const CaptureState* capture = who_.capture(said.what.capture);
      if (capture == nullptr || capture->individual) continue;
      const auto [at, added] = newest_.emplace(capture->id, &said);
      if (!added && at->second->stamp.id < said.stamp.id) at->second = &said;
    }
  }
  bool has(const RankedCapture& ranked) const {
    const auto at = newest_.find(ranked.capture);
    if (at == newest_.end()) return false;
    const Verdict& said = at->second->what;
    if (ranked.advice == Advice::new_individual) return said.answer == Answer::new_individual;
    const CaptureState* other = who_.capture(said.other);
    return said.answer == Answer::same && other != nullptr &&
           other->individual == ranked.candidates.front().individual;
  }

 private:
  const Identities& who_;
  std::map<CaptureId, const Said<Verdict>*> newest_;
};

}  // namespace

bool RankedLine::usable() const {
  return std::any_of(photos.begin(), photos.end(), [](const Photo& photo) { return photo.usable; });
}

std::vector<RankedLine> ranked_lines(Catalogue& catalogue, const Identities& who, const Ranking& ranking,
                                     const HeldBack& held) {
  const Names names(who);
  const LookNames words{[&](const IndividualId& id) { return names.of(id); },
                        [&](const CaptureId& id) { return names.of(*who.capture(id)); }};
  std::vector<RankedLine> lines;
  const auto begin = [&](const CaptureId& id) -> RankedLine& {
    const CaptureState& state = *who.capture(id);
    RankedLine line;
    line.id = id, line.capture = names.of(state), line.night = state.facts.night;
    for (const PhotoState& photo : state.photos)
      line.photos.push_back(photo_line(catalogue, id, photo, ranking.left_out));
    const PeopleSaid& people = ranking.people.at(id);
    for (const SaidOfPair& said : people.different)
      line.ruled_out.push_back({said.individual.empty() ? "" : names.of(said.individual),
                                names.of(*who.capture(said.other)), said.by, said.on});
    line.ruled_out_words = in_words(ruled_out_words(people, words));
    return lines.emplace_back(std::move(line));
  };
  for (const RankedCapture& ranked : ranking.captures) {
    RankedLine& line = begin(ranked.capture);
    for (const Candidate& candidate : ranked.candidates)
      line.candidates.push_back({names.of(candidate.individual), candidate.probability, candidate.score,
                                 photo_name(who, candidate.best_photo, candidate.individual),
                                 candidate.matched_spots});
    line.new_probability = ranked.new_probability;
    line.advice = ranked.advice;
    line.gain = ranked.gain;
    for (const NightMatch& match : ranked.night_matches)
      line.night_matches.push_back({names.of(*who.capture(match.capture)), match.probability});
    if (const auto at = held.find(ranked.capture); at != held.end()) {
      for (const Against& one : at->second)
        line.why.push_back(in_words(messages::kWouldBeSureBut, {{"objection", one.objection.sentence}}));
    } else {
      line.why = in_words(look_reasons(ranked, ranking.people.at(ranked.capture), ranking.search, words));
    }
  }
  for (const CaptureId& id : ranking.unusable) {
    RankedLine& line = begin(id);
    const std::set<IndividualId> ruled_out = ranking.people.at(id).ruled_out();
    std::vector<const Individual*> possible;
    for (const Individual& individual : who.individuals)
      if (!ruled_out.contains(individual.id)) possible.push_back(&individual);
    const Posterior prior =
        posterior(std::vector<double>(possible.size()), ranking.search.prior_recapture, ruled_out.size());
    line.new_probability = prior.is_new;
    for (size_t i = 0; i < possible.size(); ++i)
      line.candidates.push_back({names.of(*possible[i]), prior.individual[i], 0, "", 0});
  }
  std::sort(lines.begin(), lines.end(), [&](const RankedLine& a, const RankedLine& b) {
    return listed_before(*who.capture(a.id), *who.capture(b.id));
  });
  return lines;
}

std::vector<const RankedLine*> to_look_at(const std::vector<RankedLine>& lines) {
  std::vector<const RankedLine*> out;
  for (const RankedLine& line : lines)
    if (line.usable() && line.advice == Advice::look) out.push_back(&line);
  std::stable_sort(out.begin(), out.end(),
                   [](const RankedLine* a, const RankedLine* b) { return a->gain > b->gain; });
  return out;
}

nlohmann::json to_json(const std::vector<RankedLine>& lines) {
  nlohmann::json captures = nlohmann::json::array();
  for (const RankedLine& line : lines) {
    nlohmann::json photos = nlohmann::json::array(), candidates = nlohmann::json::array();
    for (const RankedLine::Photo& photo : line.photos)
      photos.push_back({{"photo", photo.photo}, {"usable", photo.usable}, {"reasons", photo.reasons}});
    for (const RankedLine::Candidate& candidate : line.candidates)
      candidates.push_back({{"individual", candidate.individual},
                            {"probability", candidate.probability},
                            {"score", candidate.score},
                            {"best_photo", candidate.best_photo},
                            {"matched_spots", candidate.matched_spots}});
    captures.push_back({{"capture", line.capture},
                        {"night", line.night},
                        {"photos", photos},
                        {"candidates", candidates},
                        {"new_probability", line.new_probability},
                        {"advice", name(line.advice)}});
    for (const RankedLine::RuledOut& one : line.ruled_out)
      captures.back()["ruled_out"].push_back(
          {{"individual", one.individual.empty() ? nlohmann::json() : nlohmann::json(one.individual)},
           {"capture", one.capture},
           {"by", one.by},
           {"on", one.on}});
  }
  return {{"captures", captures}};
}

void add_queue(nlohmann::json& document, const std::vector<RankedLine>& lines, const Costs& costs) {
  std::vector<const RankedLine*> order = to_look_at(lines);
  for (const RankedLine& line : lines)
    if (line.advice != Advice::look && !line.night_matches.empty()) order.push_back(&line);
  nlohmann::json queue = nlohmann::json::array();
  for (const RankedLine* line : order) {
    queue.push_back({{"capture", line->capture},
                     {"night", line->night},
                     {"advice", name(line->advice)},
                     {"gain", line->gain},
                     {"why", line->why},
                     {"perhaps_one_with", nlohmann::json::array()}});
    for (const RankedLine::NightMatch& match : line->night_matches)
      queue.back()["perhaps_one_with"].push_back(
          {{"capture", match.capture}, {"probability", match.probability}});
  }
  document["queue"] = queue;
  document["costs"] = {{"wrong_join", costs.wrong_join}, {"look", costs.look}};
}

std::vector<Verdict> sure_verdicts(const Statements& statements, const Identities& who,
                                   const Ranking& ranking) {
  std::vector<Verdict> verdicts;
  const SaidInVain in_vain(statements, who);
  for (const RankedCapture& ranked : ranking.captures) {
    if (ranked.advice == Advice::look || in_vain.has(ranked)) continue;
    Verdict verdict{.capture = ranked.capture, .evidence = evidence_of(ranked, ranking.gallery)};
    if (ranked.advice == Advice::same) {
      const Candidate& best = ranked.candidates.front();
      verdict.answer = Answer::same;
      verdict.other = ranking.gallery.capture_of.at(best.best_photo);
    } else {
      verdict.answer = Answer::new_individual;
    }
    verdict.reason = reason_from_evidence(verdict);
    verdicts.push_back(std::move(verdict));
  }
  return verdicts;
}

}  // namespace evet
