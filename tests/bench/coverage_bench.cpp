// Do the 95 % intervals hold what they promise? Each family of models on seeded data sets
// drawn from a known truth.
//
// Prints a markdown table to standard output: how often the
// interval held the truth, with exact binomial limits for that share (Clopper & Pearson 1934, Biometrika
// 26:404-413), how often it lay too low or too high, and how often it had no end.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <atomic>
#include <boost/math/distributions/binomial.hpp>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <fstream>
#include <functional>
#include <map>
#include <string>
#include <thread>
#include <vector>

#include "coverage_tally.h"
#include "models/base/random.h"
#include "models/closed/conditional.h"
#include "models/closed/full_likelihood.h"
#include "models/closed/heterogeneity.h"
#include "models/closed/schnabel.h"
#include "models/closed/two_sample.h"
#include "models/estimate.h"
#include "models/fit/tape.h"
#include "models/open/entry_models.h"
#include "models/open/jolly_seber.h"
#include "models/open/survival.h"
#include "models/robust/robust_design.h"
#include "models/simulate/simulate.h"

namespace evet::models {
namespace {

const std::vector<double> kNights = {0.15, 0.25, 0.2, 0.3, 0.1, 0.25};

CaptureHistories drawn(Random& random, int animals, const std::vector<double>& p,
                       const std::vector<double>& again = {}, const std::vector<double>& catchability = {}) {
  return simulate_closed({animals, p, again, catchability}, [&] { return random.uniform(); });
}
// Chances on a common base, shifted on the logit scale.
std::vector<double> shifted(std::vector<double> p, double shift) {
  for (double& one : p) one = logistic(std::log(one / (1 - one)) + shift);
  return p;
}
std::vector<double> two_kinds(Random& random, int animals, double share_low, double gap) {
  std::vector<double> shifts;
  shifts.reserve(static_cast<size_t>(animals));
  for (int i = 0; i < animals; ++i) shifts.push_back(random.chance(share_low) ? -gap / 2 : gap / 2);
  return shifts;
}
// Beta(2, 4): the second smallest of five uniform draws.
std::vector<double> beta_2_4(Random& random, int animals) {
  std::vector<double> shifts;
  shifts.reserve(static_cast<size_t>(animals));
  for (int i = 0; i < animals; ++i) {
    double least = 1, second = 1;
    for (int j = 0; j < 5; ++j) {
      const double u = random.uniform();
      if (u < least) {
        second = least;
        least = u;
      } else {
        second = std::min(second, u);
      }
    }
    shifts.push_back(std::log(second / (1 - second)));
  }
  return shifts;
}

const Estimate& named(const std::vector<Estimate>& estimates, const std::string& name) {
  for (const Estimate& estimate : estimates)
    if (estimate.parameter == name) return estimate;
  std::fprintf(stderr, "no estimate %s\n", name.c_str());
  std::exit(1);
}

Family closed_family(const std::string& name, const std::string& truth,
                     FittedModel (*fit)(const ClosedCounts&, const ModelOptions&), int animals,
                     const std::function<CaptureHistories(Random&)>& draw, const std::string& theory = "") {
  return {name, truth, theory, [=](Random& random, Tally& tally) {
            tally.add("N", fit(closed_counts(draw(random)), ModelOptions{}).estimates[0], animals);
          }};
}

std::vector<Family> closed_families() {
  std::vector<Family> all;
  all.push_back({"two samples, Chapman", "N 400, p 0.3, 0.3", "", [](Random& r, Tally& tally) {
                   tally.add("N", chapman(two_sample_counts(drawn(r, 400, {0.3, 0.3}))), 400);
                 }});
  all.push_back({"two samples, Chapman, thin", "N 200, p 0.1, 0.1 (two recaptures expected)",
                 "two recaptures are too few for any interval by a standard error",
                 [](Random& r, Tally& tally) {
                   tally.add("N", chapman(two_sample_counts(drawn(r, 200, {0.1, 0.1}))), 200);
                 }});
  all.push_back({"Schnabel", "N 400, 8 occasions, p 0.1",
                 "recaptures vary less than Poisson counts; 99.5 % in the check values (truth.schnabel) too",
                 [](Random& r, Tally& tally) {
                   tally.add("N", schnabel(batch_counts(drawn(r, 400, repeated(0.1, 8)))), 400);
                 }});
  all.push_back(
      {"Schumacher-Eschmeyer", "N 400, 8 occasions, p 0.1",
       "a regression whose residuals are taken for normal and independent, on six degrees of freedom",
       [](Random& r, Tally& tally) {
         tally.add("N", schumacher_eschmeyer(batch_counts(drawn(r, 400, repeated(0.1, 8)))), 400);
       }});
  all.push_back(closed_family("constant", "N 300, 6 occasions, p 0.2", fit_constant, 300,
                              [](Random& r) { return drawn(r, 300, repeated(0.2, 6)); }));
  all.push_back(closed_family(
      "constant, thin", "N 60, 4 occasions, p 0.1 (three recaptures expected)", fit_constant, 60,
      [](Random& r) { return drawn(r, 60, repeated(0.1, 4)); },
      "few recaptures; intervals without end are frequent"));
  all.push_back(closed_family("occasion", "N 300, p 0.15 0.25 0.2 0.3 0.1 0.25", fit_occasion, 300,
                              [](Random& r) { return drawn(r, 300, kNights); }));
  all.push_back(closed_family("response", "N 400, 6 occasions, p 0.3, then 0.5", fit_response, 400,
                              [](Random& r) { return drawn(r, 400, repeated(0.3, 6), repeated(0.5, 6)); }));
  all.push_back(closed_family(
      "occasion-response", "N 600, 8 occasions, p 0.15 to 0.4, shift 0.7", fit_occasion_response, 600,
      [](Random& r) {
        const std::vector<double> p = {0.2, 0.4, 0.3, 0.15, 0.35, 0.25, 0.4, 0.2};
        return drawn(r, 600, p, shifted(p, 0.7));
      },
      ""));
  all.push_back(
      closed_family("mixture", "N 400, 8 occasions, half 0.15, half 0.5", fit_mixture, 400, [](Random& r) {
        const double gap = 1.7346;  // logit 0.5 - logit 0.15
        return drawn(r, 400, repeated(logistic(-gap / 2), 8), {}, two_kinds(r, 400, 0.5, gap));
      }));
  all.push_back(
      closed_family("beta-binomial", "N 400, 8 occasions, p beta (2, 4)", fit_beta_binomial, 400,
                    [](Random& r) { return drawn(r, 400, repeated(0.5, 8), {}, beta_2_4(r, 400)); }));
  all.push_back(closed_family("occasion-mixture", "N 400, 8 occasions, two groups 1.7 apart",
                              fit_occasion_mixture, 400, [](Random& r) {
                                const std::vector<double> p = {0.2, 0.4, 0.3, 0.15, 0.35, 0.25, 0.4, 0.2};
                                return drawn(r, 400, p, {}, two_kinds(r, 400, 0.5, 1.7));
                              }));
  all.push_back(closed_family(
      "response-mixture", "N 400, 10 occasions, two groups 1.7 apart, shift 0.5", fit_response_mixture, 400,
      [](Random& r) {
        return drawn(r, 400, repeated(0.3, 10), repeated(logistic(std::log(0.3 / 0.7) + 0.5), 10),
                     two_kinds(r, 400, 0.5, 1.7));
      },
      ""));
  all.push_back({"conditional, linear in a length", "N 400, 6 occasions, logit p -1 + 0.5 x", "",
                 [](Random& r, Tally& tally) {
                   std::vector<double> x, shift;
                   for (int i = 0; i < 400; ++i) {
                     x.push_back(r.normal());
                     shift.push_back(0.5 * x.back());
                   }
                   CaptureHistories h;
                   for (int j = 0; j < 6; ++j) h.occasions.push_back(std::to_string(j + 1));
                   for (std::size_t i = 0; i < 400; ++i) {
                     std::vector<std::uint8_t> row;
                     bool caught = false;
                     for (int j = 0; j < 6; ++j) {
                       row.push_back(r.chance(logistic(-1 + shift[i])) ? 1 : 0);
                       caught = caught || row.back();
                     }
                     if (!caught) continue;
                     h.animals.push_back(std::to_string(i));
                     h.covariates["length"].push_back(x[i]);
                     h.caught.insert(h.caught.end(), row.begin(), row.end());
                   }
                   const FittedModel model = fit_conditional(h, {.covariates = {"length"}});
                   tally.add("N", model.estimates[0], 400);
                   tally.add("slope", named(model.estimates, "p: slope on length"), 0.5);
                 }});
  const std::string not_promised =
      "no interval of this method allows for its bias under unequal catchability";
  for (const auto& [name, function] :
       {std::pair<const char*, std::function<Estimate(const ClosedCounts&)>>{
            "jackknife", [](const ClosedCounts& c) { return jackknife(c); }},
        {"chao-corrected (a lower bound)", [](const ClosedCounts& c) { return chao_bias_corrected(c); }},
        {"sample-coverage", [](const ClosedCounts& c) { return sample_coverage(c, 2, false); }}})
    all.push_back({name, "N 400, 8 occasions, p beta (2, 4)", not_promised,
                   [function = function](Random& r, Tally& tally) {
                     tally.add("N",
                               function(closed_counts(drawn(r, 400, repeated(0.5, 8), {}, beta_2_4(r, 400)))),
                               400);
                   }});
  all.push_back({"default closed set, averaged", "N 300, p 0.15 0.25 0.2 0.3 0.1 0.25",
                 "averaging adds the doubt about the model, so more than 95 % is expected",
                 [](Random& r, Tally& tally) {
                   EstimateRequest request;
                   request.design = "closed";
                   request.plots = false;
                   tally.add("N", estimate(drawn(r, 300, kNights), request).answer.at(0), 300);
                 }});
  return all;
}

int poisson(Random& random, double mean) {
  int count = -1;
  for (double sum = 0; sum < mean; ++count) sum -= std::log1p(-random.uniform());
  return count;
}

CaptureHistories released(Random& random, const std::vector<double>& survival, const std::vector<double>& p) {
  std::vector<int> marked(survival.size() + 1, 60);
  marked.back() = 0;
  return simulate_releases(marked, survival, p, [&] { return random.uniform(); });
}

std::vector<Family> open_families() {
  std::vector<Family> all;
  all.push_back({"survival, constant", "7 occasions, 60 released each, survival 0.7, recapture 0.4", "",
                 [](Random& r, Tally& tally) {
                   const FittedModel model =
                       fit_survival(m_array(released(r, repeated(0.7, 6), repeated(0.4, 7))), false, false);
                   tally.add("survival", model.estimates[0], 0.7);
                   tally.add("recapture", model.estimates[1], 0.4);
                 }});
  all.push_back({"survival, by occasion",
                 "7 occasions, 60 released each, survival 0.6 to 0.8, recapture 0.4 to 0.6", "",
                 [](Random& r, Tally& tally) {
                   const std::vector<double> survival = {0.7, 0.6, 0.8, 0.7, 0.65, 0.7},
                                             p = {0, 0.5, 0.4, 0.6, 0.5, 0.45, 0.5};
                   const FittedModel model = fit_survival(m_array(released(r, survival, p)), true, true);
                   tally.add("survival 2", named(model.estimates, "survival 2"), 0.6);
                   tally.add("recapture 3", named(model.estimates, "recapture 3"), 0.4);
                 }});
  all.push_back({"survival near 1, by occasion",
                 "7 occasions, 60 released each, survival 0.97, recapture 0.4",
                 "survival lies near its end and is often estimated as 1", [](Random& r, Tally& tally) {
                   const FittedModel model =
                       fit_survival(m_array(released(r, repeated(0.97, 6), repeated(0.4, 7))), true, false);
                   tally.add("survival 3", named(model.estimates, "survival 3"), 0.97);
                 }});
  all.push_back({"survival, linear in a length",
                 "7 occasions, 420 animals, logit survival 0.8 + 0.6 x, recapture 0.5", "",
                 [](Random& r, Tally& tally) {
                   CaptureHistories h;
                   for (int j = 0; j < 7; ++j) h.occasions.push_back(std::to_string(j + 1));
                   for (int i = 0; i < 420; ++i) {
                     const double x = r.normal();
                     std::vector<std::uint8_t> row(7, 0);
                     const auto first = static_cast<std::size_t>(i % 6);
                     row[first] = 1;
                     for (std::size_t j = first + 1; j < 7 && r.chance(logistic(0.8 + 0.6 * x)); ++j)
                       row[j] = r.chance(0.5) ? 1 : 0;
                     h.animals.push_back(std::to_string(i));
                     h.covariates["length"].push_back(x);
                     h.caught.insert(h.caught.end(), row.begin(), row.end());
                   }
                   const FittedModel model = fit_survival(h, {.covariates = {"length"}}, {});
                   tally.add("slope", named(model.estimates, "survival: slope on length"), 0.6);
                 }});
  // 200 at first and 60 new before each later occasion: with survival 0.7 the number stays at 200.
  const auto steady = [](Random& r) {
    return simulate_open({{200, 60, 60, 60, 60, 60}, repeated(0.7, 5), repeated(0.4, 6)},
                         [&] { return r.uniform(); });
  };
  all.push_back({"Jolly-Seber", "6 occasions, 200 present, survival 0.7, capture 0.4", "",
                 [=](Random& r, Tally& tally) {
                   const auto estimates = jolly_seber_estimates(m_array(steady(r)));
                   tally.add("survival 2", named(estimates, "survival 2"), 0.7);
                 }});
  all.push_back({"super-population, constant", "500 ever, 6 occasions, survival 0.7, capture 0.4", "",
                 [=](Random& r, Tally& tally) {
                   const FittedModel model = fit_super_population(m_array(steady(r)), {});
                   tally.add("N ever", model.estimates[0], 500);
                   tally.add("survival", named(model.estimates, "survival"), 0.7);
                   tally.add("capture", named(model.estimates, "capture"), 0.4);
                 }});
  all.push_back({"growth, constant",
                 "6 occasions, 200 present on average, survival 0.7, capture 0.4, growth rate 1", "",
                 [=](Random& r, Tally& tally) {
                   // The model takes entrants for random: with a set number of them its intervals would be
                   // too wide.
                   std::vector<int> entrants = {poisson(r, 200)};
                   for (int j = 1; j < 6; ++j) entrants.push_back(poisson(r, 60));
                   const FittedModel model =
                       fit_growth(m_array(simulate_open({entrants, repeated(0.7, 5), repeated(0.4, 6)},
                                                        [&] { return r.uniform(); })),
                                  {});
                   tally.add("growth rate", model.estimates[0], 1);
                   tally.add("survival", named(model.estimates, "survival"), 0.7);
                   tally.add("seniority", named(model.estimates, "seniority"), 0.7);
                 }});
  all.push_back({"growth, by occasion",
                 "6 occasions, 200 present and 40 more each time, survival 0.8, capture 0.4", "",
                 [](Random& r, Tally& tally) {
                   std::vector<int> entrants = {poisson(r, 200)};
                   for (int j = 1; j < 6; ++j) entrants.push_back(poisson(r, 40));
                   const FittedModel model =
                       fit_growth(m_array(simulate_open({entrants, repeated(0.8, 5), repeated(0.4, 6)},
                                                        [&] { return r.uniform(); })),
                                  {GrowthForm::growth, true, false, true});
                   for (const char* at : {"1", "3", "5"}) {
                     const auto add = [&](const std::string& quantity, double truth) {
                       tally.add(quantity + at, named(model.estimates, quantity + at), truth);
                     };
                     add("growth rate ", 1);
                     add("recruitment ", 0.2);
                     add("seniority ", 0.8);
                   }
                 }});
  const auto periods = [](Random& r, double leaving, double staying) {
    return robust_counts(simulate_robust({{150, 30, 30, 30, 30, 30}, 4, 0.8, leaving, staying, 0.3},
                                         [&] { return r.uniform(); }));
  };
  all.push_back({"robust, none away", "6 periods of 4 occasions, 150 at first, survival 0.8, capture 0.3", "",
                 [=](Random& r, Tally& tally) {
                   const FittedModel model = fit_robust(periods(r, 0, 0), {});
                   tally.add("survival", model.estimates[0], 0.8);
                   tally.add("N 1", named(model.estimates, "N 1"), 150);
                 }});
  all.push_back({"robust, away at random", "as above, 0.3 away", "", [=](Random& r, Tally& tally) {
                   RobustTerms terms;
                   terms.emigration = Emigration::random;
                   const FittedModel model = fit_robust(periods(r, 0.3, 0.3), terms);
                   tally.add("survival", model.estimates[0], 0.8);
                   tally.add("absent", named(model.estimates, "absent"), 0.3);
                 }});
  all.push_back({"robust, away by the period before", "as above, 0.2 leave, 0.6 stay away",
                 "the chance of staying away is poorly known", [=](Random& r, Tally& tally) {
                   RobustTerms terms;
                   terms.emigration = Emigration::markov;
                   const FittedModel model = fit_robust(periods(r, 0.2, 0.6), terms);
                   tally.add("survival", model.estimates[0], 0.8);
                   tally.add("leaving", named(model.estimates, "leaving"), 0.2);
                   tally.add("staying away", named(model.estimates, "staying away"), 0.6);
                 }});
  return all;
}

std::string processor_name() {
  std::ifstream input("/proc/cpuinfo");
  for (std::string line; std::getline(input, line);)
    if (line.starts_with("model name")) return line.substr(line.find(':') + 2);
  return "unknown processor";
}

void print_rows(const Family& family, const Tally& tally) {
  for (const auto& [key, count] : tally.counts()) {
    if (count.sets == 0) {
      if (count.none > 0)
        std::printf("| %s | %s | %s | - | - | - | - | - | - | 0 | not given; %s |\n", family.name.c_str(),
                    family.truth.c_str(), key.first.c_str(), family.theory.c_str());
      continue;
    }
    using boost::math::binomial;
    const double n = count.sets, k = count.covered, share = 100 * k / n;
    const double low = 100 * binomial::find_lower_bound_on_p(n, k, 0.025),
                 high = 100 * binomial::find_upper_bound_on_p(n, k, 0.025);
    const std::string theory = key.second == "normal" && key.first == "N"
                                   ? "symmetric about a skewed estimate, given beside better ones"
                                   : family.theory;
    const bool holds = share >= 93.5 && share <= 96.5;
    const std::string says = holds            ? "holds"
                             : share > 96.5   ? "wider than promised"
                             : theory.empty() ? "**does not hold**"
                                              : "does not hold";
    const double monte_carlo = 100 * std::sqrt(k / n * (1 - k / n) / n);
    const std::string why = share > 96.5 && !family.wide.empty() ? "; " + family.wide
                            : theory.empty()                     ? ""
                                                                 : "; theory: " + theory;
    std::printf("| %s | %s | %s | %s | %.1f (%.1f-%.1f) | %.1f | %.1f | %.1f | %d | %d | %s%s |\n",
                family.name.c_str(), family.truth.c_str(), key.first.c_str(), key.second.c_str(), share, low,
                high, monte_carlo, 100 * count.too_low / n, 100 * count.too_high / n, count.endless,
                count.sets, says.c_str(), why.c_str());
  }
  std::fflush(stdout);
}

}  // namespace
}  // namespace evet::models

