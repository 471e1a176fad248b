#include "models/simulate/simulate.h"

#include <algorithm>
#include <cmath>

#include "models/fit/tape.h"

namespace evet::models {
namespace {

CaptureHistories empty_histories(std::size_t occasions) {
  CaptureHistories histories;
  for (std::size_t j = 0; j < occasions; ++j) histories.occasions.push_back(std::to_string(j + 1));
  return histories;
}

void keep_if_caught(CaptureHistories& histories, const std::vector<std::uint8_t>& row) {
  if (std::find(row.begin(), row.end(), 1) == row.end()) return;
  histories.animals.push_back(std::to_string(histories.animals.size() + 1));
  histories.caught.insert(histories.caught.end(), row.begin(), row.end());
}

}  // namespace

CaptureHistories simulate_closed(const ClosedTruth& truth, const Uniform& uniform) {
  const std::size_t t = truth.p.size();
  CaptureHistories histories = empty_histories(t);
  std::vector<std::uint8_t> row(t);
  for (int animal = 0; animal < truth.animals; ++animal) {
    bool marked = false;
    for (std::size_t j = 0; j < t; ++j) {
      double p = marked && !truth.again.empty() ? truth.again[j] : truth.p[j];
      if (!truth.catchability.empty())
        p = logistic(std::log(p / (1 - p)) + truth.catchability[static_cast<std::size_t>(animal)]);
      row[j] = uniform() < p ? 1 : 0;
      marked = marked || row[j];
    }
    keep_if_caught(histories, row);
  }
  return histories;
}

CaptureHistories simulate_open(const OpenTruth& truth, const Uniform& uniform) {
  const std::size_t k = truth.p.size();
  CaptureHistories histories = empty_histories(k);
  for (std::size_t entry = 0; entry < k; ++entry)
    for (int animal = 0; animal < truth.entrants[entry]; ++animal) {
      std::vector<std::uint8_t> row(k, 0);
      for (std::size_t j = entry; j < k; ++j) {
        if (j > entry && !(uniform() < truth.survival[j - 1])) break;
        row[j] = uniform() < truth.p[j] ? 1 : 0;
      }
      keep_if_caught(histories, row);
    }
  return histories;
}

CaptureHistories simulate_robust(const RobustTruth& truth, const Uniform& uniform) {
  const std::size_t k = truth.entrants.size(), s = static_cast<std::size_t>(truth.secondary);
  CaptureHistories histories = empty_histories(k * s);
  for (std::size_t j = 0; j < k * s; ++j) histories.primary.push_back(static_cast<int>(j / s));
  for (std::size_t entry = 0; entry < k; ++entry)
    for (int animal = 0; animal < truth.entrants[entry]; ++animal) {
      std::vector<std::uint8_t> row(k * s, 0);
      bool present = true;
      for (std::size_t i = entry; i < k; ++i) {
        if (i > entry && !(uniform() < truth.survival)) break;
        // Entrants arrive present.
        present = i == entry || !(uniform() < (present ? truth.leaving : truth.staying_away));
        for (std::size_t j = 0; present && j < s; ++j) row[i * s + j] = uniform() < truth.p ? 1 : 0;
      }
      keep_if_caught(histories, row);
    }
  return histories;
}

CaptureHistories simulate_releases(const std::vector<int>& marked, const std::vector<double>& survival,
                                   const std::vector<double>& p, const Uniform& uniform) {
  const std::size_t k = survival.size() + 1;
  CaptureHistories histories = empty_histories(k);
  for (std::size_t first = 0; first < marked.size(); ++first)
    for (int animal = 0; animal < marked[first]; ++animal) {
      std::vector<std::uint8_t> row(k, 0);
      row[first] = 1;
      for (std::size_t j = first + 1; j < k && uniform() < survival[j - 1]; ++j)
        row[j] = uniform() < p[j] ? 1 : 0;
      keep_if_caught(histories, row);
    }
  return histories;
}

}  // namespace evet::models
