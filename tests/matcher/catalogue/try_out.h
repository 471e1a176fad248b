// What the catalogue's tests share: a folder of their own, bodies in one line, a ledger by hand.
#pragma once
#include <unistd.h>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "matcher/catalogue/catalogue.h"

namespace evet::try_out {

// A fresh folder, gone at the end. In memory where there is such a place: hundreds of synced writes take a
// minute on a slow disk, and no test here is about the disk itself.
struct Folder {
  std::filesystem::path path;
  Folder() {
    const bool in_memory = ::access("/dev/shm", W_OK) == 0;
    const std::filesystem::path above = in_memory ? "/dev/shm" : std::filesystem::temp_directory_path();
    std::string pattern = (above / "evet-test-XXXXXX").string();
    path = ::mkdtemp(pattern.data());
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
};

inline Bytes bytes(std::string_view text) {
  const auto* from = reinterpret_cast<const std::byte*>(text.data());
  return {from, from + text.size()};
}
inline Actor person(const std::string& name) {
  return {ActorKind::person, name};
}
inline Actor program() {
  return {ActorKind::program, "evet test"};
}

inline CaptureFacts facts(const std::string& night, const std::string& name,
                          const std::string& individual = {}) {
  CaptureFacts facts;
  facts.site = "Alder Fen", facts.pond = "north", facts.night = night, facts.trap = "T3", facts.name = name;
  facts.sex = Sex::female, facts.stage = "adult", facts.svl_mm = 71.5, facts.observer = "OB1",
  facts.licence = "L-7";
  facts.latitude = 52.125, facts.longitude = -1.5, facts.individual = individual;
  return facts;
}
inline PhotoTaken photo_of(const PhotoId& photo, const CaptureId& capture, const std::string& name,
                           bool usable = true) {
  PhotoTaken taken{.photo = photo, .capture = capture, .name = name, .bytes = 20};
  taken.header.width_px = 1600, taken.header.height_px = 1200;
  taken.examination.usable = usable, taken.examination.maker = "test 1";
  return taken;
}

}  // namespace evet::try_out
