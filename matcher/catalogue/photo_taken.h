// A photo of a capture and what examining it found. Ledger kinds "photo" and "examination".
#pragma once
#include <nlohmann/json.hpp>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "matcher/base/ids.h"
#include "matcher/belly/quality.h"
#include "matcher/catalogue/objection.h"
#include "matcher/photo/photo.h"

namespace evet {

struct Examination {
  bool usable = false;  // false: a failure to acquire; `notes` say why
  Quality quality;
  std::vector<QualityNote> notes;
  std::string maker;  // the version of the code that examined
  std::vector<cv::Point2d>
      midline;  // a user's own points, throat first, pixels of the upright picture; mostly empty
};

struct PhotoTaken {
  static constexpr const char* kKind = "photo";
  PhotoId photo;
  CaptureId capture;
  std::string name{};  // as on the sheet
  std::int64_t bytes = 0;
  PhotoHeader header{};
  Examination examination{};
};

// A photo examined again: by newer code, or along a midline that a person drew. The newest one counts.
struct Reexamined {
  static constexpr const char* kKind = "examination";
  PhotoId photo;
  Examination examination;
  std::vector<Objection> in_spite_of{};  // what spoke against a drawn midline, and was overruled
};

void to_json(nlohmann::json& json, const PhotoTaken& photo);
void from_json(const nlohmann::json& json, PhotoTaken& photo);
void to_json(nlohmann::json& json, const Reexamined& reexamined);
void from_json(const nlohmann::json& json, Reexamined& reexamined);

}  // namespace evet
