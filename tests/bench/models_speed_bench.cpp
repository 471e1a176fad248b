// How fast the estimators are: the default closed set, the survival model by occasion, and the same
// likelihoods maximised by base R's optim in the same run.
//
// Usage: models_speed_bench. Prints a markdown table; processor time, one core. Without Rscript the
// comparison is left out and says so. Exit 1 when a limit is missed: one second each, twenty times faster
// than R.
#include <unistd.h>
#include <CLI/CLI.hpp>

#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <functional>
#include <string>

#include "models/base/random.h"
#include "models/closed/full_likelihood.h"
#include "models/estimate.h"
#include "models/open/survival.h"
#include "models/simulate/simulate.h"

namespace evet::models {
namespace {

double processor_seconds() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

// The best of some runs.
double timed(int runs, const std::function<void()>& work) {
  double best = 1e300;
  for (int i = 0; i < runs; ++i) {
    const double start = processor_seconds();
    work();
    best = std::min(best, processor_seconds() - start);
  }
  return best;
}

CaptureHistories first_animals(const CaptureHistories& histories, std::size_t count) {
  std::vector<std::size_t> chosen;
  for (std::size_t i = 0; i < std::min(count, histories.animal_count()); ++i) chosen.push_back(i);
  return select_animals(histories, chosen);
}

// 10,000 animals on 20 occasions, unequally catchable on unequal occasions.
CaptureHistories closed_survey() {
  Random random(20);
  ClosedTruth truth;
  truth.animals = 13000;
  for (int j = 0; j < 20; ++j) truth.p.push_back(0.08 + 0.1 * random.uniform());
  for (int i = 0; i < truth.animals; ++i) truth.catchability.push_back(0.7 * random.normal());
  return first_animals(simulate_closed(truth, [&] { return random.uniform(); }), 10000);
}

// 10,000 animals on 50 occasions.
CaptureHistories open_survey() {
  Random random(50);
  OpenTruth truth;
  truth.entrants.assign(50, 300);
  for (int j = 0; j < 49; ++j) truth.survival.push_back(0.8 + 0.1 * random.uniform());
  for (int j = 0; j < 50; ++j) truth.p.push_back(0.2 + 0.2 * random.uniform());
  return first_animals(simulate_open(truth, [&] { return random.uniform(); }), 10000);
}

std::string row_of(const std::vector<double>& values) {
  std::string text = "c(";
  for (std::size_t i = 0; i < values.size(); ++i) text += (i ? "," : "") + std::to_string(values[i]);
  return text + ")";
}
std::string row_of(const Eigen::VectorXd& values) {
  return row_of(std::vector<double>(values.data(), values.data() + values.size()));
}

// Times optim (BFGS, its own difference gradients, to reltol 1e-12) on the likelihood; prints seconds and the
// maximum reached.
std::string closed_script(const ClosedCounts& counts) {
  return "n <- " + row_of(counts.caught) + "; S <- " + std::to_string(counts.seen) +
         "\nt <- length(n)\nf <- function(x) { u <- exp(x[1]); p <- plogis(x[-1])\n"
         "  -(lgamma(u+S+1)-lgamma(u+1)+sum(n*log(p)+(u+S-n)*log1p(-p))) }\n"
         "x0 <- c(log(0.3*S), rep(qlogis(0.1), t))\n"
         "s <- system.time(r <- optim(x0, f, method='BFGS', hessian=TRUE, control=list(maxit=5000, "
         "reltol=1e-12)))\n"
         "cat(s[['user.self']]+s[['sys.self']], -r$value)\n";
}
std::string survival_script(const MArray& array) {
  const Eigen::Index k = array.occasions();
  std::vector<double> cells;
  for (Eigen::Index i = 0; i + 1 < k; ++i)
    for (Eigen::Index j = 1; j < k; ++j) cells.push_back(array.next(i, j));
  return "k <- " + std::to_string(k) + "; m <- matrix(" + row_of(cells) + ", k-1, k-1, byrow=TRUE); R <- " +
         row_of(array.released) +
         "\nf <- function(x) { phi <- plogis(x[1:(k-1)]); p <- plogis(x[k:(2*k-2)])\n"
         "  chi <- numeric(k); chi[k] <- 1\n"
         "  for (i in (k-1):1) chi[i] <- 1-phi[i]+phi[i]*(1-p[i])*chi[i+1]\n"
         "  cum <- c(0, cumsum(log(phi)+log1p(-p)))\n"
         "  cell <- outer(-cum[1:(k-1)], cum[1:(k-1)]+log(phi)+log(p), '+')\n"
         "  -(sum(m*ifelse(m>0, cell, 0))+sum((R-rowSums(m))*log(chi[1:(k-1)]))) }\n"
         "x0 <- c(rep(qlogis(0.7), k-1), rep(0, k-1))\n"
         "s <- system.time(r <- optim(x0, f, method='BFGS', hessian=TRUE, control=list(maxit=5000, "
         "reltol=1e-12)))\n"
         "cat(s[['user.self']]+s[['sys.self']], -r$value)\n";
}

struct FromR {
  bool ran = false;
  double seconds = 0, log_likelihood = 0;
};

FromR run_r(const std::string& script) {
  const std::filesystem::path path =
      std::filesystem::temp_directory_path() / ("evet_speed_" + std::to_string(getpid()) + ".R");
  std::ofstream(path) << script;
  FromR result;
  if (FILE* pipe = popen(("Rscript --vanilla '" + path.string() + "' 2>&1").c_str(), "r")) {
    result.ran = std::fscanf(pipe, "%lf %lf", &result.seconds, &result.log_likelihood) == 2;
    pclose(pipe);
  }
  std::filesystem::remove(path);
  return result;
}

std::string processor_name() {
  std::ifstream input("/proc/cpuinfo");
  for (std::string line; std::getline(input, line);)
    if (line.starts_with("model name")) return line.substr(line.find(':') + 2);
  return "unknown processor";
}

}  // namespace
}  // namespace evet::models

