// What the researcher's pages are made of: filters, labels and notes, nights, ponds, the report.
#include <gmock/gmock.h>

#include "matcher/catalogue/merge.h"
#include "tests/tools/review/page_fixture.h"

namespace evet::review {
namespace {

using testing::HasSubstr;
using testing::Not;

struct Researcher : APage {
  Response from_afar(const std::string& target) const {
    Request asked = request("GET", target, "KM");
    asked.peer = "192.0.2.7";  // RFC 5737: kept for examples
    return page->handle(asked);
  }
  Response from_here(const std::string& target) const {
    Request asked = request("GET", target, "KM");
    asked.peer = "127.0.0.1";
    return page->handle(asked);
  }
  nlohmann::json label(const CaptureId& individual, const std::string& text) const {
    return say("/api/label", {{"individual", individual.value}, {"label", text}});
  }
  void write_place(double latitude, double longitude) {
    Catalogue catalogue = Catalogue::open(folder.path / "pond", system_env());
    const CaptureId id = pond.captures[0][0];
    catalogue.append({ActorKind::person, "OB1"},
                     {Correction{id, {{"latitude", latitude}, {"longitude", longitude}}, "from the map"}});
  }
};

TEST_F(Researcher, FindsIndividualsBySexPlaceSeasonAndSize) {
  open({.animals = 6, .captures_each = 2, .again = 0, .fresh = 0, .unusable = 0});
  const auto found = [&](const std::string& query) {
    return get("/api/individuals?" + query)["found"].get<int>();
  };
  EXPECT_EQ(found(""), 6);
  EXPECT_EQ(found("sex=female"), 3);
  EXPECT_EQ(found("sex=male&pond=north"), 0);
  EXPECT_EQ(found("site=Alder%20Fen&pond=south"), 3);
  EXPECT_EQ(found("season=2025"), 6);
  EXPECT_EQ(found("season=2031"), 0);
  EXPECT_EQ(found("svl_from=64"), 3);  // newest lengths are 61 to 66 mm
  EXPECT_EQ(found("svl_from=62&svl_to=63.5"), 2);
  EXPECT_EQ(found("svl_to=60.5"), 0);
  const nlohmann::json choices = get("/api/individuals")["choices"];
  EXPECT_EQ(choices["seasons"], nlohmann::json({"2025", "2026"}));
  EXPECT_EQ(choices["places"].size(), 2U);
  for (const char* wrong : {"sex=newt", "svl_from=long", "svl_to=-1", "from=x", "svl_from=nan"})
    EXPECT_EQ(ask(std::string("/api/individuals?") + wrong).status, 422) << wrong;
}

TEST_F(Researcher, ALabelIsGivenChangedAndNeverShared) {
  open({.animals = 3, .again = 0, .fresh = 0, .unusable = 0});
  const CaptureId one = pond.captures[0][0], two = pond.captures[1][0];
  label(one, "Dot");
  EXPECT_EQ(get("/api/individual/" + one.value)["name"], "Dot");
  label(one, "Dash");
  const nlohmann::json now = get("/api/individual/" + one.value);
  EXPECT_EQ(now["name"], "Dash");
  EXPECT_EQ(now["aliases"], nlohmann::json({"Dot"})) << "the old name still finds it";
  const Response shared = try_say("/api/label", {{"individual", two.value}, {"label", "dash"}});
  EXPECT_EQ(shared.status, 409);
  EXPECT_THAT(shared.body, HasSubstr("another individual bears it"));
  EXPECT_EQ(try_say("/api/label", {{"individual", two.value}, {"label", "  "}}).status, 422);
  EXPECT_EQ(try_say("/api/label", {{"individual", two.value}, {"label", std::string(200, 'x')}}).status, 413);
  EXPECT_EQ(get("/api/ledger?kind=label")["entries"].size(), 2U) << "nothing refused was written";
}

// The capture that was named first carries the name, and it need not be the oldest.
TEST_F(Researcher, ARenamedIndividualIsRenamedWhereverItsNameCameFrom) {
  open({.animals = 2, .again = 0, .fresh = 0, .unusable = 0});
  {
    Catalogue catalogue = Catalogue::open(folder.path / "pond", system_env());
    catalogue.append({ActorKind::person, "OB1"}, {LabelGiven{pond.captures[0][1], "Late"}});
    catalogue.append({ActorKind::person, "OB1"}, {LabelGiven{pond.captures[0][0], "Early"}});
  }
  EXPECT_EQ(get("/api/individual/" + pond.captures[0][0].value)["name"], "Late");
  label(pond.captures[0][0], "Now");
  EXPECT_EQ(get("/api/individual/" + pond.captures[0][0].value)["name"], "Now");
}

TEST_F(Researcher, AnAnimalThatTheSheetKnewCanBeRenamed) {
  open({.animals = 2, .labels_on_sheet = true, .again = 0, .fresh = 0, .unusable = 0});
  label(pond.captures[1][0], "Bea");
  EXPECT_EQ(get("/api/individual/" + pond.captures[1][0].value)["name"], "Bea");
}

TEST_F(Researcher, NotesBecomeACorrectionAndTheOldOnesStay) {
  open();
  const std::string id = pond.captures[0][0].value;
  say("/api/notes", {{"capture", id}, {"notes", "tail tip lost"}});
  say("/api/notes", {{"capture", id}, {"notes", "tail tip healed"}});
  EXPECT_EQ(get("/api/individual/" + id)["captures"][0]["facts"]["notes"], "tail tip healed");
  const nlohmann::json entries = get("/api/ledger?kind=correction")["entries"];
  EXPECT_EQ(entries.size(), 2U);
  EXPECT_TRUE(say("/api/notes", {{"capture", id}, {"notes", "tail tip healed"}})["again"]);
  say("/api/notes", {{"capture", id}, {"notes", ""}});
  EXPECT_FALSE(get("/api/individual/" + id)["captures"][0]["facts"].contains("notes"));
  EXPECT_EQ(try_say("/api/notes", {{"capture", id}, {"notes", "two\nlines"}}).status, 422);
}

// Edited on two machines: after a merge both say the same, and both edits are in the ledger.
TEST_F(Researcher, LabelsAndNotesOfTwoMachinesMergeSoundly) {
  open({.animals = 2, .again = 0, .fresh = 0, .unusable = 0});
  std::filesystem::copy(folder.path / "pond", folder.path / "field",
                        std::filesystem::copy_options::recursive);
  const CaptureId id = pond.captures[0][0];
  label(id, "House");
  say("/api/notes", {{"capture", id.value}, {"notes", "said in the house"}});
  page.reset();
  Catalogue house = Catalogue::open(folder.path / "pond", system_env());
  Catalogue field = Catalogue::open(folder.path / "field", system_env());
  field.append({ActorKind::person, "TR"},
               {LabelGiven{id, "Field"}, Correction{id, {{"mass_g", 7.5}}, "weighed"}});
  merge(house, field, {ActorKind::person, "KM"});
  merge(field, house, {ActorKind::person, "TR"});
  const auto told = [&](Catalogue& catalogue) {
    const Identities& who = catalogue.identities();
    const Individual& one = *who.individual(IndividualId(id.value));
    return one.name + "|" + who.capture(id)->facts.notes + "|" +
           std::to_string(who.capture(id)->facts.mass_g.value_or(0)) + "|" +
           std::to_string(one.aliases.size());
  };
  EXPECT_EQ(told(house), told(field));
  EXPECT_THAT(told(house), HasSubstr("said in the house|7.5"));
  EXPECT_THAT(told(house), testing::EndsWith("|1")) << "the other name is an alias";
}

TEST_F(Researcher, TheCalendarHasNightsWithAndWithoutACatch) {
  open({.animals = 4, .again = 2, .fresh = 1, .unusable = 1});
  {
    Catalogue catalogue = Catalogue::open(folder.path / "pond", system_env());
    catalogue.append({ActorKind::person, "OB1"},
                     {NightIntake{.sheet = "none.csv",
                                  .nights = {"2031-05-20"},
                                  .visits = {{"Alder Fen", "north", "2031-05-20"}}}});
  }
  const nlohmann::json nights = get("/api/calendar")["nights"];
  EXPECT_EQ(nights.back()["night"], "2031-05-20");
  EXPECT_EQ(nights.back()["captures"], 0);
  int captures = 0, open_ones = 0, fresh = 0;
  for (const auto& night : nights)
    captures += night["captures"].get<int>(), open_ones += night["open"].get<int>(),
        fresh += night["new"].get<int>();
  EXPECT_EQ(captures, 4 * 2 + 4);
  EXPECT_EQ(open_ones, 4);
  EXPECT_EQ(fresh, 4);
}

TEST_F(Researcher, PlacesAreExactOnThisMachineAlone) {
  open();
  write_place(52.12345, -1.54321);
  const std::string here = from_here("/api/map").body, afar = from_afar("/api/map").body,
                    unknown = ask("/api/map").body;
  EXPECT_THAT(here, HasSubstr("52.12345"));
  EXPECT_THAT(here, HasSubstr("\"exact\":true"));
  for (const std::string& coarse : {afar, unknown}) {
    EXPECT_THAT(coarse, Not(HasSubstr("52.12")));
    EXPECT_THAT(coarse, Not(HasSubstr("1.54")));
    EXPECT_THAT(coarse, HasSubstr("\"latitude\":52.15"));
  }
  EXPECT_THAT(from_afar("/api/individual/" + pond.captures[0][0].value).body, Not(HasSubstr("52.12")));
  EXPECT_THAT(from_afar("/api/report").body, Not(HasSubstr("latitude")));
  EXPECT_EQ(from_afar("/report/2031-05-14?site=Alder%20Fen&pond=north&for=authority").status, 404);
}

TEST_F(Researcher, ANightsFactsAreWrittenDownAndPrinted) {
  open();
  const auto write = [&](const nlohmann::json& texts) {
    return try_say("/api/night_facts",
                   {{"site", "Alder Fen"}, {"pond", "north"}, {"night", pond.last_night}, {"texts", texts}});
  };
  EXPECT_EQ(write({{"method", "bottle traps"},
                   {"effort", "12"},
                   {"effort_unit", "trap nights"},
                   {"holder", "K. Moor"}})
                .status,
            200);
  const Response wrong = write({{"effort", "many"}});
  EXPECT_EQ(wrong.status, 422);
  EXPECT_THAT(wrong.body, HasSubstr("effort"));
  EXPECT_EQ(write({{"moon", "full"}}).status, 422);
  EXPECT_EQ(try_say("/api/night_facts", {{"site", "Alder Fen"},
                                         {"pond", "east"},
                                         {"night", pond.last_night},
                                         {"texts", nlohmann::json::object()}})
                .status,
            404);
  std::string method;
  const nlohmann::json north = get("/api/report?pond=north");
  for (const auto& field : north["fields"])
    if (field["key"] == "method") method = field["value"];
  EXPECT_EQ(method, "bottle traps");
  const std::string at = "/report/" + pond.last_night + "?site=Alder%20Fen&pond=north&for=";
  const Response authority = from_here(at + "authority"), everybody = from_afar(at + "everybody");
  ASSERT_EQ(authority.status, 200) << authority.body;
  EXPECT_THAT(authority.body, HasSubstr("12 trap nights"));
  EXPECT_THAT(authority.body, HasSubstr("K. Moor"));
  ASSERT_EQ(everybody.status, 200);
  EXPECT_THAT(everybody.body, Not(HasSubstr("K. Moor")));
  EXPECT_THAT(everybody.body, Not(HasSubstr("Alder")));
  // A document of its own: it runs no script and fetches nothing, and the page's own policy stays as it was.
  EXPECT_THAT(authority.headers.at("Content-Security-Policy"),
              HasSubstr("default-src 'none'; img-src data:;"));
  EXPECT_THAT(ask("/api/hello").headers.at("Content-Security-Policy"), HasSubstr("style-src 'self'"));
  EXPECT_EQ(from_here(at + "somebody").status, 422);
  EXPECT_EQ(from_here("/report/May?for=authority").status, 422);
}

TEST_F(Researcher, EveryoneIsInTheCatalogueOfStripsOnce) {
  open({.animals = 7, .captures_each = 2, .patterns = 3, .again = 0, .fresh = 0, .unusable = 0});
  std::vector<int> kinds;
  std::set<std::string> seen;
  const nlohmann::json everyone = get("/api/catalogue");
  for (const auto& one : everyone["individuals"]) {
    EXPECT_TRUE(seen.insert(one["id"]).second);
    for (int animal = 0; animal < 7; ++animal)
      if (pond.captures[static_cast<std::size_t>(animal)][0].value == one["id"]) kinds.push_back(animal % 3);
  }
  ASSERT_EQ(kinds.size(), 7U);
  int turns = 0;  // animals of one drawn pattern stand together
  for (std::size_t i = 1; i < kinds.size(); ++i) turns += kinds[i] != kinds[i - 1];
  EXPECT_EQ(turns, 2);
  const Response printed = ask("/catalogue");
  EXPECT_EQ(printed.status, 200);
  EXPECT_THAT(printed.body, Not(HasSubstr("north")));
  EXPECT_THAT(printed.body, Not(HasSubstr("Alder")));
}

TEST_F(Researcher, CostsAreKeptInTheCatalogue) {
  open();
  say("/api/costs", {{"wrong_join", 100}, {"look", 0.02}});
  const nlohmann::json settings = get("/api/settings");
  EXPECT_EQ(settings["costs"]["wrong_join"], 100);
  EXPECT_EQ(settings["costs_by"]["by"], "KM");
  EXPECT_EQ(try_say("/api/costs", {{"wrong_join", 0}, {"look", 1}}).status, 422);
  EXPECT_EQ(try_say("/api/costs", {{"wrong_join", "ten"}, {"look", 1}}).status, 422);
}

TEST_F(Researcher, EmptyCataloguesHaveTheirPages) {
  Catalogue::create(folder.path / "pond", "Alder Fen", {ActorKind::person, "KM"}, system_env());
  reopen();
  EXPECT_TRUE(get("/api/calendar")["nights"].empty());
  EXPECT_TRUE(get("/api/map")["ponds"].empty());
  EXPECT_TRUE(get("/api/catalogue")["individuals"].empty());
  EXPECT_TRUE(get("/api/growth")["individuals"].empty());
  EXPECT_TRUE(get("/api/report")["night"].is_null());
  EXPECT_EQ(get("/api/individuals")["of"], 0);
  EXPECT_EQ(ask("/report/2031-05-14?for=everybody").status, 404);
}

}  // namespace
}  // namespace evet::review
