// Figures in words and tables.
#pragma once
#include <string>

namespace evet::models {

// With so many digits after the point.
std::string with_decimals(double value, int digits);
// A figure without needless digits.
std::string figure_text(double value);
// "= 0.03", "< 0.001": after a "p".
std::string p_text(double p);

}  // namespace evet::models
