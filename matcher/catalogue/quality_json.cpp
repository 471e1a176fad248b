#include "matcher/catalogue/quality_json.h"

#include <array>

#include "matcher/catalogue/fields.h"

namespace evet {
namespace {

struct Field {
  const char* name;
  double Quality::*value;
  bool to_scale;  // means something only where the belly has a length in millimetres
};
constexpr std::array<Field, 10> kFields{{{"sharpness", &Quality::sharpness, false},
                                         {"glare_share", &Quality::glare_share, false},
                                         {"dark_share", &Quality::dark_share, false},
                                         {"seen_share", &Quality::seen_share, false},
                                         {"belly_length_px", &Quality::belly_length_px, false},
                                         {"belly_length_mm", &Quality::belly_length_mm, true},
                                         {"belly_length_error_mm", &Quality::belly_length_error_mm, true},
                                         {"bend_deg", &Quality::bend_deg, false},
                                         {"roll", &Quality::roll, false},
                                         {"p_belly", &Quality::p_belly, false}}};

}  // namespace

nlohmann::json json_of(const Quality& quality) {
  nlohmann::json json;
  for (const Field& field : kFields)
    if (!field.to_scale || quality.belly_length_mm > 0) json[field.name] = quality.*field.value;
  return json;
}

Quality quality_of(const nlohmann::json& json) {
  const Fields measures(json, "examination");
  Quality quality;
  for (const Field& field : kFields) quality.*field.value = measures.number_if_any(field.name).value_or(0);
  return quality;
}

}  // namespace evet
