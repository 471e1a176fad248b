// evet-fit-matching: fits models/weights/matching.json on rendered individuals.
// See its card, models/weights/matching.md.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <fstream>
#include <iostream>
#include <map>
#include <opencv2/core.hpp>

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "matcher/pattern/make_pattern.h"
#include "matcher/search/llr_cost.h"
#include "tools/render/photo_truth.h"
#include "tools/train/fit_best_of.h"
#include "tools/train/fit_matching_model.h"
#include "tools/train/messages.h"
#include "tools/train/pairs_file.h"
#include "tools/train/rendered_set.h"

namespace {

using namespace evet;
using namespace evet::train;

// Animals of one seed and number are not the same in the two ways to draw.
std::uint64_t named_apart(std::uint64_t world, render::World drawing) {
  return drawing == render::World::solid ? world + 1'000'000 : world;
}

// Patterns of all worlds at all difficulties.
std::vector<KnownPattern> known_patterns(SetSpec spec, const std::vector<std::uint64_t>& worlds,
                                         const std::vector<std::string>& difficulties, StripSource source,
                                         const std::string& keep, int threads) {
  std::vector<KnownPattern> out;
  for (const std::uint64_t world : worlds)
    for (const std::string& difficulty : difficulties) {
      spec.world = world, spec.difficulty = difficulty_named(difficulty);
      for (const SetStrip& s : kept_strips(spec, source, keep, threads))
        if (s.strip)
          out.push_back({named_apart(world, spec.drawing), s.facts.individual, s.facts.plan.years,
                         train::pattern_of(s), true});
    }
  return out;
}

// Animals without photographs: the true patterns of skins that no set shows, for the gallery. More animals
// that a photo must not be taken for, at little cost.
void add_skins(std::vector<KnownPattern>& patterns, std::uint64_t world, render::World drawing,
               std::uint32_t count) {
  constexpr std::uint32_t kFirst = 100000;
  for (std::uint32_t i = 0; i < count; ++i) {
    SpotMap map{render::skin_pattern(world, kFirst + i, 0, {kMapCols, kMapRows}, {}, drawing),
                cv::Mat1b(kMapRows, kMapCols, uchar{255})};
    patterns.push_back(
        {named_apart(world, drawing), kFirst + i, 0, evet::pattern_of(std::move(map), 1), false});
  }
}

void report_best_of(const std::vector<ComparedPair>& pairs, const MatchingModel& model,
                    const FitOptions& options) {
  std::map<size_t, std::vector<BestOf>> by_tries;
  for (const BestOf& e : best_of_tries(pairs, model, static_cast<size_t>(options.photos)))
    by_tries[e.tries].push_back(e);
  for (const auto& [tries, examples] : by_tries) {
    if (tries == 1) continue;
    std::cout << "  best of " << tries << ", union bound -> fitted, relative cost at prior";
    for (const double prior : options.priors)
      std::cout << fmt::format("; {:g}: {:.4f} -> {:.4f}", prior, best_of_cost(examples, {}, model, {prior}),
                               best_of_cost(examples, model.best_of, model, {prior}));
    std::cout << "\n";
  }
}

void report(const std::string& what, const std::vector<ComparedPair>& pairs, const MatchingModel& model,
            const FitOptions& options) {
  std::vector<LlrTrial> trials;
  std::vector<double> of_different, of_same;
  for (const ComparedPair& pair : pairs) {
    const double llr = model.llr(pair.measures);
    trials.push_back({llr, pair.same, pair.weight});
    (pair.same ? of_same : of_different).push_back(llr);
  }
  std::sort(of_different.rbegin(), of_different.rend());
  const LlrCost cost = llr_cost(trials);
  std::cout << what << ": " << of_same.size() << " same pairs, " << of_different.size()
            << " different pairs aligned (the nearest of each query and a sample)\n"
            << "  Cllr " << cost.total << " bits, of it calibration " << cost.calibration() << "\n";
  for (const size_t allowed : {size_t{0}, of_different.size() / 10000, of_different.size() / 1000}) {
    const double limit = of_different[allowed];
    const auto missed = std::count_if(of_same.begin(), of_same.end(), [&](double x) { return x <= limit; });
    std::cout << "  same pairs not above different pair no. " << allowed + 1 << " (ratio " << limit
              << "): " << missed << "\n";
  }
  report_best_of(pairs, model, options);
}

struct Asked {
  std::vector<std::uint64_t> fit_worlds = {1, 2, 3}, tune_worlds = {101};
  std::vector<std::string> difficulties = {"middle", "hardest"}, fit_pairs, tune_pairs;
  SetSpec spec;
  std::string out, source = "pipeline", keep, pairs_out, world_kind = "drawn";
  std::uint32_t skins = 1000;
  FitOptions options;
};

void take_options(CLI::App& app, Asked& asked) {
  app.add_option("--fit-worlds", asked.fit_worlds, "seeds to fit on (1 to 99)")->delimiter(',');
  app.add_option("--tune-worlds", asked.tune_worlds, "seeds to show the fit on (100 to 199)")->delimiter(',');
  app.add_option("--world-kind", asked.world_kind, "the ways to draw: so many individuals of each")
      ->check(CLI::IsMember({"drawn", "solid", "both"}));
  app.add_option("--individuals", asked.spec.individuals, "of each world");
  app.add_option("--captures", asked.spec.captures, "of each individual");
  app.add_option("--skins", asked.skins, "animals without photographs in the gallery of each comparison");
  app.add_option("--source", asked.source, "strips cut along the truth, or as the product finds them")
      ->check(CLI::IsMember({"truth", "pipeline"}));
  app.add_option("--difficulties", asked.difficulties)
      ->delimiter(',')
      ->check(CLI::IsMember({"gentle", "middle", "hardest"}));
  app.add_option("--keep", asked.keep,
                 "keep rendered sets and strips in this folder, and read them from there");
  app.add_option("--threads", asked.options.threads)->check(CLI::Range(1, 512));
  app.add_option("--priors", asked.options.priors, "priors at which the ratios should be right")
      ->delimiter(',');
  app.add_option("--compare-only", asked.pairs_out,
                 "write the pairs of the fit worlds to this file and stop");
  app.add_option("--fit-pairs", asked.fit_pairs, "fit on pairs compared before, not on worlds")
      ->delimiter(',');
  app.add_option("--tune-pairs", asked.tune_pairs, "show the fit on such pairs")->delimiter(',');
  app.add_option("--out", asked.out, "write the weights here");
}

// Read from files of pairs where any are named, else compared on the worlds.
std::vector<ComparedPair> compared(const Asked& asked, const std::vector<std::uint64_t>& worlds,
                                   const std::vector<std::string>& files) {
  if (!files.empty()) return read_pairs(std::vector<std::filesystem::path>(files.begin(), files.end()));
  const StripSource from = asked.source == "truth" ? StripSource::truth : StripSource::pipeline;
  std::vector<render::World> drawings = {render::World::drawn, render::World::solid};
  if (asked.world_kind != "both") drawings = {render::world_named(asked.world_kind)};
  std::vector<KnownPattern> patterns;
  for (const render::World drawing : drawings) {
    SetSpec own = asked.spec;
    own.drawing = drawing;
    for (KnownPattern& known :
         known_patterns(own, worlds, asked.difficulties, from, asked.keep, asked.options.threads))
      patterns.push_back(std::move(known));
    add_skins(patterns, worlds.at(0), drawing, asked.skins / static_cast<std::uint32_t>(drawings.size()));
  }
  return compare_pairs(patterns, asked.options);
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{
      "Fits the matching model on rendered individuals of the fit worlds and shows it on tune worlds."};
  Asked asked;
  take_options(app, asked);
  CLI11_PARSE(app, argc, argv);
  try {
    cv::setNumThreads(1);
    if (asked.out.empty() == asked.pairs_out.empty())
      throw Error(ErrorKind::usage, "--out", messages::kNameFileForWeightsOr);
    const std::vector<ComparedPair> fit = compared(asked, asked.fit_worlds, asked.fit_pairs);
    if (!asked.pairs_out.empty()) {
      write_pairs(fit, asked.pairs_out);
      return 0;
    }
    const MatchingModel model = fit_matching_model(fit, asked.options);
    report("fit", fit, model, asked.options);
    report("tune", compared(asked, asked.tune_worlds, asked.tune_pairs), model, asked.options);
    std::ofstream file(asked.out);
    file << to_json(model);
    if (!file.flush()) throw Error(ErrorKind::storage, asked.out, messages::kWeightsCouldNotBeWritten);
  } catch (const Error& error) {
    std::cerr << error.what() << "\n";
    return exit_code(error.kind());
  }
}
