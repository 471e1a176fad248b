// Which pairs a reader should read without knowing what anyone, the program included, thinks of them.
//
// Three sources, mixed so that neither order nor number says which a pair came from: disputes, a share of the
// settled pairs, and pairs whose answer is known by other means (both captures bear a known identity on the
// sheet): these measure the reader. Never a pair that the reader has judged before.
#pragma once
#include <vector>

#include "tools/review/desk.h"

namespace evet::review {

struct PairToRead {
  CaptureId capture, other;
};

// In the reader's own fixed order.
std::vector<PairToRead> pairs_to_read(Catalogue& catalogue, const std::string& reader, double share);

// Whether the sheet itself says who both captures are: a verdict on them measures its reader.
bool is_planted(Call& call, const CaptureId& capture, const CaptureId& other);

}  // namespace evet::review
