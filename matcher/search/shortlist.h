// The nearest descriptors of a large gallery, without looking at every one.
//
// FLANN's k-means tree, seeded, so that the same gallery always gives the same answer (its k-d trees take
// their seed from the machine and cannot promise that); an exact scan stands beside it as its oracle, and
// serves small galleries, where it is as fast. Method: Muja & Lowe 2014, IEEE Trans. PAMI 36:2227.
#pragma once
#include <cstdint>
#include <memory>
#include <vector>

namespace evet {

struct ShortlistOptions {
  int exact_below = 20000;  // descriptors; smaller galleries are scanned whole
  int branching = 32;
  int checks = 2048;  // leaves looked at a search: more finds more and takes longer
  std::uint32_t seed = 1;
  void check() const;
};

class Shortlist {
 public:
  // Descriptors of one length each, unit length; an empty list is allowed.
  explicit Shortlist(const std::vector<std::vector<float>>& descriptors,
                     const ShortlistOptions& options = {});
  ~Shortlist();
  Shortlist(Shortlist&&) noexcept;
  Shortlist& operator=(Shortlist&&) noexcept;

  // Indices of the `count` nearest, nearest first, ties to the lower index.
  std::vector<int> nearest(const std::vector<float>& query, int count) const;
  std::vector<int> nearest_exact(const std::vector<float>& query, int count) const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace evet
