#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "matcher/base/error.h"
#include "matcher/pattern/describe.h"
#include "matcher/pattern/spot_map.h"
#include "matcher/search/compare.h"
#include "matcher/search/join_patterns.h"
#include "matcher/search/laying_doubt.h"
#include "matcher/search/likelihood.h"
#include "matcher/search/messages.h"
#include "matcher/search/posterior.h"
#include "matcher/search/rank.h"
#include "matcher/search/sheet_evidence.h"
#include "matcher/search/shortlist.h"

namespace evet {
namespace {

constexpr int kPairsAligned = 6;  // of one individual with one view: the best by code

// What is compared of a capture: each of its photos, and what they show together.
struct View {
  PreparedQuery query;
  const QueryPhoto* photo = nullptr;  // null: the photos joined
};

struct Pair {  // a photo of the gallery and how a view fits it by code
  size_t entry = 0;
  std::vector<CodeHit> hits;
  double cosine_similarity = 0;
  double distance() const { return hits.empty() ? 0.5 : hits[0].distance; }
  double llr(const MatchingModel& model) const { return model.llr_of_code(distance(), cosine_similarity); }
};

}  // namespace

const char* name(Advice advice) {
  switch (advice) {
    case Advice::same:
      return "same";
    case Advice::new_individual:
      return "new";
    case Advice::look:
      break;
  }
  return "look";
}

void SearchOptions::check() const {
  if (shortlist < 1 || keep < 1) throw Error(ErrorKind::usage, "search", messages::kShortlistBelow1);
  if (!(prior_recapture > 0 && prior_recapture < 1))
    throw Error(ErrorKind::usage, "search", messages::kPriorOutside01);
  if (!(wrong_join_over_missed > 0) || !(look_over_missed >= 0))
    throw Error(ErrorKind::usage, "search", messages::kCostsBelow0);
  calibration.check();
}

struct Gallery::Parts {
  struct Individual {
    IndividualId id;
    std::vector<size_t> entries;
  };

  std::vector<GalleryEntry> entries;
  SearchOptions options;
  CompareOptions compare;
  std::vector<Individual> individuals;  // ordered by id
  std::vector<size_t> owner;            // entry -> individual
  Shortlist shortlist;
  Ways some_ways;  // what the doubt about some pattern here asks for

