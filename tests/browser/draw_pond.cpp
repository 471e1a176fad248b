// Draws the catalogue that the browser tests work on, and prints what is true of it as JSON.
// Usage: draw_pond FOLDER [night|disputed|labelled|twice|empty|surveyed|everything]
// everything: a dispute, and where the ponds lie
#include <iostream>
#include <string>

#include "tests/tools/review/drawn_pond.h"

int main(int argc, char** argv) {
  using namespace evet;
  if (argc < 2) return 2;
  const std::string kind = argc > 2 ? argv[2] : "night";
  if (kind == "empty") {
    Catalogue::create(argv[1], "Alder Fen", {ActorKind::person, "OB1"}, system_env());
    std::cout << "{}\n";
    return 0;
  }
  try_out::PondPlan plan{.animals = 8, .again = 5, .fresh = 3, .unusable = 1};
  if (kind == "labelled") plan.labels_on_sheet = true;
  if (kind == "twice") plan.fresh_twice = 1;
  const try_out::DrawnPond pond = try_out::draw_pond(argv[1], plan);
  if (kind == "disputed" || kind == "everything") {
    Catalogue catalogue = Catalogue::open(argv[1], system_env());
    catalogue.append({ActorKind::person, "KM"}, {Verdict{.capture = pond.captures[0][1],
                                                         .other = pond.captures[0][0],
                                                         .answer = Answer::different,
                                                         .reason = "the chin row is shorter"}});
  }
  if (kind == "surveyed" || kind == "everything") {  // where the ponds lie, and a night without a catch
    Catalogue catalogue = Catalogue::open(argv[1], system_env());
    std::vector<Body> bodies;
    const Identities who = catalogue.identities();
    for (const CaptureState& capture : who.captures) {
      const bool north = capture.facts.pond == "north";
      bodies.push_back(
          Correction{capture.id,
                     {{"latitude", north ? 52.1251 : 52.1187}, {"longitude", north ? -1.5003 : -1.4921}},
                     "from the map"});
    }
    bodies.push_back(NightIntake{
        .sheet = "none.csv", .nights = {"2031-05-20"}, .visits = {{"Alder Fen", "north", "2031-05-20"}}});
    catalogue.append({ActorKind::person, "OB1"}, bodies);
  }
  nlohmann::json out = {{"last_night", pond.last_night}, {"again", nlohmann::json::object()}};
  for (std::size_t i = 0; i < pond.again.size(); ++i)
    out["again"][pond.again[i].value] = pond.captures[i][0].value;
  for (const CaptureId& id : pond.fresh) out["fresh"].push_back(id.value);
  for (const CaptureId& id : pond.twice) out["twice"].push_back(id.value);
  for (const CaptureId& id : pond.unusable) out["unusable"].push_back(id.value);
  for (const auto& own : pond.captures) {
    out["captures"].push_back(nlohmann::json::array());
    for (const CaptureId& id : own) out["captures"].back().push_back(id.value);
  }
  std::cout << out.dump() << "\n";
  return 0;
}
