// What was done at one place on one night, beside the captures: how and for how long animals were looked for, in
// what weather, under whose licence. Ledger kind "night_facts".
//
// Each entry is a JSON merge patch (RFC 7396) on the facts of its place and night: null takes a field away. Those in
// force apply in order of id, so that of each field the latest counts, whichever device wrote it and whatever order
// the entries arrived in. Nothing here touches who is who.
#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "matcher/catalogue/records.h"

namespace evet {

struct NightFacts {
  std::string method;                    // of capture: "bottle traps set at dusk"
  std::optional<double> effort;          // how much of it, above 0
  std::string effort_unit;               // "trap nights", "hours of torching"
  std::string weather;                   // in words
  std::optional<double> air_c, water_c;  // degrees Celsius, -60 to 60
  std::string licence, holder;           // its number and who holds it
  std::string observers;                 // codes
  std::string place;                     // in words that may be published: "within 10 km of the Vale of Ash"
  std::optional<double> latitude, longitude;  // of the place, WGS 84, degrees
  std::string notes;
  friend bool operator==(const NightFacts&, const NightFacts&) = default;
};

struct NightFactsSaid {
  static constexpr const char* kKind = "night_facts";
  NightIntake::Visit visit;
  nlohmann::json changes;
  std::string reason{};
};

NightFacts changed(const NightFacts& facts, const NightFactsSaid& said);
// What turns `before` into `after`; its changes are empty when nothing differs.
NightFactsSaid facts_between(const NightIntake::Visit& visit, const NightFacts& before,
                             const NightFacts& after, const std::string& reason);

void to_json(nlohmann::json& json, const NightFacts& facts);
// Errors: bad_input that names the field, for a text that is too long or a number out of range.
void from_json(const nlohmann::json& json, NightFacts& facts);
void to_json(nlohmann::json& json, const NightFactsSaid& said);
void from_json(const nlohmann::json& json, NightFactsSaid& said);

}  // namespace evet
