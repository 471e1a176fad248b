#include "matcher/search/laying_doubt.h"

#include <algorithm>
#include <cmath>

namespace evet {

double doubted_llr(double llr, const Pattern& query, const Pattern& gallery, bool turned) {
  const double a = query.p_head_right, b = gallery.p_head_right;
  const double same_way = a * b + (1 - a) * (1 - b);
  const double laid = std::clamp(query.p_laid_right * gallery.p_laid_right, 0.0, 1.0);
  // Sums of logarithms throughout: ratios run to a million.
  const double matched = llr + std::log(std::max(laid * (turned ? 1 - same_way : same_way), 1e-12));
  if (laid >= 1) return matched;
  const double unlaid = std::log1p(-laid), top = std::max(matched, unlaid);
  return top + std::log(std::exp(matched - top) + std::exp(unlaid - top));
}

}  // namespace evet
