// A reader's judgement of a photo alone, recorded before any candidate is shown (linear sequential unmasking:
// Dror & Kukucka 2021, Forensic Science International: Synergy 3:100161). Ledger kind "reading".
#pragma once
#include <nlohmann/json.hpp>
#include <string>

#include "matcher/base/ids.h"

namespace evet {

struct Reading {
  static constexpr const char* kKind = "reading";
  CaptureId capture;
  PhotoId photo{};  // may be empty: all photos of the capture together
  bool usable = false;
  std::string reason{};
  bool blind = false;
};

void to_json(nlohmann::json& json, const Reading& reading);
void from_json(const nlohmann::json& json, Reading& reading);

}  // namespace evet
