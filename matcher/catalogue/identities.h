// Who is who: captures, the individuals that they make up, and what stands in the way. Made by fold().
#pragma once
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "matcher/catalogue/statements.h"

namespace evet {

struct PhotoState {
  PhotoId photo;
  std::string name;     // as on the sheet
  bool usable = false;  // by the newest examination
};

// What a twin says of where and when, or of who it is, that its capture does not.
struct SaidOtherwise {
  CaptureId twin;
  std::string site, pond, night, individual;
  friend bool operator==(const SaidOtherwise&, const SaidOtherwise&) = default;
};

// A capture that belongs to nobody, by a person's word that stands.
struct ClosedState {
  ClosedAs as = ClosedAs::not_identifiable;
  CaptureId other;  // for same_capture
  EntryId entry;
  std::string by, on;  // who said so, and the date
  friend bool operator==(const ClosedState&, const ClosedState&) = default;
};

struct CaptureState {
  CaptureId id;
  CaptureFacts facts;                      // corrections applied
  std::vector<PhotoState> photos;          // by name
  std::optional<IndividualId> individual;  // absent: unsettled, or closed
  std::optional<ClosedState> closed;       // only where it belongs to no individual
  bool disputed = false;
  bool by_program = false;       // it is where it is because the program accepted it; no person has looked
  std::vector<CaptureId> twins;  // the same capture taken in elsewhere: they share a picture
  std::vector<SaidOtherwise> said_otherwise;  // by twins: a question for a person
  bool usable() const;                        // at least one photo is
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
  bool in_force(const EntryId& id) const;
  // Sorted: the statements' own, and captures that another entry had taken in already.
  std::vector<SetAside> set_aside;

  // Null when there is none. A twin's id finds the capture it is a twin of.
  const CaptureState* capture(const CaptureId& id) const;
  const Individual* individual(const IndividualId& id) const;
  // By id, name, label or alias. Errors: not_found, conflict when several bear that name.
  const Individual& individual_named(const std::string& text) const;
  size_t unsettled() const;  // neither settled nor closed

  std::unordered_map<CaptureId, size_t> capture_at;
  std::unordered_map<IndividualId, size_t> individual_at;
};

}  // namespace evet