namespace evet::models {
namespace {

// The same data sets for a family whatever other rows there are (FNV-1a of its name). The rows of the table are of
// stream 0; a method is changed while looking at others.
std::uint64_t seed_of(const std::string& name, std::uint64_t stream) {
  std::uint64_t hash = 14695981039346656037ULL + stream;
  for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return hash % 1000000007;
}

// Its sets shared out among threads; counts add up to the same at any number of them.
Tally run_family(const Family& family, int sets, int threads, std::uint64_t stream) {
  std::vector<Tally> tallies(static_cast<std::size_t>(threads));
  std::vector<std::thread> workers;
  std::atomic<int> next = 0;
  workers.reserve(tallies.size());
  for (Tally& tally : tallies)
    workers.emplace_back([&] {
      for (int set = next++; set < sets; set = next++) {
        Random random(1000003 * seed_of(family.name, stream) + static_cast<std::uint64_t>(set));
        family.run(random, tally);
      }
    });
  for (std::thread& worker : workers) worker.join();
  Tally sum;
  for (const Tally& tally : tallies) sum.add(tally);
  return sum;
}

void print_heading(int sets) {
  char date[20];
  const std::time_t now = std::time(nullptr);
  std::strftime(date, sizeof date, "%Y-%m-%d", std::gmtime(&now));
  std::printf(
      "# Coverage of 95 %% intervals\n\n%d seeded data sets a row, %s, %s. `tools/bench.sh coverage` prints "
      "this table.\n"
      "A row holds when the share covered lies within 93.5-96.5 %%; in brackets its exact 95 %% limits. Too "
      "low: the\n"
      "whole interval lies below the truth. Endless: intervals without an upper limit, which count as they "
      "are. Sets\n"
      "below %d: the rest gave no interval of that kind.\n\n"
      "| family | truth | of | interval | covered %% | Monte Carlo error | too low %% | too high %% | "
      "endless | sets | "
      "says |\n"
      "|---|---|---|---|---|---|---|---|---|---|---|\n",
      sets, processor_name().c_str(), date, sets);
}

}  // namespace
}  // namespace evet::models

