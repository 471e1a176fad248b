// A small catalogue on disk to merge, audit and tamper with: two animals, three captures, a photo of each.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet::try_out {

struct SamplePond {
  Catalogue catalogue;
  std::vector<PhotoId> photos;  // before the captures, which fill it; so is the next
  CaptureId last_added;
  CaptureId a1, b1, a2;

  explicit SamplePond(const std::filesystem::path& folder, const std::string& mark = "")
      : catalogue(Catalogue::create(folder, "Alder Fen", person("R1"), system_env())),
        a1(add("2031-05-10", mark + "a1")),
        b1(add("2031-05-10", mark + "b1")),
        a2(add("2031-05-12", mark + "a2")) {
    catalogue.append(person("R1"), {Verdict{.capture = a1, .answer = Answer::new_individual},
                                    Verdict{.capture = b1, .answer = Answer::new_individual},
                                    Verdict{.capture = a2, .other = a1, .answer = Answer::same}});
  }
  CaptureId add(const std::string& night, const std::string& name) {
    CaptureId id = catalogue.new_capture_id();
    while (id < last_added) id = catalogue.new_capture_id();  // two within a millisecond come in any order
    last_added = id;
    photos.push_back(catalogue.store_photo(bytes("a picture of " + name)));
    catalogue.append(person("OB1"),
                     {Capture{id, facts(night, name)}, photo_of(photos.back(), id, name + ".jpg")});
    return id;
  }
};

// Who is who, as text: what must not depend on how the entries came together.
inline std::string told(const Identities& who) {
  std::string text;
  for (const CaptureState& capture : who.captures) {
    text +=
        capture.id.value + " " + capture.facts.night + " " + capture.facts.name + " -> " +
        (capture.individual ? capture.individual->value : "?") + (capture.disputed ? " disputed" : "") +
        (capture.by_program ? " by program" : "") +
        (capture.closed ? std::string(" closed: ") + name(capture.closed->as) + " by " + capture.closed->by
                        : "");
    for (const PhotoState& photo : capture.photos) text += " " + photo.name + (photo.usable ? "+" : "-");
    for (const CaptureId& twin : capture.twins) text += " twin " + twin.value;
    for (const SaidOtherwise& said : capture.said_otherwise)
      text += " but " + said.twin.value + " " + said.site + "/" + said.pond + "/" + said.night + "/" +
              said.individual;
    text += "\n";
  }
  for (const Individual& one : who.individuals) {
    text += one.id.value + " '" + one.label + "' '" + one.name + "' " + (one.placed ? "placed" : "joined");
    for (const std::string& alias : one.aliases) text += " alias " + alias;
    text += "\n";
  }
  for (const Dispute& dispute : who.disputes) {
    text += "dispute " + dispute.a.value + " " + dispute.b.value + " against";
    for (const EntryId& id : dispute.against) text += " " + id.value;
    text += " contested";
    for (const EntryId& id : dispute.contested) text += " " + id.value;
    text += "\n";
  }
  for (const Overridden& one : who.overridden) text += "overridden " + one.verdict.value + "\n";
  for (const EntryId& id : who.out_of_force) text += "out " + id.value + "\n";
  for (const SetAside& one : who.set_aside) text += "set aside " + one.entry.value + " " + one.why + "\n";
  return text;
}

}  // namespace evet::try_out
