#include "matcher/search/code_distance.h"

#include <bit>
#include <cmath>

#if defined(__x86_64__)
#include <immintrin.h>
#endif

namespace evet {
namespace {

#if defined(__x86_64__)
// Set bits of each byte by two table look-ups on its halves, then summed over the register.
__attribute__((target("avx2"))) inline __m256i bit_sums(__m256i x) {
  const __m256i table = _mm256_setr_epi8(0, 1, 1, 2, 1, 2, 2, 3, 1, 2, 2, 3, 2, 3, 3, 4,  //
                                         0, 1, 1, 2, 1, 2, 2, 3, 1, 2, 2, 3, 2, 3, 3, 4);
  const __m256i low = _mm256_set1_epi8(0x0f);
  const __m256i a = _mm256_shuffle_epi8(table, _mm256_and_si256(x, low));
  const __m256i b = _mm256_shuffle_epi8(table, _mm256_and_si256(_mm256_srli_epi16(x, 4), low));
  return _mm256_add_epi8(a, b);
}

__attribute__((target("avx2"))) inline __m256i load(const std::uint64_t* words) {
  return _mm256_loadu_si256(reinterpret_cast<const __m256i*>(words));
}

__attribute__((target("avx2"))) inline int horizontal_sum(__m256i x) {
  alignas(32) std::uint64_t lanes[4];
  _mm256_store_si256(reinterpret_cast<__m256i*>(lanes), x);
  return static_cast<int>(lanes[0] + lanes[1] + lanes[2] + lanes[3]);
}

__attribute__((target("avx2"))) CodeDistance code_distance_avx2(const PatternCode& a, const PatternCode& b) {
  // A byte counts at most 8 a step and there are 8 steps: no overflow before the sums are widened.
  __m256i differing = _mm256_setzero_si256(), known = _mm256_setzero_si256();
  for (int i = 0; i < PatternCode::kWords; i += 4) {
    const __m256i both = _mm256_and_si256(load(a.known.data() + i), load(b.known.data() + i));
    const __m256i odd =
        _mm256_and_si256(_mm256_xor_si256(load(a.bits.data() + i), load(b.bits.data() + i)), both);
    known = _mm256_add_epi8(known, bit_sums(both));
    differing = _mm256_add_epi8(differing, bit_sums(odd));
  }
  const __m256i zero = _mm256_setzero_si256();
  return {horizontal_sum(_mm256_sad_epu8(differing, zero)), horizontal_sum(_mm256_sad_epu8(known, zero))};
}
#endif

}  // namespace

CodeDistance code_distance_portable(const PatternCode& a, const PatternCode& b) {
  CodeDistance out;
  for (int i = 0; i < PatternCode::kWords; ++i) {
    const std::uint64_t both = a.known[i] & b.known[i];
    out.known += std::popcount(both);
    out.differing += std::popcount((a.bits[i] ^ b.bits[i]) & both);
  }
  return out;
}

CodeDistance code_distance(const PatternCode& a, const PatternCode& b) {
#if defined(__x86_64__)
  static const bool has_avx2 = __builtin_cpu_supports("avx2");
  if (has_avx2) return code_distance_avx2(a, b);
#endif
  return code_distance_portable(a, b);
}

double normalised(const CodeDistance& distance) {
  constexpr double kTypicalKnown = 900;  // about what two well seen bellies share
  if (distance.known == 0) return 0.5;
  const double raw = static_cast<double>(distance.differing) / distance.known;
  return 0.5 - (0.5 - raw) * std::sqrt(distance.known / kTypicalKnown);
}

}  // namespace evet
