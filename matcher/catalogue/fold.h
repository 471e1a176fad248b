// From what was said to who is who: a pure function of the ledger's entries, whatever order they arrived in.
//
// Rules, in short (FORMAT.md has them in full):
// 1. A withdrawn entry is out of force; so is a verdict settled by an adjudication in force. A reader has one
//    opinion a pair, the newest, and is not held to "new" after saying "same" of that capture, or the other
//    way.
// 2. Captures are joined by the "same" verdicts of people and by a known `individual` on the sheet.
// 3. "different", two known identities, and "new" (against every capture that had been placed, as far as that
//    device knew) forbid a join. Every "same" on a chain between two captures that must not be joined is
//    contested: it joins nothing, and a dispute lists it. Nothing wins silently.
// 4. What the program accepted joins only where no person spoke and nothing above is broken.
// 5. An individual is a group of captures of which one is declared new or known by other means, or that has
// two
//    captures. Every other capture is unsettled, and counted as such.
#pragma once
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "matcher/catalogue/in_force.h"
#include "matcher/catalogue/knowledge.h"
#include "matcher/catalogue/statements.h"

namespace evet {

struct PhotoState {
  PhotoId photo;
  std::string name;     // as on the sheet
  bool usable = false;  // by the newest examination
};

struct CaptureState {
  CaptureId id;
  CaptureFacts facts;                      // corrections applied
  std::vector<PhotoState> photos;          // by name
  std::optional<IndividualId> individual;  // absent: unsettled
  bool disputed = false;
  bool by_program = false;  // it is where it is because the program accepted it; no person has looked
  std::vector<CaptureId>
      twins;            // the same capture taken in on another device: same photo, night, place and name
  bool usable() const;  // at least one photo is
};

struct Individual {
  IndividualId id;                   // the id of its oldest capture (by night, then by id)
  std::string label;                 // given by people; empty when none was
  std::string name;                  // label, or a short name made from the id; what to show
  std::vector<std::string> aliases;  // younger labels of captures that were joined, oldest first
  std::vector<CaptureId> captures;   // oldest first
  Sex sex = Sex::unknown;            // what most captures say; unknown when they balance
  bool placed = false;  // compared with the catalogue (declared new) or known by other means, not only joined
  bool disputed = false;
};

struct Dispute {
  CaptureId a, b;                  // must not be one animal, and yet a chain of verdicts joins them
  std::vector<EntryId> against;    // verdicts that forbid it; empty: two identities known by other means
  std::vector<EntryId> contested;  // "same" verdicts on the chains between them
};

// A program's verdict that counts for nothing because people have said otherwise.
struct Overridden {
  EntryId verdict;
  CaptureId capture;
};

struct Identities {
  std::vector<CaptureState> captures;   // by night, then id
  std::vector<Individual> individuals;  // by oldest capture
  std::vector<Dispute> disputes;        // by captures
  std::vector<Overridden> overridden;   // by verdict
  std::vector<EntryId> out_of_force;    // withdrawn or settled, sorted

  // Null when there is none. A twin's id finds the capture it is a twin of.
  const CaptureState* capture(const CaptureId& id) const;
  const Individual* individual(const IndividualId& id) const;
  // By id, name, label or alias. Errors: not_found, conflict when several bear that name.
  const Individual& individual_named(const std::string& text) const;
  size_t unsettled() const;

  std::unordered_map<CaptureId, size_t> capture_at;
  std::unordered_map<IndividualId, size_t> individual_at;
};

Identities fold(const Statements& statements);

// The same of a part of the ledger that holds together (see kept_fold.h), where what is in force and who knew
// what are known of the whole. Leaves `out_of_force` empty.
Identities fold(const Statements& statements, const Force& force, const Knowledge& knowledge);
// Brings disputes and overridden verdicts into their order.
void sort_findings(Identities& who);

}  // namespace evet
