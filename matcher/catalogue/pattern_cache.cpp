#include "matcher/catalogue/pattern_cache.h"

namespace evet {

// A midline drawn, or taken back, gives the photo another pattern.
void PatternCache::forget_examined(const Statements& statements) {
  if (statements.withdrawals.size() != withdrawals_) examinations_ = 0;  // it may have been any of them
  for (; examinations_ < statements.examinations.size(); ++examinations_)
    kept_.erase(statements.examinations[examinations_].what.photo);
  withdrawals_ = statements.withdrawals.size();
}

std::vector<std::optional<Pattern>> PatternCache::of(Catalogue& catalogue,
                                                     const std::vector<PhotoRef>& photos, int threads,
                                                     LeftOut* left_out) {
  forget_examined(catalogue.statements());
  std::vector<PhotoRef> missing;
  for (const PhotoRef& photo : photos)
    if (!kept_.contains(photo.photo)) missing.push_back(photo);
  LeftOut failed;
  std::vector<std::optional<Pattern>> made = patterns_of(catalogue, missing, threads, &failed);
  for (size_t i = 0; i < missing.size(); ++i)
    if (!failed.contains(missing[i].photo)) kept_[missing[i].photo] = std::move(made[i]);
  std::vector<std::optional<Pattern>> out;
  out.reserve(photos.size());
  for (const PhotoRef& photo : photos) {
    const auto at = kept_.find(photo.photo);
    out.push_back(at == kept_.end() ? std::nullopt : at->second);
  }
  if (left_out != nullptr) left_out->merge(failed);
  return out;
}

}  // namespace evet
