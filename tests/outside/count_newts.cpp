// Chapman (1951): 201 x 101 / 21 - 1.
#include <cstdio>

#include "models/closed/two_sample.h"

int main() {
  const evet::models::Estimate newts =
      evet::models::chapman({.marked = 200, .caught = 100, .recaptured = 20});
  std::printf("%.1f\n", newts.value);
}
