// A trial as one JSON document. Shares lie in 0..1; an interval is [low, high].
#include <cmath>

#include "tools/trial/trial_report.h"
#include "tools/words/costs_words.h"

namespace evet::trial {
namespace {

using Json = nlohmann::json;

Json json_of(const Rate& r) {
  if (r.of == 0)
    return {{"value", nullptr}, {"interval", nullptr}, {"count", 0}, {"of", 0}, {"individuals", 0}};
  return {{"value", r.value},
          {"interval", {r.low, r.high}},
          {"count", r.count},
          {"of", r.of},
          {"individuals", r.individuals}};
}

Json json_of(const Interval& i) {
  return {i.low, i.high};
}

Json number(double value) {
  return std::isfinite(value) ? Json(value) : Json();
}

Json json_of(const AdviceScore& a) {
  return {{"given", json_of(a.given)}, {"right", json_of(a.right)}};
}

Json json_of(const Refit& r) {
  return {{"kept", r.refused.empty()},
          {"reason", r.refused},
          {"scale", r.map.scale},
          {"shift", r.map.shift},
          {"individuals", r.individuals},
          {"same_pairs", r.same_pairs},
          {"different_pairs", r.different_pairs},
          {"folds", r.folds},
          {"cllr_before", r.before},
          {"cllr_after", r.after},
          {"gain_interval", json_of(r.gain)}};
}

Json groups_json(const TrialReport& r) {
  Json out = Json::object();
  for (const Grouping& g : r.groups)
    for (const GroupScore& one : g.groups) {
      Json json = {{"value", one.value},          {"individuals", one.individuals},
                   {"mated_searches", one.mated}, {"rank_1", json_of(one.rank1)},
                   {"fnir", json_of(one.fnir)},   {"few", one.few}};
      if (!g.mated_only)
        json.update({{"non_mated_searches", one.non_mated},
                     {"fpir", json_of(one.fpir)},
                     {"failure_to_acquire", json_of(one.failure_to_acquire)}});
      out[g.by].push_back(std::move(json));
    }
  return out;
}

// What is a list: ranks, operating points, curves, promises, captures worth a look.
void add_lists(Json& json, const TrialReport& r) {
  const Scores& s = r.scores;
  json["rank_k"] = json["operating_points"] = json["error_curve"] = json["reliability"] = json["promises"] =
      json["worth_a_look"] = Json::array();
  for (const Rate& rate : s.cmc) json["rank_k"].push_back(json_of(rate));
  for (const OperatingPoint& p : s.points)
    json["operating_points"].push_back({{"allowed_fpir", p.allowed_fpir},
                                        {"measurable", p.measurable},
                                        {"log_odds", number(p.odds)},
                                        {"fnir", json_of(p.fnir)},
                                        {"fpir", json_of(p.fpir)}});
  for (const DetPoint& p : s.det)
    json["error_curve"].push_back({{"fpir", p.fpir}, {"fnir", p.fnir}, {"interval", {p.low, p.high}}});
  for (const ReliabilityBin& b : s.reliability)
    json["reliability"].push_back({{"stated", b.stated}, {"right", json_of(b.observed)}});
  for (const Promise& p : r.promises)
    json["promises"].push_back({{"advice", p.advice},
                                {"given", p.given},
                                {"wrong", p.wrong},
                                {"expected_wrong", p.expected_wrong},
                                {"chance", p.p_value},
                                {"holds", p.holds}});
  for (const Suspect& one : r.suspects)
    json["worth_a_look"].push_back({{"capture", one.capture},
                                    {"individual", one.individual},
                                    {"candidate", one.candidate},
                                    {"probability", one.probability},
                                    {"mate_in_catalogue", one.mated}});
}

}  // namespace

Json to_json(const TrialReport& r) {
  const Scores& s = r.scores;
  const Costs costs = costs_of(r.search);
  Json json = {
      {"catalogue", r.catalogue},
      {"ledger_head", r.ledger_head},
      {"truth",
       {{"individuals", r.known.individuals},
        {"caught_twice", r.known.caught_twice},
        {"captures_by_program", r.known.by_program},
        {"captures_unsettled", r.known.unsettled},
        {"captures_disputed", r.known.disputed}}},
      {"gallery", {{"individuals", r.trial.gallery_individuals}, {"photos", r.trial.gallery_photos}}},
      {"searches", {{"mated", s.mated}, {"non_mated", s.non_mated}}},
      {"failure_to_acquire", json_of(r.failure_to_acquire)},
      {"rank_1_with_failures", json_of(s.rank1_of_all)},
      {"cllr",
       {{"bits", s.cost.total},
        {"interval", json_of(s.cost_total)},
        {"discrimination", s.cost.discrimination},
        {"calibration", s.cost.calibration()},
        {"same_pairs", s.same_pairs},
        {"different_pairs", s.different_pairs}}},
      {"advice", {{"same", json_of(s.same)}, {"new", json_of(s.is_new)}, {"look", json_of(s.look)}}},
      {"costs", {{"wrong_join", costs.wrong_join}, {"look", costs.look}}},
      {"calibration",
       {{"own", r.own_calibration},
        {"scale", r.search.calibration.scale},
        {"shift", r.search.calibration.shift}}},
      {"groups", groups_json(r)},
      {"claims", r.claims},
      {"holds", r.holds()},
  };
  add_lists(json, r);
  if (r.refit) json["refit"] = json_of(*r.refit);
  return json;
}

}  // namespace evet::trial
