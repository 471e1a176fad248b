// Rows of a night sheet gathered into captures: the photos of one animal in hand.
#pragma once
#include "tools/intake/sheet.h"

namespace evet {

// Fills `captures`. Rows of a capture that contradict each other are taken out, all of them, and become
// problems: which of them is right is not ours to say, and half a capture would be half a truth.
void gather_captures(Sheet& sheet);

// Takes out what says that nothing was caught where a photo's row says that something was.
void refuse_contradicted(Sheet& sheet);

}  // namespace evet