int main(int argc, char** argv) {
  using namespace evet::models;
  CLI::App app{"Times the estimators on ten thousand animals."};
  CLI11_PARSE(app, argc, argv);
  const CaptureHistories closed = closed_survey(), open = open_survey();
  bool met = true;
  char date[20];
  const std::time_t now = std::time(nullptr);
  std::strftime(date, sizeof date, "%Y-%m-%d", std::gmtime(&now));
  std::printf("Processor time in seconds, one core of %s, %s.\n\n", processor_name().c_str(), date);
  std::printf("| what | animals | occasions | seconds | limit |\n|---|---|---|---|---|\n");
  const auto row = [&](const char* what, const CaptureHistories& h, double seconds, double limit) {
    std::printf("| %s | %zu | %zu | %.4f | %.0f |\n", what, h.animal_count(), h.occasion_count(), seconds,
                limit);
    met = met && seconds < limit && h.animal_count() == 10000;
  };
  EstimateRequest request;
  request.design = "closed";
  row("default closed set, whole report with plots", closed, timed(3, [&] { estimate(closed, request); }), 1);
  Terms by_occasion;
  by_occasion.occasion = true;
  row("survival and recapture by occasion, from histories to intervals", open,
      timed(3, [&] { fit_survival(open, by_occasion, by_occasion); }), 1);
  request.design = "open";
  row("default open set, whole report with plots", open, timed(1, [&] { estimate(open, request); }), 60);

  const ClosedCounts counts = closed_counts(closed);
  const MArray array = m_array(open);
  if (std::system("Rscript --version >/dev/null 2>&1") != 0) {
    std::printf("\nRscript is not installed, so the comparison with R is left out (tools/setup.sh bench).\n");
    return met ? 0 : 1;
  }
  std::printf(
      "\n| same likelihood, from its counts | here | R optim | times faster | ln L here - ln L of R "
      "|\n|---|---|---|---|---|\n");
  // Both maximise and take the Hessian; intervals, which R is not asked for, are left out here too.
  const auto against = [&](const char* what, const std::string& script, const FittedModel& model) {
    double log_likelihood = 0;
    const double here = timed(5, [&] { log_likelihood = fit(model.likelihood).log_likelihood; });
    const FromR r = run_r(script);
    if (!r.ran) {
      std::printf("| %s | %.4f | failed | | |\n", what, here);
      met = false;
      return;
    }
    std::printf("| %s | %.4f | %.3f | %.0f | %.6f |\n", what, here, r.seconds, r.seconds / here,
                log_likelihood - r.log_likelihood);
    met = met && r.seconds > 20 * here && log_likelihood > r.log_likelihood - 1e-3;
  };
  against("closed, chance of capture by occasion", closed_script(counts), fit_occasion(counts));
  against("survival and recapture by occasion", survival_script(array), fit_survival(array, true, true));
  return met ? 0 : 1;
}
