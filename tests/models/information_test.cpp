// Information criteria and averaging: the cement example of Burnham & Anderson (2002), the dipper models, a
// hand-checked case.
#include "models/choice/information.h"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <cmath>

#include "check_values.h"

namespace evet::models {
namespace {

using nlohmann::json;
using testing::agrees;
using testing::check_entry;

TEST(Information, Cement) {
  const json entry = check_entry("08_information_criteria", "ic.cement");
  const json& data = entry.at("data");
  const auto x = data.at("x").get<std::vector<std::vector<double>>>();
  const auto y = data.at("y").get<std::vector<double>>();
  const auto at = data.at("predict_at").get<std::vector<double>>();
  const double n = static_cast<double>(y.size());
  std::vector<double> k, sigma2, kernel, criterion, prediction, errors, delta;
  for (const json& name : entry.at("expected").at("model_order").at("value")) {
    const auto columns = data.at("models").at(name.get<std::string>()).get<std::vector<std::size_t>>();
    const Eigen::Index p = static_cast<Eigen::Index>(columns.size()) + 1;
    Eigen::MatrixXd design = Eigen::MatrixXd::Ones(static_cast<Eigen::Index>(y.size()), p);
    Eigen::VectorXd here = Eigen::VectorXd::Ones(p);
    for (Eigen::Index c = 1; c < p; ++c) {
      for (std::size_t i = 0; i < y.size(); ++i)
        design(static_cast<Eigen::Index>(i), c) = x[i][columns[static_cast<std::size_t>(c) - 1] - 1];
      here[c] = at[columns[static_cast<std::size_t>(c) - 1] - 1];
    }
    const Eigen::VectorXd response =
        Eigen::Map<const Eigen::VectorXd>(y.data(), static_cast<Eigen::Index>(y.size()));
    const Eigen::VectorXd b = design.colPivHouseholderQr().solve(response);
    const double residual = (response - design * b).squaredNorm();
    k.push_back(static_cast<double>(p) + 1);
    sigma2.push_back(residual / n);
    kernel.push_back(-n / 2 * std::log(residual / n));
    criterion.push_back(aicc(kernel.back(), k.back(), n));
    prediction.push_back(here.dot(b));
    errors.push_back(std::sqrt(residual / (n - static_cast<double>(p)) *
                               here.dot((design.transpose() * design).ldlt().solve(here))));
  }
  for (const double value : criterion) delta.push_back(value - criterion[0]);
  const json& expected = entry.at("expected");
  agrees(entry, expected, "K", k);
  agrees(entry, expected, "sigma2", sigma2);
  agrees(entry, expected, "loglik_kernel", kernel);
  agrees(entry, expected, "AICc", criterion);
  agrees(entry, expected, "delta", delta);
  agrees(entry, expected, "weight", akaike_weights(criterion));
  agrees(entry, expected, "prediction", prediction);
  agrees(entry, expected, "conditional_se", errors);
  const Averaged mean = average(prediction, errors, akaike_weights(criterion));
  agrees(entry, expected, "averaged", mean.value);
  agrees(entry, expected, "unconditional_se_sum_of_roots", mean.se_sum_of_roots);
  agrees(entry, expected, "unconditional_se_root_of_sum", mean.se_root_of_sum);
}

TEST(Information, OverdispersedDipper) {
  const json entry = check_entry("08_information_criteria", "ic.qaicc_dipper");
  const auto minus_two = entry.at("data").at("minus2loglik").get<std::vector<double>>();
  const auto k = entry.at("data").at("K").get<std::vector<double>>();
  for (const auto& [name, factor, extra] : {std::tuple{"chat_1_0_no_extra", 1.0, false},
                                            {"chat_1_183_extra_1", 1.183, true},
                                            {"chat_2_5_extra_1", 2.5, true}}) {
    std::vector<double> criterion, delta;
    for (std::size_t i = 0; i < k.size(); ++i)
      criterion.push_back(qaicc(-minus_two[i] / 2, k[i], entry.at("data").at("n"), factor, extra));
    for (const double value : criterion) delta.push_back(value - criterion[0]);
    agrees(entry, entry.at("expected").at(name), "QAICc", criterion);
    agrees(entry, entry.at("expected").at(name), "delta", delta);
    agrees(entry, entry.at("expected").at(name), "weight", akaike_weights(criterion));
  }
}

TEST(Information, ThreeModelsByHand) {
  const json entry = check_entry("08_information_criteria", "ic.tiny_average");
  const json& expected = entry.at("expected");
  const std::vector<double> weights = akaike_weights(entry.at("data").at("AICc"));
  const Averaged mean = average(entry.at("data").at("estimate"), entry.at("data").at("se"), weights);
  agrees(entry, expected, "weight", weights);
  agrees(entry, expected, "averaged", mean.value);
  agrees(entry, expected, "unconditional_se_sum_of_roots", mean.se_sum_of_roots);
  agrees(entry, expected, "unconditional_se_root_of_sum", mean.se_root_of_sum);
  const Interval interval = normal_interval(mean.value, mean.se_sum_of_roots, 0.95);
  agrees(entry, expected, "interval95", {interval.lower, interval.upper});
  agrees(entry, expected, "evidence_ratio_1_over_2", weights[0] / weights[1]);
}

TEST(Information, TooFewDataWeighNothing) {
  EXPECT_TRUE(std::isinf(aicc(-10, 5, 6)));
  EXPECT_EQ(akaike_weights({10, kInfinity})[0], 1);
  EXPECT_EQ(akaike_weights({kInfinity, kInfinity})[0], 0);
  EXPECT_NEAR(likelihood_ratio_test(-102, 1, -100.0793, 2).p_value, 0.05, 1e-4);
  EXPECT_EQ(likelihood_ratio_test(-100, 2, -100.1, 2).p_value, 1);
}

}  // namespace
}  // namespace evet::models
