#include "tools/words/night_fields.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

constexpr std::array kFields = {
    NightField{"method", "Method of capture", "bottle traps set at dusk, torch and net"},
    NightField{"effort", "Effort", "how much, as a number: 12", true},
    NightField{"effort_unit", "Effort in", "trap nights, hours of torching"},
    NightField{"weather", "Weather", "overcast, calm, dry"},
    NightField{"air_c", "Air, °C", "8.5", true},
    NightField{"water_c", "Water, °C", "11", true},
    NightField{"observers", "Observers", "codes, where no capture names them"},
    NightField{"licence", "Licence number", "where no capture names it"},
    NightField{"holder", "Licence holder", "who holds the licence"},
    NightField{"place", "Place that may be published", "a parish, a map square of 10 km"},
    NightField{"latitude", "Latitude", "degrees north: 52.125", true},
    NightField{"longitude", "Longitude", "degrees east: -1.5", true},
    NightField{"notes", "Notes", "anything the authority should know"},
};

double number_in(const NightField& field, const std::string& text) {
  std::string plain = text;
  if (plain.find('.') == std::string::npos) std::replace(plain.begin(), plain.end(), ',', '.');
  double value = 0;
  const auto [end, error] = std::from_chars(plain.data(), plain.data() + plain.size(), value);
  if (error != std::errc{} || end != plain.data() + plain.size())
    throw Error(
        ErrorKind::bad_input, field.key,
        Message(messages::kIsNotNumberOfField, {{"text", evet::quoted(text)}}),
        Message(messages::kWriteAsIn, {{"example", evet::quoted(field.number ? "12.5" : field.hint)}}));
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
    const auto* field =
        std::find_if(kFields.begin(), kFields.end(), [&](const NightField& one) { return key == one.key; });
    if (field == kFields.end())
      throw Error(ErrorKind::bad_input, evet::quoted(key), messages::kNoFieldOfNight);
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
