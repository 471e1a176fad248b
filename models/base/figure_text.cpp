#include "models/base/figure_text.h"

#include <cmath>
#include <cstdio>

#include "models/base/messages.h"

namespace evet::models {

std::string with_decimals(double value, int digits) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", digits, value);
  return text;
}

std::string figure_text(double value) {
  if (std::isnan(value)) return Message(messages::kNoFigure).words();
  if (std::isinf(value)) return Message(value > 0 ? messages::kNoLimit : messages::kNoLowerLimit).words();
  if (std::abs(value) < 5e-10) return "0";
  char text[40];
  const double size = std::abs(value);
  std::snprintf(text, sizeof text,
                size >= 1000   ? "%.0f"
                : size >= 100  ? "%.1f"
                : size >= 10   ? "%.2f"
                : size >= 0.01 ? "%.3f"
                               : "%.2g",
                value);
  std::string out = text;
  if (out.find('.') != std::string::npos && out.find('e') == std::string::npos) {
    while (out.back() == '0') out.pop_back();
    if (out.back() == '.') out.pop_back();
  }
  return out;
}

std::string p_text(double p) {
  char text[20];
  if (p < 0.001) return "< 0.001";
  std::snprintf(text, sizeof text, p < 0.01 ? "= %.3f" : "= %.2f", p);
  return text;
}

}  // namespace evet::models
