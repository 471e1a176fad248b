// evet-fit-matching: fits models/weights/matching.json on rendered individuals. See
// models/weights/matching.md.
#include <CLI/CLI.hpp>
#include <fstream>
#include <iostream>

#include "matcher/base/error.h"
#include "matcher/pattern/make_pattern.h"
#include "tools/train/fit_logistic.h"
#include "tools/train/fit_matching_model.h"
#include "tools/train/rendered_set.h"

namespace {

using namespace evet;
using namespace evet::train;

std::vector<KnownPattern> known_patterns(const std::vector<SetPhoto>& set) {
  std::vector<KnownPattern> out;
  for (const SetPhoto& photo : set)
    if (photo.strip)
      out.push_back(
          {photo.world, photo.individual, photo.years, make_pattern(*photo.strip, photo.p_head_right)});
  return out;
}

std::vector<SetPhoto> set_of(const SetSpec& spec, const std::string& cached) {
  if (!cached.empty() && std::ifstream(cached).good()) return load_set(cached);
  std::vector<SetPhoto> set = rendered_set(spec);
  if (!cached.empty()) save_set(set, cached);
  return set;
}

void report(const std::string& what, const std::vector<ComparedPair>& pairs, const MatchingModel& model) {
  std::vector<double> llrs;
  std::vector<bool> same;
  std::vector<double> best_different, of_same;
  for (const ComparedPair& pair : pairs) {
    llrs.push_back(model.llr(pair.measures)), same.push_back(pair.same);
    (pair.same ? of_same : best_different).push_back(llrs.back());
  }
  std::sort(best_different.rbegin(), best_different.rend());
  std::cout << what << ": " << of_same.size() << " same pairs, " << best_different.size()
            << " different pairs aligned (the nearest of each query and a sample)\n";
  std::cout << "  Cllr over aligned pairs " << llr_cost(llrs, same) << " bits, least possible "
            << least_llr_cost(llrs, same) << "\n";
  for (const size_t allowed : {size_t{0}, best_different.size() / 10000, best_different.size() / 1000}) {
    const double limit = best_different[allowed];
    const auto missed = std::count_if(of_same.begin(), of_same.end(), [&](double x) { return x <= limit; });
    std::cout << "  same pairs not above different pair no. " << allowed + 1 << " (ratio " << limit
              << "): " << missed << "\n";
  }
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{
      "Fits the matching model on rendered individuals of the fit worlds and shows it on tune worlds."};
  std::vector<std::uint64_t> fit_worlds = {1, 2, 3}, tune_worlds = {101};
  std::uint32_t individuals = 100, captures = 3;
  std::string out, source = "truth", keep_fit, keep_tune, difficulty = "middle";
  double wobble = 0.01;
  app.add_option("--fit-worlds", fit_worlds, "seeds to fit on (1 to 99)");
  app.add_option("--tune-worlds", tune_worlds, "seeds to show the fit on (100 to 199)");
  app.add_option("--individuals", individuals, "of each world");
  app.add_option("--captures", captures, "of each individual");
  app.add_option("--source", source, "strips cut along the truth, or as the product finds them")
      ->check(CLI::IsMember({"truth", "pipeline"}));
  app.add_option("--wobble", wobble, "size of the errors put on strips cut along the truth");
  app.add_option("--difficulty", difficulty)->check(CLI::IsMember({"gentle", "middle", "hardest"}));
  app.add_option("--keep-fit", keep_fit, "keep the rendered fit set in this file, or read it from there");
  app.add_option("--keep-tune", keep_tune, "likewise for the tune set");
  app.add_option("--out", out, "write the weights here")->required();
  CLI11_PARSE(app, argc, argv);
  try {
    SetSpec spec;
    spec.individuals = individuals, spec.captures = captures, spec.wobble = wobble;
    spec.source = source == "truth" ? StripSource::truth : StripSource::pipeline;
    spec.difficulty = difficulty == "gentle"   ? render::Difficulty::gentle
                      : difficulty == "middle" ? render::Difficulty::middle
                                               : render::Difficulty::hardest;
    spec.worlds = fit_worlds;
    const std::vector<KnownPattern> fit = known_patterns(set_of(spec, keep_fit));
    spec.worlds = tune_worlds;
    const std::vector<KnownPattern> tune = known_patterns(set_of(spec, keep_tune));
    const FitOptions options;
    const std::vector<ComparedPair> fit_pairs = compare_pairs(fit, options),
                                    tune_pairs = compare_pairs(tune, options);
    const MatchingModel model = fit_matching_model(fit, fit_pairs, options);
    report("fit", fit_pairs, model);
    report("tune", tune_pairs, model);
    std::ofstream file(out);
    file << to_json(model);
    if (!file.flush()) throw Error(ErrorKind::storage, out, "the weights could not be written");
  } catch (const Error& error) {
    std::cerr << error.what() << "\n";
    return exit_code(error.kind());
  }
}
