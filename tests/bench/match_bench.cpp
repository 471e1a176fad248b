// Matching on its own: what each part of it gives, how impostors are distributed far out, how fast it is, and
// the same photos by the general-purpose way any vision engineer would write first (SIFT on the raw photo,
// ratio test, MAGSAC++ homography, count of inliers), in one run.
//
// Prints Markdown. World seeds from 200 up are for scores only.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <chrono>
#include <cmath>
#include <functional>
#include <iostream>
#include <numeric>
#include <opencv2/calib3d.hpp>
#include <opencv2/features2d.hpp>
#include <opencv2/imgproc.hpp>

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "matcher/pattern/describe.h"
#include "matcher/pattern/make_pattern.h"
#include "matcher/photo/decode.h"
#include "matcher/search/compare.h"
#include "matcher/search/likelihood.h"
#include "matcher/search/llr_cost.h"
#include "tests/bench/weights_file.h"
#include "tools/render/on_threads.h"
#include "tools/train/rendered_set.h"

namespace {

using namespace evet;
using train::SetSpec;
using Clock = std::chrono::steady_clock;

double seconds(const std::function<void()>& work) {
  const auto start = Clock::now();
  work();
  return std::chrono::duration<double>(Clock::now() - start).count();
}

// Scores of every query against every animal of the gallery, the higher the more alike.
struct Scores {
  std::string name;
  std::vector<std::vector<double>> of;  // query, animal; the query's own animal has its own index
};

std::string row(const Scores& s) {
  int first = 0, own = 0;
  std::vector<double> mated, non_mated;
  std::vector<LlrTrial> trials;
  for (size_t q = 0; q < s.of.size(); ++q) {
    const std::vector<double>& line = s.of[q];
    if (line.empty()) continue;
    ++own;
    first += std::max_element(line.begin(), line.end()) - line.begin() == static_cast<std::ptrdiff_t>(q);
    for (size_t a = 0; a < line.size(); ++a) {
      (a == q ? mated : non_mated).push_back(line[a]);
      trials.push_back({line[a], a == q});
    }
  }
  std::sort(non_mated.rbegin(), non_mated.rend());
  const auto missed = [&](double fmr) {
    const double limit = non_mated[static_cast<size_t>(fmr * static_cast<double>(non_mated.size()))];
    return 100.0 *
           static_cast<double>(
               std::count_if(mated.begin(), mated.end(), [&](double x) { return x <= limit; })) /
           static_cast<double>(mated.size());
  };
  return fmt::format("| {} | {:.1f} % | {:.1f} % | {:.1f} % | {:.4f} | {} / {} |\n", s.name,
                     100.0 * first / own, missed(0.01), missed(0.001), llr_cost(trials).discrimination,
                     mated.size(), non_mated.size());
}

const char* const kHeader =
    "| by | rank-1 | FNMR at FMR 1 % | FNMR at FMR 0.1 % | least Cllr, bits | mated / non-mated |\n"
    "|---|---|---|---|---|---|\n";

struct Animals {
  std::vector<std::optional<Pattern>> first, last;  // captures 0 and the last of each animal
};

Animals patterns_of(const SetSpec& spec, const std::string& keep, int threads) {
  const auto strips = train::kept_strips(spec, train::StripSource::pipeline, keep, threads);
  std::vector<std::optional<Pattern>> patterns(strips.size());
  render::on_threads(strips.size(), threads, [&](size_t i) {
    const train::SetStrip& s = strips[i];
    if (s.strip && (s.facts.plan.capture == 0 || s.facts.plan.last)) patterns[i] = train::pattern_of(s);
  });
  Animals out;
  for (size_t i = 0; i < strips.size(); ++i)
    if (strips[i].facts.plan.capture == 0)
      out.first.push_back(std::move(patterns[i]));
    else if (strips[i].facts.plan.last)
      out.last.push_back(std::move(patterns[i]));
  return out;
}

// How far it has come, to standard error.
void told(const std::string& what) {
  static const auto start = Clock::now();
  std::cerr << fmt::format("{:.0f} s: {}\n", std::chrono::duration<double>(Clock::now() - start).count(),
                           what)
            << std::flush;
}

constexpr size_t kJudged = 11;  // place among the measures
static_assert(kMeasureNames[kJudged] == "judged");

void ablation(const Animals& animals, const MatchingModel& model, int threads) {
  std::vector<Scores> parts = {{"pattern code alone", {}},
                               {"descriptor alone", {}},
                               {"code and descriptor, as a likelihood ratio", {}},
                               {"correlation of the aligned maps alone", {}},
                               {"pair network alone, of the aligned maps", {}},
                               {"all measures: the full likelihood ratio", {}}};
  for (Scores& s : parts) s.of.resize(animals.last.size());
  std::vector<double> aligning(animals.last.size());
  std::vector<int> aligned(animals.last.size());
  render::on_threads(animals.last.size(), threads, [&](size_t q) {
    if (!animals.last[q] || !animals.first[q]) return;
    const PreparedQuery query = prepare(*animals.last[q]);
    for (size_t a = 0; a < animals.first.size(); ++a) {
      if (!animals.first[a]) {
        for (Scores& s : parts) s.of[q].push_back(-1e3);
        continue;
      }
      const std::vector<CodeHit> hits =
          best_hits(query.codes, animals.first[a]->code, CompareOptions{}.starts);
      const double distance = hits[0].distance, alike = cosine_similarity(query, *animals.first[a]);
      Comparison c;
      aligning[q] += seconds([&] { c = compare(query, *animals.first[a], hits, Order::fixed_first); });
      ++aligned[q];
      parts[0].of[q].push_back(-distance), parts[1].of[q].push_back(alike);
      parts[2].of[q].push_back(model.llr_of_code(distance, alike));
      parts[3].of[q].push_back(c.measures[0]), parts[4].of[q].push_back(c.measures[kJudged]);
      parts[5].of[q].push_back(model.llr(c.measures));
    }
  });
  std::cout << "## What each part gives\n\nFirst capture against last, one photo each.\n\n" << kHeader;
  for (const Scores& s : parts) std::cout << row(s);
  std::cout << fmt::format("\nAn aligned comparison with its measures: {:.2f} ms.\n",
                           1000 * std::accumulate(aligning.begin(), aligning.end(), 0.0) /
                               std::accumulate(aligned.begin(), aligned.end(), 0));
}

// True patterns straight from the skin: as many animals as wanted, without photographs. As in a search, the
// likeliest by code are aligned, the others are not.
void impostors(std::uint64_t world, int count, const MatchingModel& model, int threads) {
  constexpr size_t kAligned = 20;
  const auto animals = static_cast<size_t>(count);
  std::vector<Pattern> patterns(animals);
  render::on_threads(animals, threads, [&](size_t i) {
    SpotMap map{render::skin_pattern(world, static_cast<std::uint32_t>(i), 0, {kMapCols, kMapRows}),
                cv::Mat1b(kMapRows, kMapCols, uchar{255})};
    patterns[i] = pattern_of(std::move(map), 1);
  });
  std::vector<std::vector<double>> by_code(animals), searched(animals);
  std::vector<size_t> aligned(animals);
  render::on_threads(animals, threads, [&](size_t i) {
    const size_t q = animals - 1 - i;  // those with most to do first
    const PreparedQuery query = prepare(patterns[q]);
    std::vector<std::pair<double, size_t>> order;
    for (size_t g = 0; g < q; ++g) {
      by_code[q].push_back(model.llr_of_code(best_hits(query.codes, patterns[g].code, 1)[0].distance,
                                             cosine_similarity(query, patterns[g])));
      order.emplace_back(-by_code[q][g], g);
    }
    searched[q] = by_code[q];
    aligned[q] = std::min(kAligned, order.size());
    std::partial_sort(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(aligned[q]), order.end());
    for (size_t k = 0; k < aligned[q]; ++k) {
      const Pattern& other = patterns[order[k].second];
      const auto hits = best_hits(query.codes, other.code, CompareOptions{}.starts);
      searched[q][order[k].second] = model.llr(compare(query, other, hits, Order::unknown).measures);
    }
  });
  const auto together = [](const std::vector<std::vector<double>>& of) {
    std::vector<double> all;
    for (const auto& some : of) all.insert(all.end(), some.begin(), some.end());
    std::sort(all.rbegin(), all.rend());
    return all;
  };
  const std::vector<double> code = together(by_code), full = together(searched);
  std::cout << fmt::format(
      "\n## Impostors far out\n\n{} pairs of different animals' true patterns ({} animals): likelihood ratio "
      "of code and descriptor alone, and as in a search, where the {} likeliest by code of each animal are "
      "aligned ({} pairs). FPIR against 10,000 individuals is 1 - (1 - FMR)^10000. The most that the model "
      "claims is {:.2f}.\n\n| FMR | ln ratio exceeded by code | ln ratio exceeded in a search | FPIR at "
      "10,000 "
      "|\n|---|---|---|---|\n",
      code.size(), count, kAligned, std::accumulate(aligned.begin(), aligned.end(), size_t{0}),
      model.highest);
  for (const double fmr : {1e-2, 1e-3, 1e-4, 1e-5, 1e-6}) {
    const auto at = static_cast<size_t>(fmr * static_cast<double>(code.size()));
    if (at < 1) continue;
    std::cout << fmt::format("| {:g} | {:.2f} | {:.2f} | {:.3g} |\n", fmr, code[at], full[at],
                             -std::expm1(10000 * std::log1p(-fmr)));
  }
  if (!code.empty())
    std::cout << fmt::format("| none seen: below {:.1e} (3/n) | {:.2f} | {:.2f} | |\n",
                             3.0 / static_cast<double>(code.size()), code[0], full[0]);
}

void speed(const Animals& animals) {
  std::vector<PatternCode> codes;
  for (const auto& p : animals.first)
    if (p) codes.push_back(p->code);
  const size_t kinds = codes.size();
  while (codes.size() < 200000) codes.push_back(codes[codes.size() % kinds]);
  const PatternCode query = codes[kinds / 2];
  constexpr int kRounds = 7;  // the least counts: a scan is short, and the machine has other work
  long fast = 0, plain = 0;
  double t_fast = 1e9, t_plain = 1e9;
  for (int round = 0; round < kRounds; ++round) {
    fast = plain = 0;
    t_fast = std::min(t_fast, seconds([&] {
                        for (const PatternCode& c : codes) fast += code_distance(query, c).differing;
                      }));
    t_plain = std::min(t_plain, seconds([&] {
                         for (const PatternCode& c : codes)
                           plain += code_distance_portable(query, c).differing;
                       }));
  }
  const double n = static_cast<double>(codes.size()), gigabytes = n * sizeof(PatternCode) / 1e9;
  std::cout << fmt::format(
      "\n## Scan of {} codes of {} bytes, one thread, the best of several rounds\n\n| | codes a second | "
      "GB/s |\n|---|---|---|\n"
      "| this processor's way | {:.3g} | {:.1f} |\n| portable twin | {:.3g} | {:.1f} |\n\n"
      "Sums of differing bits: {} and {}, {}.\n",
      codes.size(), sizeof(PatternCode), n / t_fast, gigabytes / t_fast, n / t_plain, gigabytes / t_plain,
      fast, plain, fast == plain ? "the same" : "NOT THE SAME");
}

// The general-purpose way: features, the ratio test, and a homography that as many as possible agree on.
struct Sift {
  std::vector<cv::KeyPoint> points;
  cv::Mat descriptors;
};

Sift sift_of(cv::SIFT& extractor, const train::SetPhoto& photo) {
  cv::Mat1b grey;
  cv::cvtColor(decode_photo(photo.jpeg, "photo").bgr, grey, cv::COLOR_BGR2GRAY);
  Sift out;
  extractor.detectAndCompute(grey, cv::noArray(), out.points, out.descriptors);
  return out;
}

double inliers(const Sift& a, const Sift& b) {
  std::vector<std::vector<cv::DMatch>> near;
  cv::BFMatcher().knnMatch(a.descriptors, b.descriptors, near, 2);
  std::vector<cv::Point2f> from, to;
  for (const auto& m : near)
    if (m.size() == 2 && m[0].distance < 0.75F * m[1].distance)
      from.push_back(a.points[m[0].queryIdx].pt), to.push_back(b.points[m[0].trainIdx].pt);
  if (from.size() < 4) return 0.0;
  cv::Mat1b mask;
  cv::findHomography(from, to, cv::USAC_MAGSAC, 3.0, mask, 10000, 0.999);
  return static_cast<double>(cv::countNonZero(mask));
}

// One search by all three ways, with the seconds that each took.
struct SideBySide {
  std::vector<double> theirs, ours, full;
  double theirs_s = 0, ours_s = 0, full_s = 0;
  int ours_done = 0;
};

SideBySide search_side_by_side(const Sift& probe, const std::vector<Sift>& gallery,
                               const PreparedQuery& query, const Animals& animals,
                               const MatchingModel& model) {
  SideBySide out;
  for (size_t a = 0; a < gallery.size(); ++a) {
    out.theirs_s += seconds([&] { out.theirs.push_back(inliers(probe, gallery[a])); });
    if (!animals.first[a]) {
      out.ours.push_back(-1e3), out.full.push_back(-1e3);
      continue;
    }
    std::vector<CodeHit> hits;
    double alike = 0;
    out.ours_s += seconds([&] {
      hits = best_hits(query.codes, animals.first[a]->code, CompareOptions{}.starts);
      alike = cosine_similarity(query, *animals.first[a]);
      out.ours.push_back(model.llr_of_code(hits[0].distance, alike));
    });
    ++out.ours_done;
    out.full_s += seconds([&] {
      out.full.push_back(model.llr(compare(query, *animals.first[a], hits, Order::fixed_first).measures));
    });
  }
  return out;
}

void baseline(const SetSpec& spec, const std::string& keep, const Animals& animals, size_t count,
              const MatchingModel& model, int threads) {
  SetSpec some = spec;
  if (keep.empty()) some.individuals = static_cast<std::uint32_t>(std::min<size_t>(count, spec.individuals));
  const std::vector<train::SetPhoto> photos = train::kept_set(some, keep, threads);
  count = std::min(count, photos.size() / spec.captures);
  const auto extractor = cv::SIFT::create();
  std::vector<Sift> first(count), last(count);
  render::on_threads(count, threads, [&](size_t i) {
    first[i] = sift_of(*extractor, photos[i * spec.captures]);
    last[i] = sift_of(*extractor, photos[i * spec.captures + spec.captures - 1]);
  });
  std::vector<SideBySide> of_query(count);
  render::on_threads(count, threads, [&](size_t q) {
    if (animals.last[q] && animals.first[q])
      of_query[q] = search_side_by_side(last[q], first, prepare(*animals.last[q]), animals, model);
  });
  Scores theirs{"SIFT, ratio test, MAGSAC++ homography: inliers", {}},
      ours{"this program: likelihood ratio of code and descriptor", {}},
      full{"this program: full likelihood ratio", {}};
  double n_theirs = 0, n_ours = 0, theirs_s = 0, ours_s = 0, full_s = 0;
  for (SideBySide& one : of_query) {
    n_theirs += static_cast<double>(one.theirs.size()), n_ours += one.ours_done;
    theirs_s += one.theirs_s, ours_s += one.ours_s, full_s += one.full_s;
    theirs.of.push_back(std::move(one.theirs));
    ours.of.push_back(std::move(one.ours)), full.of.push_back(std::move(one.full));
  }
  std::cout << fmt::format("\n## Beside the general-purpose way, {} animals, the same photos, one run\n\n",
                           count)
            << kHeader << row(theirs) << row(ours) << row(full);
  const double a_second = n_theirs / theirs_s, ours_a_second = n_ours / ours_s;
  std::cout << fmt::format(
      "\nComparisons a second of one thread: SIFT and homography {:.3g}; code and descriptor {:.3g} ({:.0f} "
      "times as many); full, of the shortlist only, {:.3g}. Features and patterns are made once a photo and "
      "not counted.\n",
      a_second, ours_a_second, ours_a_second / a_second, n_ours / full_s);
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"Scores and times the matching alone, beside a general-purpose baseline."};
  SetSpec spec;
  spec.world = 150;
  std::string difficulty = "middle", keep, weights;
  int skins = 1500;
  size_t compared = 25;
  int threads = 2;
  app.add_option("--world", spec.world, "seed: 100 to 199 to develop, 200 and up to score");
  app.add_option("--individuals", spec.individuals);
  app.add_option("--difficulty", difficulty)->check(CLI::IsMember({"gentle", "middle", "hardest"}));
  app.add_option("--skins", skins, "animals whose true patterns are compared for the impostor distribution");
  app.add_option("--compared", compared, "animals compared by the general-purpose way too");
  app.add_option("--keep", keep, "keep rendered photos and strips in this folder");
  app.add_option("--weights", weights, "matching weights other than those built in");
  app.add_option("--threads", threads)->check(CLI::Range(1, 512));
  CLI11_PARSE(app, argc, argv);
  try {
    cv::setNumThreads(1);
    spec.difficulty = train::difficulty_named(difficulty);
    const std::shared_ptr<const MatchingModel> from_file = matching_model_in(weights);
    const MatchingModel& model = from_file ? *from_file : shipped_matching_model();
    std::cout << fmt::format("World {}, {} difficulty, {} individuals\n\n", spec.world, difficulty,
                             spec.individuals);
    told("photographs");
    const Animals animals = patterns_of(spec, keep, threads);
    told("what each part gives");
    ablation(animals, model, threads);
    told("the general-purpose way");
    baseline(spec, keep, animals, compared, model, threads);
    speed(animals);
    told("impostors");
    impostors(spec.world, skins, model, threads);
    told("done");
  } catch (const Error& error) {
    std::cerr << error.what() << "\n";
    return exit_code(error.kind());
  }
}
