#include "tools/trial/trial_text.h"

#include <iterator>

#include "fmt/format.h"

namespace evet::trial {
namespace {

std::string row(const std::string& name, const std::string& value) {
  return "| " + name + " | " + value + " |\n";
}

std::string point_text(const OperatingPoint& point, int non_mated) {
  if (point.allowed_fpir <= 0)
    return fmt::format("{}; {} non-mated searches", text_of(point.fnir), non_mated);
  if (!point.measurable)
    return fmt::format("{} at no false positive in {} searches; a rate of {:g} % needs {:.0f}",
                       text_of(point.fnir), non_mated, 100 * point.allowed_fpir, 1 / point.allowed_fpir);
  return fmt::format("{}; measured FPIR {}", text_of(point.fnir), text_of(point.fpir));
}

}  // namespace

std::string text_of(const Rate& rate) {
  if (rate.of == 0) return "not measured";
  return fmt::format("{:.2f} % ({:.2f}-{:.2f}), {} of {}", 100 * rate.value, 100 * rate.low, 100 * rate.high,
                     rate.count, rate.of);
}

std::string markdown(const Trial& trial, const Scores& s) {
  std::string out = "| | |\n|---|---|\n";
  out += row("gallery", fmt::format("{} individuals, {} photos; {} more individuals have no usable photo",
                                    trial.gallery_individuals, trial.gallery_photos, trial.not_enrolled));
  out += row("searches", fmt::format("{} mated, {} non-mated", s.mated, s.non_mated));
  out += row("failure to acquire", text_of(s.failure_to_acquire));
  out += row("rank-1 identification rate", text_of(s.rank1));
  out += row("the same, failures to acquire counted as misses", text_of(s.rank1_of_all));
  std::string cmc;
  for (const size_t k : {2, 3, 5, 10})
    cmc += fmt::format("{}{}: {:.2f} %", cmc.empty() ? "" : ", ", k, 100 * s.cmc[k - 1].value);
  out += row("cumulative match by rank", cmc);
  for (const OperatingPoint& point : s.points)
    out += row(point.allowed_fpir > 0 ? fmt::format("FNIR at FPIR {:g} %", 100 * point.allowed_fpir)
                                      : std::string("FNIR at no false positive"),
               point_text(point, s.non_mated));
  out += row("cost of the likelihood ratios (Cllr), bits",
             fmt::format("{:.4f} ({:.4f}-{:.4f}) = discrimination {:.4f} + calibration {:.4f}", s.cost.total,
                         s.cost_total.low, s.cost_total.high, s.cost.discrimination, s.cost.calibration()));
  out += row("advised same", text_of(s.same.given) + "; right " + text_of(s.same.right));
  out += row("advised new", text_of(s.is_new.given) + "; right " + text_of(s.is_new.right));
  out += row("advised look", text_of(s.look.given) + "; best candidate the animal " + text_of(s.look.right));
  std::string bins;
  for (const ReliabilityBin& b : s.reliability)
    bins += fmt::format("{}{:.3f} -> {:.3f} (of {})", bins.empty() ? "" : "; ", b.stated, b.observed.value,
                        b.observed.of);
  out += row("stated probability of the best candidate -> share right", bins);
  return out;
}

}  // namespace evet::trial
