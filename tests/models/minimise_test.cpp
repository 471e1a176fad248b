// The optimiser against certified problems of the NIST Statistical Reference Datasets, nonlinear regression
// (https://www.itl.nist.gov/div898/strd/nls/nls_main.shtml). Data, starts and certified values are written
// down from memory of that collection; each set is confirmed by its certified residual sum of squares.
#include "models/fit/minimise.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <numbers>

#include "models/base/random.h"
#include "models/fit/tape.h"

namespace evet::models {
namespace {

using Eigen::VectorXd;
using Values = std::vector<double>;

struct Problem {
  std::string name;
  Values y, x;
  std::vector<Values> starts;
  Values certified;
  double residual_sum;
};

// A sum of exponentials is the same whatever the order of its terms; the certified order has rising rates.
void sort_terms(VectorXd& b) {
  std::vector<std::pair<double, double>> terms;
  for (Eigen::Index i = 0; i < b.size(); i += 2) terms.push_back({b[i + 1], b[i]});
  std::sort(terms.begin(), terms.end());
  for (Eigen::Index i = 0; i < b.size(); i += 2) {
    b[i] = terms[static_cast<std::size_t>(i / 2)].second;
    b[i + 1] = terms[static_cast<std::size_t>(i / 2)].first;
  }
}

template <class Model>
void certify(const Problem& problem, const Model& model) {
  const auto residual_sum = [&](const auto& b) {
    auto sum = 0 * b[0];
    for (std::size_t i = 0; i < problem.y.size(); ++i) {
      const auto r = problem.y[i] - model(b, problem.x[i]);
      sum += r * r;
    }
    return sum;
  };
  for (std::size_t s = 0; s < problem.starts.size(); ++s) {
    VectorXd start = Eigen::Map<const VectorXd>(problem.starts[s].data(),
                                                static_cast<Eigen::Index>(problem.starts[s].size()));
    MinimiseOptions options;
    options.typical_size = 1e-12;
    options.hard_surface = true;
    options.max_newton_steps = 2000;
    const Minimum found = minimise(
        [&](const VectorXd& x, VectorXd* g) { return evaluate(residual_sum, x, g); }, start, options);
    double digits = 15;
    VectorXd b = found.x;
    if (problem.name == "Lanczos3") sort_terms(b);
    for (std::size_t i = 0; i < problem.certified.size(); ++i) {
      const double error = std::abs(b[static_cast<Eigen::Index>(i)] / problem.certified[i] - 1);
      digits = std::min(digits, error == 0 ? 15 : -std::log10(error));
    }
    const double sum_digits = -std::log10(std::abs(found.value / problem.residual_sum - 1) + 1e-15);
    std::printf(
        "  %-9s start %zu: %5.1f digits in the parameters, %5.1f in the residual sum of squares, %d steps\n",
        problem.name.c_str(), s + 1, digits, sum_digits, found.newton_steps);
    EXPECT_GE(digits, 4) << problem.name << " from start " << s + 1;
    EXPECT_GE(sum_digits, 4) << problem.name << " from start " << s + 1;
  }
}

using std::exp;

const Values kMisraY = {10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
                        44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78};
const Values kMisraX = {77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
                        378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};

TEST(Nist, Misra1a) {
  certify({"Misra1a",
           kMisraY,
           kMisraX,
           {{500, 0.0001}, {250, 0.0005}},
           {2.3894212918E+02, 5.5015643181E-04},
           1.2455138894E-01},
          [](const auto& b, double x) { return b[0] * (1 - exp(-b[1] * x)); });
}
TEST(Nist, Misra1b) {
  certify({"Misra1b",
           kMisraY,
           kMisraX,
           {{500, 0.0001}, {300, 0.0002}},
           {3.3799746163E+02, 3.9039091287E-04},
           7.5464681533E-02},
          [](const auto& b, double x) {
            const auto base = 1 + b[1] * x / 2;
            return b[0] * (1 - 1 / (base * base));
          });
}
TEST(Nist, Misra1c) {
  certify({"Misra1c",
           kMisraY,
           kMisraX,
           {{500, 0.0001}, {600, 0.0002}},
           {6.3642725809E+02, 2.0813627256E-04},
           4.0966836971E-02},
          [](const auto& b, double x) {
            using std::log;
            return b[0] * (1 - exp(-0.5 * log(1 + 2 * b[1] * x)));
          });
}
TEST(Nist, Misra1d) {
  certify({"Misra1d",
           kMisraY,
           kMisraX,
           {{500, 0.0001}, {450, 0.0003}},
           {4.3736970754E+02, 3.0227324449E-04},
           5.6419295283E-02},
          [](const auto& b, double x) { return b[0] * b[1] * x / (1 + b[1] * x); });
}
TEST(Nist, DanWood) {
  certify({"DanWood",
           {2.138, 3.421, 3.597, 4.340, 4.882, 5.660},
           {1.309, 1.471, 1.490, 1.565, 1.611, 1.680},
           {{1, 5}, {0.7, 4}},
           {7.6886226176E-01, 3.8604055871E+00},
           4.3173084083E-03},
          [](const auto& b, double x) { return b[0] * exp(b[1] * std::log(x)); });
}
TEST(Nist, BoxBod) {
  certify({"BoxBOD",
           {109, 149, 149, 191, 213, 224},
           {1, 2, 3, 5, 7, 10},
           {{1, 1}, {100, 0.75}},
           {2.1380940889E+02, 5.4723748542E-01},
           1.1680088766E+03},
          [](const auto& b, double x) { return b[0] * (1 - exp(-b[1] * x)); });
}
TEST(Nist, Rat42) {
  certify({"Rat42",
           {8.93, 10.8, 18.59, 22.33, 39.35, 56.11, 61.73, 64.62, 67.08},
           {9, 14, 21, 28, 42, 57, 63, 70, 79},
           {{100, 1, 0.1}, {75, 2.5, 0.07}},
           {7.2462237576E+01, 2.6180768402E+00, 6.7359200066E-02},
           8.0565229338E+00},
          [](const auto& b, double x) { return b[0] / (1 + exp(b[1] - b[2] * x)); });
}
TEST(Nist, Rat43) {
  certify({"Rat43",
           {16.08, 33.83, 65.80, 97.20, 191.55, 326.20, 386.87, 520.53, 590.03, 651.92, 724.93, 699.56,
            689.96, 637.56, 717.41},
           {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15},
           {{100, 10, 1, 1}, {700, 5, 0.75, 1.3}},
           {6.9964151270E+02, 5.2771253025E+00, 7.5962938329E-01, 1.2792483859E+00},
           8.7864049080E+03},
          [](const auto& b, double x) {
            using std::log;
            return b[0] * exp(-log(1 + exp(b[1] - b[2] * x)) / b[3]);
          });
}
TEST(Nist, Mgh09) {
  certify({"MGH09",
           {1.957E-01, 1.947E-01, 1.735E-01, 1.600E-01, 8.440E-02, 6.270E-02, 4.560E-02, 3.420E-02, 3.230E-02,
            2.350E-02, 2.460E-02},
           {4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625},
           {{25, 39, 41.5, 39}, {0.25, 0.39, 0.415, 0.39}},
           {1.9280693458E-01, 1.9128232873E-01, 1.2305650693E-01, 1.3606233068E-01},
           3.0750560385E-04},
          [](const auto& b, double x) { return b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]); });
}
TEST(Nist, Mgh10) {
  Values x;
  for (int i = 0; i < 16; ++i) x.push_back(50 + 5 * i);
  certify({"MGH10",
           {34780, 28610, 23650, 19630, 16370, 13720, 11540, 9744, 8261, 7030, 6005, 5147, 4427, 3820, 3307,
            2872},
           x,
           {{2, 400000, 25000}, {0.02, 4000, 250}},
           {5.6096364710E-03, 6.1813463463E+03, 3.4522363462E+02},
           8.7945855171E+01},
          [](const auto& b, double t) { return b[0] * exp(b[1] / (t + b[2])); });
}
TEST(Nist, Mgh17) {
  Values x;
  for (int i = 0; i < 33; ++i) x.push_back(10 * i);
  certify({"MGH17",
           {8.44E-01, 9.08E-01, 9.32E-01, 9.36E-01, 9.25E-01, 9.08E-01, 8.81E-01, 8.50E-01, 8.18E-01,
            7.84E-01, 7.51E-01, 7.18E-01, 6.85E-01, 6.58E-01, 6.28E-01, 6.03E-01, 5.80E-01, 5.58E-01,
            5.38E-01, 5.22E-01, 5.06E-01, 4.90E-01, 4.78E-01, 4.67E-01, 4.57E-01, 4.48E-01, 4.38E-01,
            4.31E-01, 4.24E-01, 4.20E-01, 4.14E-01, 4.11E-01, 4.06E-01},
           x,
           {{50, 150, -100, 1, 2}, {0.5, 1.5, -1, 0.01, 0.02}},
           {3.7541005211E-01, 1.9358469127E+00, -1.4646871366E+00, 1.2867534640E-02, 2.2122699662E-02},
           5.4648946975E-05},
          [](const auto& b, double t) { return b[0] + b[1] * exp(-t * b[3]) + b[2] * exp(-t * b[4]); });
}
TEST(Nist, Eckerle4) {
  certify({"Eckerle4",
           {0.0001575, 0.0001699, 0.0002350, 0.0003102, 0.0004917, 0.0008710, 0.0017418, 0.0046400, 0.0065895,
            0.0097302, 0.0149002, 0.0237310, 0.0401683, 0.0712559, 0.1264458, 0.2073413, 0.2902366, 0.3445623,
            0.3698049, 0.3668534, 0.3106727, 0.2078154, 0.1164354, 0.0616764, 0.0337200, 0.0194023, 0.0117831,
            0.0074357, 0.0022732, 0.0008800, 0.0004579, 0.0002345, 0.0001586, 0.0001143, 0.0000710},
           {400,   405, 410,   415, 420,   425, 430,   435, 436.5, 438, 439.5, 441,
            442.5, 444, 445.5, 447, 448.5, 450, 451.5, 453, 454.5, 456, 457.5, 459,
            460.5, 462, 463.5, 465, 470,   475, 480,   485, 490,   495, 500},
           {{1, 10, 500}, {1.5, 5, 450}},
           {1.5543827178E+00, 4.0888321754E+00, 4.5154121844E+02},
           1.4635887487E-03},
          [](const auto& b, double x) {
            const auto z = (x - b[2]) / b[1];
            return b[0] / b[1] * exp(-0.5 * z * z);
          });
}
TEST(Nist, Thurber) {
  certify(
      {"Thurber",
       {80.574,   84.248,   87.264,   87.195,   89.076,   89.608,   89.868,   90.101,   92.405,   95.854,
        100.696,  101.060,  401.672,  390.724,  567.534,  635.316,  733.054,  759.087,  894.206,  990.785,
        1090.109, 1080.914, 1122.643, 1178.351, 1260.531, 1273.514, 1288.339, 1327.543, 1353.863, 1414.509,
        1425.208, 1421.384, 1442.962, 1464.350, 1468.705, 1447.894, 1457.628},
       {-3.067, -2.981, -2.921, -2.912, -2.840, -2.797, -2.702, -2.699, -2.633, -2.481,
        -2.363, -2.322, -1.501, -1.460, -1.274, -1.212, -1.100, -1.046, -0.915, -0.714,
        -0.566, -0.545, -0.400, -0.309, -0.109, -0.103, 0.010,  0.119,  0.377,  0.790,
        0.963,  1.006,  1.115,  1.572,  1.841,  2.047,  2.200},
       {{1000, 1000, 400, 40, 0.7, 0.3, 0.03}, {1300, 1500, 500, 75, 1, 0.4, 0.05}},
       {1.2881396800E+03, 1.4910792535E+03, 5.8323836877E+02, 7.5416644291E+01, 9.6629502864E-01,
        3.9797285797E-01, 4.9727297349E-02},
       5.6427082397E+03},
      [](const auto& b, double x) {
        return (b[0] + b[1] * x + b[2] * (x * x) + b[3] * (x * x * x)) /
               (1 + b[4] * x + b[5] * (x * x) + b[6] * (x * x * x));
      });
}
TEST(Nist, Lanczos3) {
  Values x;
  for (int i = 0; i < 24; ++i) x.push_back(0.05 * i);
  certify({"Lanczos3",
           {2.5134, 2.0443, 1.6684, 1.3664, 1.1232, 0.9269, 0.7679, 0.6389, 0.5338, 0.4479, 0.3776, 0.3197,
            0.2720, 0.2325, 0.1997, 0.1723, 0.1493, 0.1301, 0.1138, 0.1000, 0.0883, 0.0783, 0.0698, 0.0624},
           x,
           {{1.2, 0.3, 5.6, 5.5, 6.5, 7.6}, {0.5, 0.7, 3.6, 4.2, 4, 6.3}},
           {8.6816414977E-02, 9.5498101505E-01, 8.4400777463E-01, 2.9515951832E+00, 1.5825685901E+00,
            4.9863565084E+00},
           1.6117193594E-08},
          [](const auto& b, double t) {
            return b[0] * exp(-b[1] * t) + b[2] * exp(-b[3] * t) + b[4] * exp(-b[5] * t);
          });
}
TEST(Nist, Roszman1) {
  certify({"Roszman1",
           {0.252429, 0.252141, 0.251809, 0.297989, 0.296257, 0.295319, 0.339603, 0.337731, 0.333820,
            0.389510, 0.386998, 0.438864, 0.434887, 0.427893, 0.471568, 0.461699, 0.461144, 0.513532,
            0.506641, 0.505062, 0.535648, 0.533726, 0.568064, 0.612886, 0.624169},
           {-4868.68, -4868.09, -4867.41, -3375.19, -3373.14, -3372.03, -2473.74, -2472.35, -2469.45,
            -1894.65, -1893.40, -1497.24, -1495.85, -1493.41, -1208.68, -1206.18, -1206.04, -997.92,
            -996.61,  -996.31,  -834.94,  -834.66,  -710.03,  -530.16,  -464.17},
           {{0.1, -0.00001, 1000, -100}, {0.2, -0.000005, 1200, -150}},
           {2.0196866396E-01, -6.1953516256E-06, 1.2044556708E+03, -1.8134269537E+02},
           4.9484847331E-04},
          [](const auto& b, double x) {
            using std::atan;
            return b[0] - b[1] * x - atan(b[2] / (x - b[3])) / std::numbers::pi;
          });
}

