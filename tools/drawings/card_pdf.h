// The scale card as a PDF of one A4 page, to be printed.
#pragma once
#include <string>

namespace evet {

// The whole file. Lengths on paper are those of matcher/belly/scale_card.h when it is printed at 100 %.
// Format: ISO 32000-1 (PDF 1.6, one page, the built-in Helvetica).
std::string scale_card_pdf();

// Where the card's top left corner lies on the page, millimetres from the page's top left.
inline constexpr double kCardLeftOnPageMm = 62, kCardTopOnPageMm = 30;

}  // namespace evet
