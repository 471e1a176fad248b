#include <fmt/format.h>
#include <array>
#include <chrono>
#include <map>

#include "matcher/base/moment.h"
#include "matcher/base/version.h"
#include "tools/share/messages.h"
#include "tools/share/share_files.h"
#include "tools/words/in_words.h"
#include "tools/words/markup.h"
#include "tools/words/messages.h"

namespace evet {
namespace {

// In the order of the columns; all of them Darwin Core terms.
constexpr std::array kTerms = {"occurrenceID",
                               "basisOfRecord",
                               "occurrenceStatus",
                               "individualCount",
                               "scientificName",
                               "organismID",
                               "sex",
                               "lifeStage",
                               "eventID",
                               "eventDate",
                               "verbatimEventDate",
                               "samplingProtocol",
                               "sampleSizeValue",
                               "sampleSizeUnit",
                               "locationID",
                               "decimalLatitude",
                               "decimalLongitude",
                               "geodeticDatum",
                               "coordinateUncertaintyInMeters",
                               "dataGeneralizations",
                               "informationWithheld"};

// The night and the morning after it, as an ISO 8601 interval.
std::string night_and_morning(const std::string& night) {
  const std::chrono::year_month_day next{
      std::chrono::sys_days{std::chrono::days{days_since_epoch(night) + 1}}};
  return fmt::format("{}/{:04}-{:02}-{:02}", night, static_cast<int>(next.year()),
                     static_cast<unsigned>(next.month()), static_cast<unsigned>(next.day()));
}

struct Row {
  std::string id, status, individual, sex, stage;
  const SharedNight* night;
  const std::optional<SharedPosition>* position;
};

std::string line_of(const Row& row, const SharedRecords& records) {
  const SharedNight& night = *row.night;
  const bool absent = row.status == "absent";
  std::vector<std::string> fields = {row.id,
                                     "HumanObservation",
                                     row.status,
                                     absent ? "0" : "1",
                                     records.species,
                                     row.individual,
                                     row.sex,
                                     row.stage,
                                     night.event,
                                     night_and_morning(night.night),
                                     in_words(messages::kSharedNightOf, {{"night", night.night}}),
                                     night.facts.method,
                                     number_text(night.facts.effort),
                                     night.facts.effort ? night.facts.effort_unit : "",
                                     night.place};
  const std::optional<SharedPosition>& at = *row.position;
  fields.push_back(at ? number_text(at->latitude) : "");
  fields.push_back(at ? number_text(at->longitude) : "");
  fields.emplace_back(at ? "EPSG:4326" : "");
  fields.push_back(at && at->uncertainty_m ? number_text(at->uncertainty_m) : "");
  fields.emplace_back(at && !records.exact ? in_words(messages::kPositionGeneralised) : "");
  fields.emplace_back(records.exact ? "" : in_words(messages::kSharedWithheld));
  return csv_line(fields);
}

std::string occurrences(const SharedRecords& records) {
  std::string out = csv_line({kTerms.begin(), kTerms.end()});
  std::map<std::string, const SharedNight*> nights;
  for (const SharedNight& night : records.nights) {
    nights[night.event] = &night;
    // Worked, and nothing found: that is data as well.
    if (night.captures == 0)
      out += line_of({night.event + "-absent", "absent", "", "", "", &night, &night.position}, records);
  }
  for (const SharedCapture& one : records.captures)
    out += line_of(
        {"urn:uuid:" + one.id.value, "present", one.individual ? "urn:uuid:" + one.individual->value : "",
         one.sex, one.stage, nights.at(one.event), &one.position},
        records);
  return out;
}

std::string meta() {
  std::string fields;
  for (std::size_t i = 0; i < kTerms.size(); ++i)
    fields +=
        fmt::format("    <field index=\"{}\" term=\"http://rs.tdwg.org/dwc/terms/{}\"/>\n", i, kTerms[i]);
  return R"(<?xml version="1.0" encoding="UTF-8"?>
<archive xmlns="http://rs.tdwg.org/dwc/text/" metadata="eml.xml">
  <core encoding="UTF-8" fieldsTerminatedBy="," linesTerminatedBy="\r\n" fieldsEnclosedBy="&quot;" ignoreHeaderLines="1" rowType="http://rs.tdwg.org/dwc/terms/Occurrence">
    <files><location>occurrence.csv</location></files>
    <id index="0"/>
)" + fields +
         "  </core>\n</archive>\n";
}

std::string eml(const SharedRecords& records) {
  const std::string title = in_words(messages::kSharedTitleOf, {{"species", records.species}});
  const std::string about =
      in_words(records.exact ? messages::kSharedAboutExact : messages::kSharedAbout, {{"program", kProgram}});
  return fmt::format(
      R"(<?xml version="1.0" encoding="UTF-8"?>
<eml:eml xmlns:eml="eml://ecoinformatics.org/eml-2.1.1" packageId="{0}" system="evet" scope="system" xml:lang="{6}">
  <dataset>
    <title xml:lang="{6}">{1}</title>
    <creator><organizationName>{7}</organizationName></creator>
    <pubDate>{2}</pubDate>
    <language>{6}</language>
    <abstract><para>{3}</para></abstract>
    <intellectualRights><para>{8}</para></intellectualRights>
    <coverage><temporalCoverage><rangeOfDates><beginDate><calendarDate>{4}</calendarDate></beginDate><endDate><calendarDate>{5}</calendarDate></endDate></rangeOfDates></temporalCoverage></coverage>
    <contact><organizationName>{7}</organizationName></contact>
  </dataset>
</eml:eml>
)",
      escaped(records.ledger_head), escaped(title), escaped(records.made_at.substr(0, 10)), escaped(about),
      escaped(records.nights.front().night), escaped(records.nights.back().night),
      html(messages::kLanguageOfThePage), html(messages::kKeeperOfTheCatalogue),
      html(messages::kNoRightsGiven));
}

}  // namespace

SharedFiles darwin_core_files(const SharedRecords& records) {
  return {{"occurrence.csv", occurrences(records)}, {"meta.xml", meta()}, {"eml.xml", eml(records)}};
}

SharedFiles darwin_core_archive(const SharedRecords& records) {
  return {{"darwin_core.zip", zip_of(darwin_core_files(records), records.made_at)}};
}

}  // namespace evet
