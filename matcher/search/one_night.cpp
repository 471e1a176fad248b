#include "matcher/search/one_night.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

#include "matcher/base/error.h"
#include "matcher/search/messages.h"
#include "matcher/search/night_joint.h"
#include "matcher/search/posterior.h"

namespace evet {
namespace {

constexpr double kWorthTelling = 0.01;  // a match less likely than this is not mentioned
constexpr double kNoAnswer = 1e-4;      // an answer less likely than this is not followed up

NightModel model_of(const std::vector<RankedCapture>& night, const OneNightOptions& options,
                    const std::vector<NightPair>& pairs) {
  NightModel model;
  model.twice = options.twice_in_a_night;
  std::map<IndividualId, size_t> numbered;
  size_t next = 0;
  const auto number_of = [&](const IndividualId& id) {
    const auto [at, is_first] = numbered.emplace(id, next);
    next += is_first;
    return at->second;
  };
  for (const RankedCapture& ranked : night) {
    NightModel::Capture capture;
    capture.is_new = ranked.new_probability;
    for (const Candidate& candidate : ranked.candidates) {
      // Every further capture of an individual that was found already pays alike, whoever else claims it.
      if (options.taken.contains(candidate.individual))
        capture.claims.push_back({next++, candidate.probability * model.twice});
      else
        capture.claims.push_back({number_of(candidate.individual), candidate.probability});
    }
    model.captures.push_back(std::move(capture));
  }
  // Were all of the unseen as likely to be caught, two new captures would be one animal with chance 1 in that
  // many; an animal caught twice in a night is rarer still by `twice`.
  const double unseen = std::max(options.unseen, static_cast<double>(night.size()));
  for (const NightPair& pair : pairs) {
    const double ratio = model.twice * std::exp(pair.llr) / unseen;
    if (ratio > 1e-4)
      model.captures[std::max(pair.a, pair.b)].kin.push_back({std::min(pair.a, pair.b), ratio});
  }
  return model;
}

// What deciding one capture without a look is expected to cost, in missed joins.
double cost_unseen(const NightMarginals::Capture& p, const SearchOptions& costs) {
  const double best = p.claims.empty() ? 0 : *std::max_element(p.claims.begin(), p.claims.end());
  return std::min(cost_of_joining(best, costs), cost_of_calling_new(p.fresh));
}
double cost(const NightMarginals::Capture& p, const SearchOptions& costs) {
  return std::min(cost_unseen(p, costs), costs.look_over_missed);
}

// The model once a person has said which option of a capture is true.
NightModel answered(const NightModel& model, size_t capture, size_t option) {
  NightModel out = model;
  NightModel::Capture& c = out.captures[capture];
  const size_t claims = c.claims.size();
  for (size_t k = 0; k < claims; ++k)
    if (k != option) c.claims[k].weight = 0;
  if (option < claims)
    c.is_new = 0;
  else if (option == claims)
    c.kin.clear();
  else
    c.kin = {{c.kin[option - claims - 1].founder, 1e12}};  // all but certainly that one
  return out;
}

std::vector<double> gains(const NightModel& model, const NightMarginals& now, const SearchOptions& costs,
                          const OneNightOptions& options) {
  std::vector<double> out(model.captures.size());
  for (size_t i = 0; i < out.size(); ++i) out[i] = cost_unseen(now.captures[i], costs);
  for (const std::vector<size_t>& members : competing(model)) {
    if (members.size() < 2) continue;
    for (const size_t i : members) {
      const NightMarginals::Capture& p = now.captures[i];
      std::vector<double> answers = p.claims;
      answers.push_back(p.fresh);
      answers.insert(answers.end(), p.kin.begin(), p.kin.end());
      for (size_t option = 0; option < answers.size(); ++option) {
        if (answers[option] < kNoAnswer) continue;
        const NightMarginals then = marginals(answered(model, i, option), options.states);
        for (const size_t j : members)
          if (j != i)
            out[i] += answers[option] * (cost(now.captures[j], costs) - cost(then.captures[j], costs));
      }
      out[i] = std::max(out[i], 0.0);
    }
  }
  return out;
}

void tell_night_matches(const NightModel& model, const NightMarginals& now,
                        std::vector<RankedCapture>& night) {
  for (size_t j = 0; j < night.size(); ++j)
    for (size_t k = 0; k < model.captures[j].kin.size(); ++k) {
      const double p = now.captures[j].kin[k];
      if (p < kWorthTelling) continue;
      const size_t i = model.captures[j].kin[k].founder;
      night[i].night_matches.push_back({night[j].capture, p});
      night[j].night_matches.push_back({night[i].capture, p});
    }
  for (RankedCapture& ranked : night)
    std::sort(ranked.night_matches.begin(), ranked.night_matches.end(),
              [](const NightMatch& a, const NightMatch& b) {
                return std::tuple(-a.probability, a.capture) < std::tuple(-b.probability, b.capture);
              });
}

}  // namespace

void OneNightOptions::check() const {
  if (!(twice_in_a_night >= 0 && twice_in_a_night <= 1))
    throw Error(ErrorKind::usage, "twice in a night", messages::kMustLieBetween0And);
  if (!(unseen >= 0)) throw Error(ErrorKind::usage, "unseen animals", messages::kThereCannotBeFewerThan);
}

void rank_together(std::vector<RankedCapture>& night, const SearchOptions& costs,
                   const OneNightOptions& options, const std::vector<NightPair>& pairs) {
  options.check();
  const NightModel model = model_of(night, options, pairs);
  const NightMarginals now = marginals(model, options.states);
  const std::vector<double> gain = gains(model, now, costs, options);
  for (size_t i = 0; i < night.size(); ++i) {
    RankedCapture& ranked = night[i];
    const NightMarginals::Capture& p = now.captures[i];
    ranked.new_probability = p.is_new();
    for (size_t k = 0; k < ranked.candidates.size(); ++k) ranked.candidates[k].probability = p.claims[k];
    std::sort(ranked.candidates.begin(), ranked.candidates.end(), [](const Candidate& a, const Candidate& b) {
      return std::tuple(-a.probability, -a.score, a.individual) <
             std::tuple(-b.probability, -b.score, b.individual);
    });
    ranked.gain = gain[i];
    ranked.night_matches.clear();
    // A new animal that an earlier capture shows already must not be made a second one.
    ranked.advice = advise(ranked.candidates.empty() ? 0 : ranked.candidates[0].probability, p.fresh, costs);
  }
  tell_night_matches(model, now, night);
}

std::vector<size_t> looking_order(const std::vector<RankedCapture>& ranked) {
  std::vector<size_t> order(ranked.size());
  std::iota(order.begin(), order.end(), size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](size_t a, size_t b) { return ranked[a].gain > ranked[b].gain; });
  return order;
}

}  // namespace evet
