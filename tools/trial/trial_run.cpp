#include "tools/trial/trial_run.h"

#include <limits>
#include <map>
#include <mutex>
#include <set>

#include "matcher/base/parallel.h"
#include "matcher/search/posterior.h"

namespace evet::trial {
namespace {

// Every photo that may ever be in a gallery; what one search must not see is left out of it then.
std::vector<GalleryEntry> everything(const std::vector<KnownCapture>& captures) {
  std::vector<GalleryEntry> out;
  for (const KnownCapture& c : captures) {
    if (!c.enrolled) continue;
    for (const QueryPhoto& photo : c.capture.photos)
      out.push_back(
          {IndividualId{c.individual}, c.capture.capture, photo.photo, photo.pattern, c.capture.facts});
  }
  return out;
}

bool same_evening(const KnownCapture& a, const KnownCapture& b) {
  return !a.evening.empty() && a.evening == b.evening;
}

struct Outcome {
  std::vector<Search> searches;
  std::vector<Pair> pairs;
};

Search begun(const KnownCapture& known, bool mated) {
  Search out;
  out.individual = known.individual, out.capture = known.capture.capture.value;
  out.mated = mated, out.groups = known.groups;
  return out;
}

Search searched(const KnownCapture& known, bool mated, const RankedCapture& ranked, double prior) {
  Search out = begun(known, mated);
  out.advice = ranked.advice;
  if (ranked.candidates.empty()) return out;
  std::vector<double> llrs;
  for (const Candidate& c : ranked.candidates) llrs.push_back(c.score);
  const std::vector<double> odds = posterior_log_odds(llrs, prior);
  out.best_odds = odds[0], out.best_probability = ranked.candidates[0].probability;
  out.new_probability = ranked.new_probability;
  out.best_individual = ranked.candidates[0].individual.value;
  for (size_t k = 0; k < odds.size(); ++k)
    if (ranked.candidates[k].individual.value == known.individual)
      out.mate_rank = static_cast<int>(k) + 1, out.mate_odds = odds[k];
  return out;
}

Outcome outcome_of(const std::vector<KnownCapture>& captures, const std::vector<size_t>& number_of,
                   const std::map<std::string, size_t>& individuals, const Gallery& gallery, size_t index,
                   const SearchOptions& options) {
  const KnownCapture& known = captures[index];
  LeaveOut own;
  bool has_mate = false;
  for (const KnownCapture& other : captures) {
    if (&other == &known || same_evening(other, known))
      own.captures.insert(other.capture.capture);
    else
      has_mate = has_mate ||
                 (other.enrolled && other.individual == known.individual && !other.capture.photos.empty());
  }
  Outcome out;
  for (const bool mated : {true, false}) {
    if (mated && !has_mate) continue;
    if (known.capture.photos.empty()) {
      Search failed = begun(known, mated);
      failed.acquired = false;
      out.searches.push_back(std::move(failed));
      continue;
    }
    LeaveOut without = own;
    if (!mated) without.individual = IndividualId{known.individual};
    const RankedCapture ranked = gallery.rank(known.capture, without);
    out.searches.push_back(searched(known, mated, ranked, options.prior_recapture));
    // The ratios of one search are enough: those without the mate are the same again.
    if (!mated && !out.pairs.empty()) continue;
    for (const Candidate& c : ranked.candidates)
      out.pairs.push_back({number_of[index],
                           individuals.at(c.individual.value),
                           {c.score, c.individual.value == known.individual},
                           c.pattern_llr});
  }
  return out;
}

}  // namespace

Trial run(const std::vector<KnownCapture>& captures, const RunOptions& options) {
  SearchOptions search = options.search;
  search.keep = std::numeric_limits<int>::max();
  search.check();
  Trial out;
  std::map<std::string, size_t> numbered;
  for (const KnownCapture& c : captures) numbered.emplace(c.individual, 0);
  for (auto& [individual, number] : numbered) {
    number = out.individuals.size();
    out.individuals.push_back(individual);
  }
  std::vector<size_t> number_of;
  for (const KnownCapture& c : captures) number_of.push_back(numbered.at(c.individual));
  const Gallery gallery(everything(captures), search);
  std::vector<size_t> wanted;
  for (size_t i = 0; i < captures.size(); ++i)
    if (captures[i].searched) wanted.push_back(i);
  std::vector<Outcome> outcomes(wanted.size());
  size_t done = 0;
  std::mutex telling;
  for_each_item(wanted.size(), options.threads, [&](size_t i) {
    outcomes[i] = outcome_of(captures, number_of, numbered, gallery, wanted[i], search);
    const std::lock_guard<std::mutex> lock(telling);
    if (options.progress) options.progress(++done, wanted.size());
  });

  std::set<std::string> individuals, enrolled;
  for (const KnownCapture& c : captures) {
    if (!c.enrolled) continue;
    individuals.insert(c.individual);
    out.gallery_photos += static_cast<int>(c.capture.photos.size());
    if (!c.capture.photos.empty()) enrolled.insert(c.individual);
  }
  out.gallery_individuals = static_cast<int>(enrolled.size());
  out.not_enrolled = static_cast<int>(individuals.size() - enrolled.size());
  for (Outcome& o : outcomes) {
    out.searches.insert(out.searches.end(), o.searches.begin(), o.searches.end());
    out.pairs.insert(out.pairs.end(), o.pairs.begin(), o.pairs.end());
  }
  return out;
}

}  // namespace evet::trial
