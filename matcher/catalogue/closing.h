// A capture closed without an identity: what its photos show can belong to nobody. Ledger kind "closing".
//
// Without it the only way to be rid of such a capture would be to call it new, and the catalogue would hold an
// animal that never was. A closed capture waits for nobody and keeps no night open. It joins nothing: whoever
// says later who it is, says more than that nobody can tell, and the closing counts no longer.
#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "matcher/base/ids.h"
#include "matcher/catalogue/objection.h"

namespace evet {

enum class ClosedAs {
  no_animal,         // nothing was in hand: a test shot, an empty tray
  not_identifiable,  // an animal was caught, and nobody will ever tell which
  same_capture,      // the same animal in hand as the capture `other` of the same night
};
const char* name(ClosedAs as);
std::optional<ClosedAs> closed_as_named(const std::string& text);
// "no animal in it", "not identifiable", "the same as another capture".
const char* words(ClosedAs as);

struct Closing {
  static constexpr const char* kKind = "closing";
  CaptureId capture;
  ClosedAs as = ClosedAs::not_identifiable;
  CaptureId other{};  // for same_capture alone
  std::string reason{};
  std::vector<Objection> in_spite_of{};  // what spoke against it, and was overruled
};

void to_json(nlohmann::json& json, const Closing& closing);
void from_json(const nlohmann::json& json, Closing& closing);

}  // namespace evet