TEST(Minimise, StopsAtTheBoxAndOnFlatDirections) {
  const auto slope = [](const auto& b) { return exp(-b[0]) + (b[1] - 2) * (b[1] - 2) + 0 * b[2]; };
  MinimiseOptions options;
  options.lower = VectorXd::Constant(3, -15);
  options.upper = VectorXd::Constant(3, 15);
  const Minimum found = minimise([&](const VectorXd& x, VectorXd* g) { return evaluate(slope, x, g); },
                                 VectorXd::Zero(3), options);
  EXPECT_TRUE(found.converged);
  EXPECT_EQ(found.x[0], 15);
  EXPECT_NEAR(found.x[1], 2, 1e-9);
}

TEST(Minimise, ASlopeByDifferencesIsThatOfCalculus) {
  const auto function = [](const VectorXd& x) { return std::exp(x[0]) + x[0] * x[1] * x[1]; };
  const VectorXd x = (VectorXd(2) << 0.5, 300).finished();
  const VectorXd slope = slope_by_differences(function, x);
  EXPECT_NEAR(slope[0], std::exp(0.5) + 300.0 * 300.0, 1e-9 * 300 * 300);
  EXPECT_NEAR(slope[1], 2 * 0.5 * 300, 1e-8 * 300);
}

TEST(Minimise, SaysSoWhenThereIsNoValueAtAll) {
  const Minimum found = minimise(
      [](const VectorXd&, VectorXd* g) {
        if (g) *g = VectorXd::Zero(1);
        return kNoValue;
      },
      VectorXd::Zero(1));
  EXPECT_FALSE(found.converged);
}

TEST(Random, PortableGeneratorGivesTheTenThousandthNumberOfParkAndMiller) {
  PortableRandom random(1);
  for (int i = 0; i < 10000; ++i) random.uniform();
  EXPECT_EQ(random.state(), 1043618065u);
}

}  // namespace
}  // namespace evet::models
