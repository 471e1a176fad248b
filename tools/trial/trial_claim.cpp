#include "tools/trial/trial_claim.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "tools/trial/messages.h"
#include "tools/words/in_words.h"

namespace evet::trial {
namespace {

constexpr double kRarely = 0.01;

size_t individuals_of(const Trial& trial, bool mated) {
  std::set<std::string> out;
  for (const Search& s : trial.searches)
    if (s.acquired && s.mated == mated) out.insert(s.individual);
  return out.size();
}

// Two digits that count, never an exponent: "100 %", "12 %", "0.30 %".
std::string share(double value) {
  const double percent = 100 * value;
  const double size = percent > 0 ? std::floor(std::log10(percent)) : 0;  // 12.3 -> 1
  return fmt::format("{:.{}f} %", percent, static_cast<int>(std::max(0.0, 1 - size)));
}

}  // namespace

std::vector<std::string> claims(const Trial& trial, const Scores& scores) {
  std::vector<std::string> out;
  const size_t mates = individuals_of(trial, true), strangers = individuals_of(trial, false);
  const auto whole = [](int n) { return static_cast<size_t>(n); };
  out.push_back(in_words(messages::kClaimSearches, {{"mated", whole(scores.mated)},
                                                    {"mates", mates},
                                                    {"non_mated", whole(scores.non_mated)},
                                                    {"strangers", strangers},
                                                    {"individuals", whole(trial.gallery_individuals)},
                                                    {"photos", whole(trial.gallery_photos)}}));
  if (mates == 0)
    out.push_back(in_words(messages::kClaimNobodyTwice));
  else
    out.push_back(
        in_words(messages::kClaimOfMissing, {{"share", share(rule_of_three(mates))}, {"animals", mates}}));
  if (strangers > 0)
    out.push_back(in_words(messages::kClaimOfTaking,
                           {{"share", share(rule_of_three(strangers))}, {"animals", strangers}}));
  for (const OperatingPoint& point : scores.points)
    if (!point.measurable)
      out.push_back(in_words(messages::kClaimOfFalsePositives,
                             {{"share", share(point.allowed_fpir)},
                              {"needed", fmt::format("{:.0f}", 1 / point.allowed_fpir)},
                              {"searches", whole(scores.non_mated)}}));
  out.push_back(in_words(messages::kClaimOfSize, {{"individuals", whole(trial.gallery_individuals)}}));
  return out;
}

double upper_tail(const std::vector<double>& probabilities, int at_least) {
  if (at_least <= 0) return 1;
  // Chance of exactly 0, 1, ... at_least - 1 events so far; what overflows is in the tail.
  std::vector<double> exactly(static_cast<size_t>(at_least), 0);
  exactly[0] = 1;
  double tail = 0;
  for (const double p : probabilities) {
    tail += exactly.back() * p;
    for (size_t k = exactly.size(); k-- > 0;)
      exactly[k] = exactly[k] * (1 - p) + (k > 0 ? exactly[k - 1] * p : 0);
  }
  return std::min(1.0, tail);
}

std::vector<Promise> promises(const Trial& trial) {
  const std::vector<bool> counts = searched_both_ways(trial);
  std::vector<Promise> out;
  for (const Advice advice : {Advice::same, Advice::new_individual}) {
    Promise promise;
    promise.advice = name(advice);
    std::vector<double> wrong;
    for (size_t i = 0; i < trial.searches.size(); ++i) {
      const Search& s = trial.searches[i];
      if (!counts[i] || !s.acquired || s.advice != advice) continue;
      ++promise.given;
      const bool right = advice == Advice::same ? s.mated && s.mate_rank == 1 : !s.mated;
      promise.wrong += !right;
      wrong.push_back(1 - (advice == Advice::same ? s.best_probability : s.new_probability));
      promise.expected_wrong += wrong.back();
    }
    promise.p_value = upper_tail(wrong, promise.wrong);
    promise.holds = promise.p_value >= kRarely;
    out.push_back(promise);
  }
  return out;
}

std::vector<Suspect> suspects(const Trial& trial, size_t most) {
  std::vector<Suspect> out;
  for (const Search& s : trial.searches)
    if (s.acquired && !s.best_individual.empty() && s.best_individual != s.individual && s.best_odds > 0)
      out.push_back({s.capture, s.individual, s.best_individual, s.mated, s.best_probability});
  std::sort(out.begin(), out.end(), [](const Suspect& a, const Suspect& b) {
    return std::tuple(-a.probability, !a.mated, a.capture) < std::tuple(-b.probability, !b.mated, b.capture);
  });
  // The same confusion in both searches of a capture is one.
  std::set<std::pair<std::string, std::string>> seen;
  std::erase_if(out, [&](const Suspect& s) { return !seen.emplace(s.capture, s.candidate).second; });
  if (out.size() > most) out.resize(most);
  return out;
}

}  // namespace evet::trial
