// What stands on the scale card, and under the pictures of the stages.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

// card_pdf.cpp
inline constexpr auto kCardTitle = MessageText("card_title", "Scale card for photographs");
inline constexpr auto kCardPrintWhole = MessageText("card_print_whole", "Print at 100 %, not fitted to the page.");
inline constexpr auto kCardRightOnlyIf = MessageText("card_right_only_if", "Right only if this ruler measures\n50 mm: check with another ruler.");
inline constexpr auto kCardHowToUse = MessageText("card_how_to_use", "How to use this card\n\n1. Print this page at 100 %. Printers that fit pages to the paper make the card smaller, and every length\n    measured with it too long; no photo can show that. Lay a ruler on the card: from 0 to 50 must be 50 mm.\n    If it is not, print again.\n2. Cut along the frame and laminate it matt, so that it can be wiped and does not shine.\n3. Lay it flat beside the animal, at the height of its belly: on the tray's floor when the photo is taken\n    through the floor. A card that lies lower than the belly makes the animal too long.\n4. All four squares should be in the picture; two are the least. No finger, water or glare over them.\n5. Clean and disinfect it between ponds like all other kit.\n\nThe card is not worth a longer time in hand: without it the photo can be matched all the same.\nPhotography of protected species is for licensed handlers only; licence conditions and local rules come first.");

// inspect_drawings.cpp
inline constexpr auto kDrawnBelly = MessageText("drawn_belly", "Outline (blue) and body coordinates: a line every tenth of the length, the throat green.");
inline constexpr auto kDrawnProbability = MessageText("drawn_probability", "Bright where belly is seen; striped where something lies over it.");
inline constexpr auto kDrawnStrip = MessageText("drawn_strip", "The belly straightened, head up.");
inline constexpr auto kDrawnMask = MessageText("drawn_mask", "White where skin is plainly seen.");
inline constexpr auto kDrawnSpotMap = MessageText("drawn_spot_map", "Black where skin is dark, white where orange, grey where not known.");
inline constexpr auto kDrawnSpots = MessageText("drawn_spots", "The spots listed, each as an ellipse of its area and shape.");
inline constexpr auto kDrawnCode = MessageText("drawn_code", "The pattern code: a panel for each filter, a square for each bit, grey where not known.");

// clang-format on
}  // namespace evet::messages