  const MatchingModel& model() const { return options.model ? *options.model : shipped_matching_model(); }
  std::set<size_t> worth_a_look(const QueryCapture& query) const;
  bool left_out(size_t entry, const LeaveOut& without) const;
  // In the same places; without entries where all of them are left out.
  std::vector<Individual> present(const LeaveOut& without) const;
  // `pairs`: of each view, with the individual's photos that are worth a look.
  Candidate score(const QueryCapture& query, const std::vector<View>& views, const Individual& individual,
                  std::vector<std::vector<Pair>> pairs, bool aligned) const;
  double weigh_pair(const View& view, const Pair& pair, const SheetFacts& facts, bool aligned,
                    int& matched_spots) const;
};

namespace {
std::vector<std::vector<float>> descriptors_of(const std::vector<GalleryEntry>& entries) {
  std::vector<std::vector<float>> out;
  out.reserve(entries.size());
  for (const GalleryEntry& entry : entries) out.push_back(entry.pattern.descriptor);
  return out;
}

// `joined` keeps what the last view points to.
std::vector<View> views_of(const QueryCapture& query, const CompareOptions& options, Ways ways,
                           std::optional<JoinedPattern>& joined) {
  std::vector<View> out;
  for (const QueryPhoto& photo : query.photos) out.push_back({prepare(photo.pattern, options, ways), &photo});
  if (out.size() == 1) return out;
  std::vector<Pattern> patterns;
  for (const QueryPhoto& photo : query.photos) patterns.push_back(photo.pattern);
  joined = join_patterns(patterns);
  if (joined->used.size() > 1) out.push_back({prepare(joined->pattern, options, ways), nullptr});
  return out;
}
}  // namespace

Gallery::Gallery(std::vector<GalleryEntry> entries, const SearchOptions& options) {
  options.check();
  Shortlist shortlist(descriptors_of(entries));
  parts_ = std::make_unique<Parts>(Parts{std::move(entries), options, {}, {}, {}, std::move(shortlist), {}});
  std::map<IndividualId, std::vector<size_t>> by_id;
  for (const GalleryEntry& entry : parts_->entries)
    parts_->some_ways = parts_->some_ways | ways_between(entry.pattern, entry.pattern, parts_->compare.codes);
  for (size_t i = 0; i < parts_->entries.size(); ++i) by_id[parts_->entries[i].individual].push_back(i);
  parts_->owner.resize(parts_->entries.size());
  for (auto& [id, members] : by_id) {
    for (const size_t i : members) parts_->owner[i] = parts_->individuals.size();
    parts_->individuals.push_back({id, std::move(members)});
  }
}
Gallery::~Gallery() = default;
Gallery::Gallery(Gallery&&) noexcept = default;
Gallery& Gallery::operator=(Gallery&&) noexcept = default;

// Entries whose codes are compared: all of a small gallery, the nearest by descriptor of a large one.
std::set<size_t> Gallery::Parts::worth_a_look(const QueryCapture& query) const {
  std::set<size_t> out;
  if (static_cast<int>(entries.size()) < ShortlistOptions{}.exact_below) {
    for (size_t i = 0; i < entries.size(); ++i) out.insert(out.end(), i);
    return out;
  }
  constexpr int kNearest = 400;
  for (const QueryPhoto& photo : query.photos)
    for (const bool turn : {false, true}) {
      if (turn && !(some_ways | ways_between(photo.pattern, photo.pattern, compare.codes)).turned) break;
      const std::vector<float> descriptor =
          turn ? describe(turned(photo.pattern.map)) : photo.pattern.descriptor;
      for (const int i : shortlist.nearest(descriptor, kNearest)) out.insert(static_cast<size_t>(i));
    }
  return out;
}

bool Gallery::Parts::left_out(size_t entry, const LeaveOut& without) const {
  return entries[entry].individual == without.individual || without.captures.contains(entries[entry].capture);
}

std::vector<Gallery::Parts::Individual> Gallery::Parts::present(const LeaveOut& without) const {
  std::vector<Individual> out = individuals;
  for (Individual& individual : out)
    std::erase_if(individual.entries, [&](size_t entry) { return left_out(entry, without); });
  return out;
}

double Gallery::Parts::weigh_pair(const View& view, const Pair& pair, const SheetFacts& facts, bool aligned,
                                  int& matched_spots) const {
  const GalleryEntry& entry = entries[pair.entry];
  double llr = pair.llr(model());
  bool turned = !pair.hits.empty() && pair.hits[0].placed >= 0 &&
                view.query.codes[static_cast<size_t>(pair.hits[0].placed)].way.turned;
  if (aligned && !pair.hits.empty()) {
    const Comparison comparison = evet::compare(view.query, entry.pattern, pair.hits,
                                                order_of(entry.facts.night, facts.night), compare);
    llr = model().llr(comparison.measures);
    turned = comparison.turned;
    matched_spots = comparison.matched_spots;
  }
  return doubted_llr(llr * pattern_trust(facts, entry.facts), *view.query.pattern, entry.pattern, turned);
}

Candidate Gallery::Parts::score(const QueryCapture& query, const std::vector<View>& views,
                                const Individual& individual, std::vector<std::vector<Pair>> pairs,
                                bool aligned) const {
  const MatchingModel& weigh = model();
  Candidate out;
  out.individual = individual.id;
  out.best_photo = entries[individual.entries[0]].photo;
  out.query_photo = query.photos[0].photo;
  std::vector<double> best_of_photos;
  std::optional<double> best_of_joined;
  double shown = -1e9;
  size_t tries = 0;
  for (size_t v = 0; v < views.size(); ++v) {
    std::sort(pairs[v].begin(), pairs[v].end(), [&weigh](const Pair& a, const Pair& b) {
      return std::tuple(-a.llr(weigh), a.entry) < std::tuple(-b.llr(weigh), b.entry);
    });
    if (pairs[v].size() > kPairsAligned) pairs[v].resize(kPairsAligned);
    double best = -1e9;
    for (const Pair& pair : pairs[v]) {
      int matched_spots = 0;
      const double llr = weigh_pair(views[v], pair, query.facts, aligned, matched_spots);
      best = std::max(best, llr);
      if (!views[v].photo || llr <= shown) continue;  // a person is shown photos, not what was made of them
      shown = llr;
      out.best_photo = entries[pair.entry].photo;
      out.query_photo = views[v].photo->photo;
      out.matched_spots = matched_spots;
    }
    tries = std::max(tries, pairs[v].size());
    if (pairs[v].empty()) continue;
    if (views[v].photo)
      best_of_photos.push_back(best);
    else
      best_of_joined = best;
  }
  out.pattern_llr =
      best_of_photos.empty() ? weigh.lowest : weigh.llr_of_capture(best_of_photos, best_of_joined, tries);
  out.score = options.calibration(out.pattern_llr, weigh.lowest, weigh.highest);

  // One capture's facts are written on each of its photos; count every capture once.
  std::map<CaptureId, double> facts;
  for (const size_t i : individual.entries)
    facts[entries[i].capture] = sheet_llr(query.facts, entries[i].facts);
  double sum = 0;
  for (const auto& [capture, llr] : facts) sum += llr;
  out.score += sum / static_cast<double>(facts.size());
  return out;
}

RankedCapture Gallery::rank(const QueryCapture& query, const LeaveOut& without) const {
  if (query.photos.empty())
    throw Error(ErrorKind::bad_input, "capture " + query.capture.value, messages::kNothingToRank,
                messages::kRankWithUsablePhoto);
  const Parts& parts = *parts_;
  RankedCapture out;
  out.capture = query.capture;
  std::optional<JoinedPattern> joined;
  const std::vector<View> views = views_of(query, parts.compare, parts.some_ways, joined);

  const bool whole = without.captures.empty() && without.individual.empty();
  const std::vector<Parts::Individual> some =
      whole ? std::vector<Parts::Individual>{} : parts.present(without);
  const std::vector<Parts::Individual>& present = whole ? parts.individuals : some;
  std::vector<std::vector<std::vector<Pair>>> pairs(present.size(),
                                                    std::vector<std::vector<Pair>>(views.size()));
  for (const size_t entry : parts.worth_a_look(query)) {
    if (parts.left_out(entry, without)) continue;
    const Pattern& pattern = parts.entries[entry].pattern;
    for (size_t v = 0; v < views.size(); ++v)
      pairs[parts.owner[entry]][v].push_back(
          {entry,
           best_hits(views[v].query.codes, pattern.code, parts.compare.starts,
                     ways_between(*views[v].query.pattern, pattern, parts.compare.codes)),
           cosine_similarity(views[v].query, pattern)});
  }

  const MatchingModel& model = parts.model();
  std::vector<std::pair<double, size_t>> by_code;  // likeliest pair of each individual, unaligned
  size_t ruled_out = 0;
  for (size_t i = 0; i < pairs.size(); ++i) {
    if (present[i].entries.empty()) continue;
    if (without.ruled_out.contains(present[i].id)) {
      ++ruled_out;
      continue;
    }
    double likeliest = -1e9;
    for (const std::vector<Pair>& of_view : pairs[i])
      for (const Pair& pair : of_view) likeliest = std::max(likeliest, pair.llr(model));
    by_code.emplace_back(-likeliest, i);
  }
  std::sort(by_code.begin(), by_code.end());
  std::vector<double> llrs;
  for (size_t k = 0; k < by_code.size(); ++k) {
    const size_t i = by_code[k].second;
    out.candidates.push_back(parts.score(query, views, present[i], std::move(pairs[i]),
                                         static_cast<int>(k) < parts.options.shortlist));
    llrs.push_back(out.candidates.back().score);
  }
  const Posterior p = posterior(llrs, parts.options.prior_recapture, ruled_out);
  for (size_t k = 0; k < llrs.size(); ++k) out.candidates[k].probability = p.individual[k];
  out.new_probability = p.is_new;
  keep_best(out, parts.options.keep);
  out.advice =
      advise(out.candidates.empty() ? 0 : out.candidates[0].probability, out.new_probability, parts.options);
  return out;
}

}  // namespace evet
