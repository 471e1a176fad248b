// What people have said of captures that are to be ranked, as far as it binds the program.
//
// A reviewer's word stands before a probability: an individual of which any capture is said to be different
// is no candidate, and what people could not tell, or tell differently, is not told by the program. So
// whatever the program accepts stands in the fold (FORMAT.md, rule 7).
//
// These are the opinions that the fold counts (opinions.h). A verdict that was withdrawn, settled by an
// adjudication or revised by its own reader binds nobody.
#pragma once
#include <map>
#include <set>
#include <string>
#include <vector>

#include "matcher/catalogue/fold.h"
#include "matcher/search/rank.h"

namespace evet {

// Of a pair: the capture in question and another.
struct SaidOfPair {
  CaptureId other;
  IndividualId individual;  // to which the other belongs now; empty: it is unsettled itself
  bool is_subject = true;   // it was said of the capture; false: of the other
  std::string by, on;       // the reader, and the date
};

struct PeopleSaid {
  std::vector<SaidOfPair> different, cannot_tell;  // oldest first
  bool disputed = false;                           // readers contradict each other about it
  // Of `different`: others of the ranking that look like the same individual. Filled in by bind_to().
  std::vector<SaidOfPair> rivals;

  bool has_ruled_out(const CaptureId& other) const;
  std::set<IndividualId> ruled_out() const;
  // Why the program must leave it to people although it is sure.
  bool leaves_open(const IndividualId& joined_to) const;  // empty: new
};

// Of those captures, an answer for each; twins' ids are not to be among them.
std::map<CaptureId, PeopleSaid> people_said(const Statements& statements, const Identities& who,
                                            const std::set<CaptureId>& of);

// Makes "look" of all advice that the fold would not let stand: what people left open, an individual that
// has been ruled out since the ranking, and two captures said to be different that would be joined through
// one individual.
void bind_to(std::map<CaptureId, PeopleSaid>& said, std::vector<RankedCapture>& ranked);

}  // namespace evet
