// Ten thousand random degenerate data sets through the front door of the estimators.
//
// Prints every fault and a summary; exit 1 when there is one.
#include <CLI/CLI.hpp>
#include <chrono>
#include <cstdio>
#include <cstdlib>

#include "tests/models/degenerate.h"

int main(int argc, char** argv) {
  CLI::App app{"Tries every model on histories that hold next to nothing."};
  std::uint64_t count = 10000;
  app.add_option("COUNT", count, "of histories")->check(CLI::PositiveNumber);
  CLI11_PARSE(app, argc, argv);
  const auto seconds = [] {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
  };
  std::uint64_t faulty = 0, refused_count = 0, slowest_seed = 0;
  double slowest = 0;
  const double start = seconds();
  for (std::uint64_t seed = 1; seed <= count; ++seed) {
    const double before = seconds();
    bool refused = false;
    const std::string faults = evet::models::testing::degenerate_faults(seed, refused);
    if (!faults.empty()) {
      ++faulty;
      std::fputs(faults.c_str(), stdout);
    }
    refused_count += refused ? 1 : 0;
    if (seconds() - before > slowest) {
      slowest = seconds() - before;
      slowest_seed = seed;
    }
  }
  std::printf(
      "%llu degenerate data sets: %llu with a fault, %llu refused with a reason, %.1f s in all, slowest %.2f "
      "s (%llu)\n",
      static_cast<unsigned long long>(count), static_cast<unsigned long long>(faulty),
      static_cast<unsigned long long>(refused_count), seconds() - start, slowest,
      static_cast<unsigned long long>(slowest_seed));
  return faulty ? 1 : 0;
}
