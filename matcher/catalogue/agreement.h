// Do readers agree, and how often is each of them wrong?
//
// A case is a pair of captures that someone judged. A reader's answer to it is the first they gave: what they
// said later they may have said after a talk. "New" about a capture, or "same" with another individual,
// answers "different" to every pair of that capture that someone else judged. Only independent answers count:
// the first given to a case, and after that those of readers who were blind to it. Withdrawn verdicts (slips)
// do not count; verdicts that an adjudication settled do, or settling would hide that readers disagreed.
//
// Planted cases measure errors: the identity is known and the reader is not told so. Truth is what the
// other verdicts say (fold.h); cases under dispute are left out. Plant cases whose identity does not
// rest on the same reader, or the figure tells consistency and not truth. Terms: ISO/IEC 2382-37 (false
// match, false non-match).
#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "matcher/catalogue/fold.h"
#include "matcher/catalogue/kappa.h"

namespace evet {

enum class CaseAnswer { same, different, cannot_tell };
inline constexpr size_t kCaseAnswers = 3;

struct JudgedCase {
  CaptureId a, b;
  std::vector<std::pair<std::string, CaseAnswer>> answers;  // by reader
  bool agreed() const;
};

struct ReaderPair {
  std::string first, second;
  std::vector<std::vector<int>> table;  // [first's answer][second's answer], in the order of CaseAnswer
  int cases = 0;
  std::optional<Kappa> kappa;
};

struct ReaderErrors {
  std::string reader;
  ErrorRate false_match;      // said "same" of two animals
  ErrorRate false_non_match;  // said "different" or "new" where it was the same animal
  int cannot_tell = 0;        // of the planted cases; counted in neither rate
  int unknown_truth = 0;      // planted cases whose truth is not known (any more)
};

struct Agreement {
  std::vector<JudgedCase> cases;        // with two answers at least, by captures
  std::vector<ReaderPair> pairs;        // of readers who share a case
  std::optional<ManyReadersKappa> all;  // over all cases and readers
  std::vector<ReaderErrors> errors;     // of readers who were given planted cases
  int not_independent = 0;              // answers left out: given in sight of an earlier one
};

// `identities` must be the fold of `statements`.
Agreement agreement(const Statements& statements, const Identities& identities, double level = 0.95);

}  // namespace evet