int main(int argc, char** argv) {
  using namespace evet::models;
  int sets = 1000, threads = 1, part = 1, parts = 1;
  std::uint64_t stream = 0;
  std::string only;
  bool list = false, rows_alone = false;
  CLI::App app{"Do the 95 % intervals hold what they promise?"};
  app.add_option("--sets", sets, "data sets a row")->check(CLI::PositiveNumber);
  app.add_option("--stream", stream,
                 "other data sets than those of the table, to look at while changing a method");
  app.add_option("--only", only, "the family of this name, or else those whose name has this text");
  app.add_option("--threads", threads, "threads that share the sets of a family")->check(CLI::Range(1, 1024));
  app.add_option("--part", part, "with --parts: which share of the families, from 1")
      ->check(CLI::PositiveNumber);
  app.add_option("--parts", parts, "shares among which the families are dealt out, one process each")
      ->check(CLI::PositiveNumber);
  app.add_flag("--rows", rows_alone, "rows alone, without heading: outputs of parts can be put together");
  app.add_flag("--list", list, "names of the families");
  CLI11_PARSE(app, argc, argv);
  std::vector<Family> families = closed_families();
  for (const Family& family : open_families()) families.push_back(family);
  for (const Family& family : answer_families()) families.push_back(family);
  for (const Family& family : place_and_year_families()) families.push_back(family);
  if (!list && !rows_alone) print_heading(sets);
  const bool named = std::any_of(families.begin(), families.end(),
                                 [&](const Family& family) { return family.name == only; });
  for (std::size_t f = 0; f < families.size(); ++f) {
    if (named ? families[f].name != only : families[f].name.find(only) == std::string::npos) continue;
    if (f % static_cast<std::size_t>(parts) != static_cast<std::size_t>(part - 1)) continue;
    if (list)
      std::printf("%s\n", families[f].name.c_str());
    else
      print_rows(families[f], run_family(families[f], sets, threads, stream));
  }
  return 0;
}
