// One animal in hand, once: the facts that the night sheet gives of it. Ledger kinds
// "capture" and "correction".
#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "matcher/base/ids.h"
#include "matcher/base/sex.h"

namespace evet {

struct CaptureFacts {
  std::string site, pond;  // pond may be empty
  std::string night;       // date on which the night began, "2031-05-14"
  std::string trap, name;  // name: the sheet's `capture` column, or the photo's name
  Sex sex = Sex::unknown;
  std::string stage;  // "adult", "subadult", "juvenile", "metamorph" or empty
  std::optional<double> svl_mm, total_mm, mass_g;
  std::string observer, licence;
  std::optional<double> latitude, longitude;  // WGS 84, degrees
  std::string individual;  // identity already known by other means (a tag, an earlier catalogue)
  std::string notes;
  bool lost = false;  // not released after this capture
  friend bool operator==(const CaptureFacts&, const CaptureFacts&) = default;
};

struct Capture {
  static constexpr const char* kKind = "capture";
  CaptureId id;
  CaptureFacts facts;
};

// Later knowledge about a capture. `changes` is a JSON merge patch (RFC 7396) on the facts: null takes a
// field away.
struct Correction {
  static constexpr const char* kKind = "correction";
  CaptureId capture;
  nlohmann::json changes;
  std::string reason;
};

// What turns `before` into `after`; its changes are empty when nothing differs.
Correction correction_between(const CaptureId& capture, const CaptureFacts& before, const CaptureFacts& after,
                              const std::string& reason);
CaptureFacts corrected(const CaptureFacts& facts, const Correction& correction);

void to_json(nlohmann::json& json, const CaptureFacts& facts);
void from_json(const nlohmann::json& json, CaptureFacts& facts);
void to_json(nlohmann::json& json, const Capture& capture);
void from_json(const nlohmann::json& json, Capture& capture);
void to_json(nlohmann::json& json, const Correction& correction);
void from_json(const nlohmann::json& json, Correction& correction);

}  // namespace evet
