// Agreement beyond chance, and error rates with exact intervals: statistics of tables, without a catalogue.
//
// Sources. Cohen's kappa: Cohen 1960, Educational and Psychological Measurement 20:37-46; its large-sample
// standard errors: Fleiss, Cohen & Everitt 1969, Psychological Bulletin 72:323-327. Many readers: Fleiss
// 1971, Psychological Bulletin 76:378-382; standard error under no agreement: Fleiss, Nee & Landis 1979,
// Psychological Bulletin 86:974-977. Exact interval of a proportion: Clopper & Pearson 1934, Biometrika
// 26:404-413. Interval of kappa: percentile bootstrap over the cases (Efron & Tibshirani 1993, An
// Introduction to the Bootstrap, chapter 13), which Zapf, Castell, Morawietz & Karch 2016, BMC Medical
// Research Methodology 16:93, find to hold for Fleiss's kappa where the large-sample one does not.
#pragma once
#include <optional>
#include <vector>

namespace evet {

struct Interval {
  double low = 0, high = 0;
};

struct Kappa {
  double observed = 0;  // share of cases on which the readers agreed
  double chance = 0;    // the same, had they answered at random with their own frequencies
  double kappa = 0;     // (observed - chance) / (1 - chance)
  double se = 0;        // for the interval
  double se_null = 0;   // for a test against no agreement beyond chance
  // Of kappa: by the bootstrap, the draws from a fixed seed. Few cases drawn again know nothing of the answers
  // that none of them shows, and where a reader gave one kind of answer alone every draw gives the same kappa: so
  // it is never narrower than what the exact interval of the observed agreement leaves, chance agreement held
  // fast. Within [-1, 1].
  Interval interval;
  Interval observed_interval;  // exact, of the share of cases on which all their readers agreed
};

// table[i][j]: cases that the first reader put into category i and the second into j; square. Nothing without
// a case or where chance agreement is 1 (one category alone was used): kappa is not defined then.
std::optional<Kappa> cohen_kappa(const std::vector<std::vector<int>>& table, double level = 0.95);

struct ManyReadersKappa : Kappa {
  std::vector<double> category_shares;
  std::vector<std::optional<double>> by_category;  // agreement on each category against all others
  size_t cases = 0;                                // with at least two readers
};

// counts[i][j]: readers that put case i into category j. Cases with fewer than two readers say nothing and
// are left out; numbers of readers may differ (each case weighs the same; se_null is then that of the mean
// number). `se` is conditional on these readers, by linearisation over the cases.
std::optional<ManyReadersKappa> fleiss_kappa(const std::vector<std::vector<int>>& counts,
                                             double level = 0.95);

struct ErrorRate {
  int errors = 0, trials = 0;
  std::optional<double> rate;  // nothing without a trial
  Interval interval{0, 1};     // exact; no error in n trials bounds the rate at about 3/n
};
ErrorRate error_rate(int errors, int trials, double level = 0.95);

}  // namespace evet
