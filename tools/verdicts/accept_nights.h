// Taking the program's advice, night after night, until nothing more follows from it.
//
// What one night teaches, the others are ranked with again: an animal that is new on a later night may be the
// one that an earlier night left open. The next night is always the one after that of the program's newest
// verdict in the ledger, round and round, and the work is done when a whole round adds nothing. So what
// happens next follows from the ledger alone: a run that is stopped between two nights and begun again ends
// as one that was not, and running it twice is running it once.
#pragma once
#include <vector>

#include "tools/verdicts/rank_night.h"

namespace evet {

struct Accepted {  // how many of each
  size_t same = 0, fresh = 0;
};
struct AcceptedNights {
  std::vector<RankedLine> lines;  // of each capture as it was last ranked, those accepted included, in order
  Accepted accepted;
};

// Of the night that the request names, or of all. Errors: those of rank_unsettled() and append().
AcceptedNights accept_nights(Catalogue& catalogue, RankRequest request);

// The same with nothing recorded: each night is ranked as if the ledger held the verdicts of those before it, round
// after round, until nothing more follows. Of two captures that may be one new animal of the night it still says just
// that, and not which of them was taken for it first.
AcceptedNights preview_nights(Catalogue& catalogue, RankRequest request);

}  // namespace evet
