#include "tools/words/night_fields.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

constexpr std::array kFields = {
    NightField{"method", messages::kFieldMethod, messages::kFieldMethodHint},
    NightField{"effort", messages::kFieldEffort, messages::kFieldEffortHint, true},
    NightField{"effort_unit", messages::kFieldEffortUnit, messages::kFieldEffortUnitHint},
    NightField{"weather", messages::kFieldWeather, messages::kFieldWeatherHint},
    NightField{"air_c", messages::kFieldAir, messages::kFieldAirHint, true},
    NightField{"water_c", messages::kFieldWater, messages::kFieldWaterHint, true},
    NightField{"observers", messages::kFieldObservers, messages::kFieldObserversHint},
    NightField{"licence", messages::kFieldLicence, messages::kFieldLicenceHint},
    NightField{"holder", messages::kFieldHolder, messages::kFieldHolderHint},
    NightField{"place", messages::kFieldPlace, messages::kFieldPlaceHint},
    NightField{"latitude", messages::kFieldLatitude, messages::kFieldLatitudeHint, true},
    NightField{"longitude", messages::kFieldLongitude, messages::kFieldLongitudeHint, true},
    NightField{"notes", messages::kFieldNotes, messages::kFieldNotesHint},
};

double number_in(const NightField& field, const std::string& text) {
  std::string plain = text;
  if (plain.find('.') == std::string::npos) std::replace(plain.begin(), plain.end(), ',', '.');
  double value = 0;
  const auto [end, error] = std::from_chars(plain.data(), plain.data() + plain.size(), value);
  if (error != std::errc{} || end != plain.data() + plain.size())
    throw Error(ErrorKind::bad_input, field.key,
                Message(messages::kIsNotNumberOfField, {{"text", in_quotes(text)}}),
                Message(messages::kWriteAsIn,
                        {{"example", in_quotes(field.number ? "12.5" : in_words(field.hint))}}));
  return value;
}

}  // namespace

std::span<const NightField> night_fields() {
  return kFields;
}

std::string field_text(const NightFacts& facts, const NightField& field) {
  const nlohmann::json json = facts;
  const auto at = json.find(field.key);
  if (at == json.end()) return {};
  return at->is_number() ? fmt::format("{}", at->get<double>()) : at->get<std::string>();
}

NightFactsSaid night_facts_said(const NightIntake::Visit& visit, const NightFacts& known,
                                const std::map<std::string, std::string>& texts, const std::string& reason) {
  nlohmann::json facts = known;
  for (const auto& [key, text] : texts) {
    const auto* field = std::find_if(kFields.begin(), kFields.end(),
                                     [&key = key](const NightField& one) { return key == one.key; });
    if (field == kFields.end()) throw Error(ErrorKind::bad_input, in_quotes(key), messages::kNoFieldOfNight);
    if (text.empty())
      facts.erase(key);
    else if (field->number)
      facts[key] = number_in(*field, text);
    else
      facts[key] = text;
  }
  const auto after = facts.get<NightFacts>();
  if (after.latitude.has_value() != after.longitude.has_value())
    throw Error(ErrorKind::bad_input, after.latitude ? "longitude" : "latitude", messages::kOtherHalfMissing,
                messages::kGiveBothOrNeither);
  return facts_between(visit, known, after, reason);
}

}  // namespace evet
