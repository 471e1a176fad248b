// A linear predictor for likelihoods that are written for double and for Var alike.
//
// The same terms as in a Predictor, of which it is the table of weights: what each coordinate adds to each unit
// in each column.
#pragma once
#include <utility>
#include <vector>

#include "models/fit/predictor.h"

namespace evet::models {

class LinearPart {
 public:
  LinearPart() = default;
  explicit LinearPart(const Predictor& predictor) {
    const Eigen::Index end = predictor.first() + predictor.size();
    for (Eigen::Index c = predictor.first(); c < end; ++c) {
      const Eigen::MatrixXd weight = predictor.eta(Eigen::VectorXd::Unit(end, c));
      columns_ = static_cast<std::size_t>(weight.cols());
      weights_.resize(columns_ * static_cast<std::size_t>(weight.rows()));
      for (Eigen::Index u = 0; u < weight.rows(); ++u)
        for (Eigen::Index j = 0; j < weight.cols(); ++j)
          if (weight(u, j) != 0)
            weights_[static_cast<std::size_t>(u) * columns_ + static_cast<std::size_t>(j)].emplace_back(
                static_cast<std::size_t>(c), weight(u, j));
    }
  }

  template <class T>
  T eta(const std::vector<T>& theta, std::size_t unit, std::size_t column) const {
    T sum = T(0.0);
    bool empty = true;
    for (const auto& [coordinate, weight] : weights_[unit * columns_ + column]) {
      const T part = weight == 1 ? theta[coordinate] : weight * theta[coordinate];
      sum = empty ? part : sum + part;
      empty = false;
    }
    return sum;
  }

 private:
  std::size_t columns_ = 0;
  std::vector<std::vector<std::pair<std::size_t, double>>> weights_;
};

}  // namespace evet::models
