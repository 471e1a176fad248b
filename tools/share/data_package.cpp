#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <sstream>

#include "matcher/base/csv.h"
#include "matcher/base/version.h"
#include "models/histories_csv.h"
#include "tools/share/messages.h"
#include "tools/share/share_files.h"
#include "tools/words/in_words.h"

namespace evet {
namespace {

using Json = nlohmann::json;

struct Column {
  const char* name;
  const char* type;  // of a Frictionless table schema
  MessageText description;
  bool required = false;
};

const std::vector<Column> kNights = {{"event", "string", messages::kColumnEvent, true},
                                     {"place", "string", messages::kColumnPlace, true},
                                     {"night", "date", messages::kColumnNight, true},
                                     {"captures", "integer", messages::kColumnCaptures, true},
                                     {"not_settled", "integer", messages::kColumnNotSettled, true},
                                     {"method", "string", messages::kColumnMethod},
                                     {"effort", "number", messages::kColumnEffort},
                                     {"effort_unit", "string", messages::kColumnEffortUnit},
                                     {"weather", "string", messages::kColumnWeather},
                                     {"air_c", "number", messages::kColumnAirC},
                                     {"water_c", "number", messages::kColumnAirC},
                                     {"latitude", "number", messages::kColumnLatitude},
                                     {"longitude", "number", messages::kColumnLongitude},
                                     {"uncertainty_m", "number", messages::kColumnUncertaintyM}};
const std::vector<Column> kCaptures = {{"capture", "string", messages::kColumnCapture, true},
                                       {"event", "string", messages::kColumnEvent, true},
                                       {"place", "string", messages::kColumnPlace, true},
                                       {"night", "date", messages::kColumnNight, true},
                                       {"individual", "string", messages::kColumnIndividual},
                                       {"sex", "string", messages::kColumnSex},
                                       {"stage", "string", messages::kColumnStage},
                                       {"svl_mm", "number", messages::kColumnSvlMm},
                                       {"total_mm", "number", messages::kColumnTotalMm},
                                       {"mass_g", "number", messages::kColumnMassG},
                                       {"released", "boolean", messages::kColumnReleased, true}};

Json schema(const std::vector<Column>& columns, const char* key) {
  Json fields = Json::array();
  for (const Column& column : columns) {
    Json field = {
        {"name", column.name}, {"type", column.type}, {"description", in_words(column.description)}};
    if (column.required) field["constraints"] = {{"required", true}};
    fields.push_back(std::move(field));
  }
  return {{"fields", fields}, {"primaryKey", key}, {"missingValues", {""}}};
}

Json resource(const char* name, Json table) {
  return {{"name", name},
          {"path", std::string(name) + ".csv"},
          {"profile", "tabular-data-resource"},
          {"format", "csv"},
          {"mediatype", "text/csv"},
          {"encoding", "utf-8"},
          {"schema", std::move(table)}};
}

std::string head(const std::vector<Column>& columns) {
  std::vector<std::string> names;
  for (const Column& column : columns) names.emplace_back(column.name);
  return csv_line(names);
}

std::string nights_csv(const SharedRecords& records) {
  std::string out = head(kNights);
  for (const SharedNight& night : records.nights) {
    std::optional<double> latitude, longitude, uncertainty;
    if (night.position)
      latitude = night.position->latitude, longitude = night.position->longitude,
      uncertainty = night.position->uncertainty_m;
    const NightFacts& facts = night.facts;
    out += csv_line({night.event, night.place, night.night, std::to_string(night.captures),
                     std::to_string(night.open), facts.method, number_text(facts.effort), facts.effort_unit,
                     facts.weather, number_text(facts.air_c), number_text(facts.water_c),
                     number_text(latitude), number_text(longitude), number_text(uncertainty)});
  }
  return out;
}

std::string captures_csv(const SharedRecords& records) {
  std::string out = head(kCaptures);
  for (const SharedCapture& one : records.captures)
    out += csv_line({one.id.value, one.event, one.place, one.night,
                     one.individual ? one.individual->value : "", one.sex, one.stage, number_text(one.svl_mm),
                     number_text(one.total_mm), number_text(one.mass_g), one.lost ? "false" : "true"});
  return out;
}

}  // namespace

std::string csv_line(const std::vector<std::string>& fields) {
  std::string line;
  for (std::size_t i = 0; i < fields.size(); ++i) line += (i == 0 ? "" : ",") + csv_field(fields[i]);
  return line + "\r\n";
}

std::string number_text(const std::optional<double>& value) {
  return value ? fmt::format("{}", *value) : "";
}

SharedFiles data_package(const SharedRecords& records) {
  SharedFiles files;
  files["nights.csv"] = nights_csv(records);
  files["captures.csv"] = captures_csv(records);
  Json captures = schema(kCaptures, "capture");
  captures["foreignKeys"] = {
      {{"fields", "event"}, {"reference", {{"resource", "nights"}, {"fields", "event"}}}}};
  Json resources = {resource("nights", schema(kNights, "event")), resource("captures", std::move(captures))};
  if (records.histories.animal_count() > 0) {
    std::ostringstream csv;
    models::write_histories_csv(records.histories, csv);
    files["histories.csv"] = csv.str();
    resources.push_back({{"name", "histories"},
                         {"path", "histories.csv"},
                         {"format", "csv"},
                         {"mediatype", "text/csv"},
                         {"encoding", "utf-8"},
                         {"description", in_words(messages::kSharedHistories)}});
  }
  const Json package = {
      {"profile", "data-package"},
      {"name", "newt-captures"},
      {"title", records.title.empty() ? in_words(messages::kSharedTitle) : records.title},
      {"description", in_words(records.exact ? messages::kSharedWhatExact : messages::kSharedWhat,
                               {{"species", records.species}})},
      {"created", records.made_at},
      {"version", records.ledger_head},
      {"contributors", {{{"title", kProgram}, {"role", "wrangler"}}}},
      {"resources", resources}};
  files["datapackage.json"] = package.dump(2) + "\n";
  return files;
}

}  // namespace evet
