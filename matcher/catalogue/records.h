// The small bodies of the ledger: how a catalogue began, a sheet taken in, a label, an
// undo, a merge, a refit.
#pragma once
#include <cstdint>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "matcher/base/ids.h"
#include "matcher/catalogue/objection.h"

namespace evet {

// The first entry of every catalogue.
struct CatalogueMade {
  static constexpr const char* kKind = "catalogue_made";
  std::string title;
  std::string program;  // name and version of what made it
};

// A night sheet taken in.
struct NightIntake {
  static constexpr const char* kKind = "night";
  // A place and a night that were worked, whether or not anything was caught.
  struct Visit {
    std::string site, pond;  // pond may be empty
    std::string night;
    friend auto operator<=>(const Visit&, const Visit&) = default;
  };
  std::string sheet{};  // its file name
  std::string sheet_sha256{};
  std::vector<std::string> nights{};
  std::int64_t rows = 0, captures = 0, photos = 0;
  std::vector<std::string> refused{};         // why, one sentence a row that was left out with --keep-going
  std::vector<std::int64_t> refused_lines{};  // where each stands on the sheet; empty: said in the sentence
  std::vector<Visit> visits{};                // empty: not said, `nights` is all that is known
  std::vector<Objection> in_spite_of{};
};

// A name for the individual of which this capture is one. The newest label of a capture counts.
struct LabelGiven {
  static constexpr const char* kKind = "label";
  CaptureId capture;
  std::string label;
};

// Takes an entry out of force: undo. Withdrawing a withdrawal puts it back: redo.
struct Withdrawal {
  static constexpr const char* kKind = "withdrawal";
  EntryId target;
  std::string reason{};
};

// What this device knew of the others from here on: after a merge, or when a copied folder is written to.
struct Merge {
  static constexpr const char* kKind = "merge";
  struct Head {
    std::int64_t seq = 0;
    std::string hash;
    friend auto operator<=>(const Head&, const Head&) = default;
  };
  std::map<DeviceId, Head> heads{};
  // Ends of chains beside those: a backup that was put back and written to forks its device's chain.
  std::vector<std::pair<DeviceId, Head>> also{};
  std::int64_t entries = 0, photos = 0;  // that came in
  std::string reason{};                  // "merged" or "copied"
  std::vector<Objection> in_spite_of{};
  // Photos of which this folder never had the file: those who had taken them in came without it.
  std::vector<PhotoId> without_file{};
};

// How scores become advice in this catalogue: calibration.h reads `parameters`.
//   {"llr_map": {"scale", "shift", "model"}, "individuals", "cllr_before", "cllr_after"}: the score's
//     calibration refitted to the user's own ponds
//   {"costs": {"wrong_join", "look"}}: the costs of the errors, in missed joins
struct Calibration {
  static constexpr const char* kKind = "calibration";
  std::string maker;
  nlohmann::json parameters;
  std::int64_t same_pairs = 0, different_pairs = 0;
};

void to_json(nlohmann::json& json, const CatalogueMade& made);
void from_json(const nlohmann::json& json, CatalogueMade& made);
void to_json(nlohmann::json& json, const NightIntake& intake);
void from_json(const nlohmann::json& json, NightIntake& intake);
void to_json(nlohmann::json& json, const LabelGiven& label);
void from_json(const nlohmann::json& json, LabelGiven& label);
void to_json(nlohmann::json& json, const Withdrawal& withdrawal);
void from_json(const nlohmann::json& json, Withdrawal& withdrawal);
void to_json(nlohmann::json& json, const Merge& merge);
void from_json(const nlohmann::json& json, Merge& merge);
void to_json(nlohmann::json& json, const Calibration& calibration);
void from_json(const nlohmann::json& json, Calibration& calibration);

}  // namespace evet
