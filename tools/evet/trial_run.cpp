#include "tools/evet/trial_run.h"

#include <atomic>
#include <exception>
#include <mutex>
#include <set>
#include <thread>

#include "matcher/search/posterior.h"

namespace evet::trial {
namespace {

// The gallery as it would have been without one capture, or without an animal altogether.
std::vector<GalleryEntry> gallery_for(const std::vector<KnownCapture>& captures, size_t searched,
                                      bool with_mate) {
  std::vector<GalleryEntry> out;
  for (size_t i = 0; i < captures.size(); ++i) {
    const KnownCapture& c = captures[i];
    if (i == searched || !c.enrolled) continue;
    if (!with_mate && c.individual == captures[searched].individual) continue;
    for (const QueryPhoto& photo : c.capture.photos)
      out.push_back(
          {IndividualId{c.individual}, c.capture.capture, photo.photo, photo.pattern, c.capture.facts});
  }
  return out;
}

struct Outcome {
  std::vector<Search> searches;
  std::vector<Pair> pairs;
};

Search searched(const KnownCapture& known, bool mated, const RankedCapture& ranked, double prior) {
  Search out;
  out.individual = known.individual, out.mated = mated, out.groups = known.groups;
  out.advice = ranked.advice;
  if (ranked.candidates.empty()) return out;
  std::vector<double> llrs;
  for (const Candidate& c : ranked.candidates) llrs.push_back(c.score);
  const std::vector<double> odds = posterior_log_odds(llrs, prior);
  out.best_odds = odds[0], out.best_probability = ranked.candidates[0].probability;
  for (size_t k = 0; k < odds.size(); ++k)
    if (ranked.candidates[k].individual.value == known.individual)
      out.mate_rank = static_cast<int>(k) + 1, out.mate_odds = odds[k];
  return out;
}

Outcome outcome_of(const std::vector<KnownCapture>& captures, size_t index, const SearchOptions& options) {
  const KnownCapture& known = captures[index];
  Outcome out;
  for (const bool mated : {true, false}) {
    std::vector<GalleryEntry> entries = gallery_for(captures, index, mated);
    if (mated) {
      bool there = false;
      for (const GalleryEntry& e : entries) there = there || e.individual.value == known.individual;
      if (!there) continue;
    }
    if (known.capture.photos.empty()) {
      Search failed;
      failed.individual = known.individual, failed.mated = mated, failed.groups = known.groups;
      failed.acquired = false;
      out.searches.push_back(std::move(failed));
      continue;
    }
    const Gallery gallery(std::move(entries), options);
    const RankedCapture ranked = gallery.rank(known.capture);
    out.searches.push_back(searched(known, mated, ranked, options.prior_recapture));
    // The ratios of one search are enough: those without the mate are the same again.
    if (!mated && !out.pairs.empty()) continue;
    for (const Candidate& c : ranked.candidates)
      out.pairs.push_back({known.individual, {c.score, c.individual.value == known.individual}});
  }
  return out;
}

}  // namespace

Trial run(const std::vector<KnownCapture>& captures, const RunOptions& options) {
  SearchOptions search = options.search;
  search.keep = std::numeric_limits<int>::max();
  search.check();
  std::vector<size_t> wanted;
  for (size_t i = 0; i < captures.size(); ++i)
    if (captures[i].searched) wanted.push_back(i);
  std::vector<Outcome> outcomes(wanted.size());
  std::atomic<size_t> next{0};
  size_t done = 0;
  std::exception_ptr failed;
  std::mutex telling;
  std::vector<std::thread> threads;
  for (int t = 0; t < options.threads; ++t)
    threads.emplace_back([&] {
      for (size_t i; (i = next++) < wanted.size();) try {
          outcomes[i] = outcome_of(captures, wanted[i], search);
          const std::lock_guard<std::mutex> lock(telling);
          if (options.progress) options.progress(++done, wanted.size());
        } catch (...) {
          const std::lock_guard<std::mutex> lock(telling);
          if (!failed) failed = std::current_exception();
        }
    });
  for (std::thread& thread : threads) thread.join();
  if (failed) std::rethrow_exception(failed);

  Trial out;
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
