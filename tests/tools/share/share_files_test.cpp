#include "tools/share/share_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <sstream>

#include "matcher/base/csv.h"
#include "matcher/base/error.h"
#include "matcher/base/moment.h"
#include "models/histories_csv.h"
#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet {
namespace {

using namespace try_out;
using testing::HasSubstr;
using testing::Not;

const std::vector<std::string> kSecrets = {"Alder",   "alder",    "north", "south,",       "52.125",
                                           "-1.5,",   "OB1",      "L-7",   "T3",           "Dot",
                                           "K. Moor", "gate key", "IMG_1", "notes of one", "52.1304"};

struct APond {
  Folder folder;
  testing_env::StillEnv env{7};
  Catalogue pond = Catalogue::create(folder.path / "pond", "Alder Fen", person("OB1"), env);
  CaptureId one = pond.new_capture_id(), again = pond.new_capture_id(), open = pond.new_capture_id();

  APond() {
    CaptureFacts first = facts("2031-05-14", "c1"), later = facts("2031-05-20", "c2"),
                 alone = facts("2031-05-20", "IMG_1");
    first.notes = "notes of one", first.mass_g = 7.25;
    later.pond = "south", later.latitude = 52.1304, later.lost = true;
    alone.pond = "south", alone.sex = Sex::unknown, alone.latitude = alone.longitude = std::nullopt;
    pond.append(person("OB1"),
                {Capture{one, first}, Capture{again, later}, Capture{open, alone},
                 Verdict{.capture = one, .answer = Answer::new_individual}, LabelGiven{one, "Dot"},
                 Verdict{.capture = again, .other = one, .answer = Answer::same},
                 NightIntake{.sheet = "alder.csv",
                             .nights = {"2031-05-25"},
                             .visits = {{"Alder Fen", "north", "2031-05-25"}}},
                 NightFactsSaid{{"Alder Fen", "north", "2031-05-25"},
                                {{"method", "=torch, \"net\""},
                                 {"effort", 2.5},
                                 {"effort_unit", "hours"},
                                 {"holder", "K. Moor"},
                                 {"notes", "gate key under the stone"},
                                 {"weather", "mist over Alder Fen"}}}});
  }
  SharedRecords records(bool exact = false, const ShareRequest& asked = {}) {
    ShareRequest request = asked;
    request.species = "Newtus inventus", request.exact = exact;
    return shared_records(pond, request, env);
  }
  SharedFiles files(bool exact = false) {
    const SharedRecords all = records(exact);
    SharedFiles files = data_package(all);
    for (const auto& [name, text] : darwin_core_files(all)) files["darwin_core/" + name] = text;
    return files;
  }
};

std::vector<std::vector<std::string>> table(const std::string& text) {
  std::vector<std::vector<std::string>> rows;
  const CsvReading read = read_csv(text, ',');
  EXPECT_FALSE(read.problem);
  for (const CsvRecord& record : read.records) rows.push_back(record.fields);
  return rows;
}

bool is_of_type(const std::string& value, const std::string& type) {
  if (type == "number") return std::regex_match(value, std::regex("-?[0-9]+(\\.[0-9]+)?"));
  if (type == "integer") return std::regex_match(value, std::regex("[0-9]+"));
  if (type == "date") return is_date(value);
  if (type == "boolean") return value == "true" || value == "false";
  return type == "string";
}

TEST(Share, NothingGivesThePlaceOrAPersonAway) {
  APond at;
  const SharedFiles files = at.files();
  EXPECT_EQ(files.size(), 7U);
  for (const auto& [name, text] : files)
    for (const std::string& secret : kSecrets) EXPECT_THAT(text, Not(HasSubstr(secret))) << name;
  EXPECT_THAT(files.at("darwin_core/occurrence.csv"), HasSubstr("52.15,-1.45,EPSG:4326,"));
}

TEST(Share, ExactPositionsAreThereWhenAskedForAndNothingElseMore) {
  APond at;
  const SharedFiles files = at.files(true);
  EXPECT_THAT(files.at("darwin_core/occurrence.csv"), HasSubstr("52.125,-1.5,EPSG:4326,"));
  EXPECT_THAT(files.at("datapackage.json"), HasSubstr("not for publication"));
  for (const auto& [name, text] : files)
    for (const char* secret : {"OB1", "L-7", "K. Moor", "gate key", "notes of one", "Dot"})
      EXPECT_THAT(text, Not(HasSubstr(secret))) << name;
}

// The codes of one catalogue tell places apart; those of another catalogue are others, for nobody knows the salt.
TEST(Share, PlacesHaveCodesThatCannotBeGuessed) {
  APond at;
  const SharedRecords records = at.records();
  std::set<std::string> places;
  for (const SharedNight& night : records.nights) places.insert(night.place);
  EXPECT_EQ(places.size(), 2U);
  EXPECT_EQ(records.nights[0].place, records.nights[2].place);
  APond another;
  another.pond = Catalogue::create(another.folder.path / "another", "Alder Fen", person("OB1"), another.env);
  another.pond.append(person("OB1"), {Capture{another.pond.new_capture_id(), facts("2031-05-14", "c1")}});
  EXPECT_EQ(places.count(another.records().nights[0].place), 0U);
}

// Frictionless: every column has a field of the same name in the same order, and every value is of its type.
TEST(Share, TheDataPackageDescribesItsTables) {
  APond at;
  const SharedFiles files = at.files();
  const auto package = nlohmann::json::parse(files.at("datapackage.json"));
  ASSERT_EQ(package["resources"].size(), 3U);
  std::set<std::string> events;
  for (const auto& resource : package["resources"]) {
    const auto rows = table(files.at(resource["path"]));
    if (resource["name"] == "histories") continue;
    const auto& fields = resource["schema"]["fields"];
    ASSERT_EQ(rows[0].size(), fields.size());
    std::set<std::string> keys;
    for (std::size_t r = 1; r < rows.size(); ++r) {
      ASSERT_EQ(rows[r].size(), fields.size());
      for (std::size_t c = 0; c < fields.size(); ++c) {
        const std::string &value = rows[r][c], type = fields[c]["type"];
        EXPECT_EQ(rows[0][c], fields[c]["name"]);
        const bool required = fields[c].contains("constraints"), is_event = rows[0][c] == "event";
        EXPECT_TRUE(!required || !value.empty()) << rows[0][c];
        EXPECT_TRUE(value.empty() || is_of_type(value, type)) << rows[0][c] << " " << value;
        if (is_event && resource["name"] == "nights") events.insert(value);
        EXPECT_TRUE(!is_event || events.contains(value)) << "a foreign key";
      }
      EXPECT_TRUE(keys.insert(rows[r][0]).second) << "a primary key";
    }
  }
  EXPECT_THAT(files.at("nights.csv"), HasSubstr("\"'=torch, \"\"net\"\"\""))
      << "no formula for a spreadsheet";
}

// Darwin Core text guide: the descriptor's terms are the columns, in their order, each once.
TEST(Share, TheArchivesDescriptorFitsItsFile) {
  APond at;
  const SharedFiles files = at.files();
  const auto rows = table(files.at("darwin_core/occurrence.csv"));
  const std::string& meta = files.at("darwin_core/meta.xml");
  const std::regex field("<field index=\"([0-9]+)\" term=\"http://rs.tdwg.org/dwc/terms/([A-Za-z]+)\"/>");
  std::size_t n = 0;
  for (std::sregex_iterator one(meta.begin(), meta.end(), field), end; one != end; ++one, ++n) {
    EXPECT_EQ((*one)[1], std::to_string(n));
    EXPECT_EQ((*one)[2], rows[0][n]);
  }
  EXPECT_EQ(n, rows[0].size());
  ASSERT_EQ(rows.size(), 5U) << "three captures, one night without a catch, the heads";
  const auto column = [&](const std::string& name) {
    return static_cast<std::size_t>(std::find(rows[0].begin(), rows[0].end(), name) - rows[0].begin());
  };
  std::set<std::string> ids;
  int absent = 0, known = 0;
  for (std::size_t r = 1; r < rows.size(); ++r) {
    EXPECT_TRUE(ids.insert(rows[r][0]).second);
    const bool none = rows[r][column("occurrenceStatus")] == "absent";
    absent += none, known += !rows[r][column("organismID")].empty();
    EXPECT_EQ(rows[r][column("individualCount")], none ? "0" : "1");
    EXPECT_NE(rows[r][column("informationWithheld")], "");
    const bool placed = !rows[r][column("decimalLatitude")].empty();
    EXPECT_EQ(placed, !rows[r][column("dataGeneralizations")].empty());
    EXPECT_EQ(placed, !rows[r][column("coordinateUncertaintyInMeters")].empty());
  }
  EXPECT_EQ(absent, 1);
  EXPECT_EQ(known, 2) << "a capture that is not settled has no organism";
  EXPECT_THAT(files.at("darwin_core/occurrence.csv"), HasSubstr("2031-05-14/2031-05-15"));
}

TEST(Share, TheHistoriesCanBeEstimatedFrom) {
  APond at;
  std::istringstream text(at.files().at("histories.csv"));
  const models::CaptureHistories read = models::read_histories_csv(text);
  EXPECT_EQ(read.animal_count(), 1U);
  EXPECT_EQ(read.occasion_count(), 3U);
  EXPECT_EQ(read.animals[0], at.one.value);
}

TEST(Share, OnlyWhatWasAskedFor) {
  APond at;
  EXPECT_EQ(at.records(false, {.site = "Alder Fen", .pond = "south"}).captures.size(), 2U);
  EXPECT_EQ(at.records(false, {.to = "2031-05-14"}).nights.size(), 1U);
  EXPECT_THROW(at.records(false, {.from = "2040-01-01"}), Error);
}

TEST(Share, ASpeciesHasToBeNamed) {
  for (const char* wrong : {"", "newt", "123", "\u00e4"}) {
    ShareRequest request;
    request.species = wrong;
    EXPECT_THROW(request.check(), Error) << wrong;
  }
  ShareRequest request;
  request.species = "Newtus inventus", request.from = "May";
  EXPECT_THROW(request.check(), Error);
  request.from.clear(), request.pond = "south";
  EXPECT_THROW(request.check(), Error);
}

TEST(Share, SameRecordsSameFiles) {
  APond at;
  EXPECT_EQ(at.files(), at.files());
  const SharedRecords records = at.records();
  EXPECT_EQ(darwin_core_archive(records), darwin_core_archive(records)) << "and the same archive";
  EXPECT_TRUE(darwin_core_archive(records).at("darwin_core.zip").starts_with("PK"));
}

}  // namespace
}  // namespace evet
