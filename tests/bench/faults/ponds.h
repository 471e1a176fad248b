// A small catalogue of two animals, copied for each try.
#pragma once
#include <filesystem>
#include <string>

#include "matcher/catalogue/audit.h"
#include "tests/matcher/catalogue/sample_pond.h"

namespace evet::faults {

struct Ponds {
  try_out::Folder folder;
  std::filesystem::path pond = folder.path / "pond";
  CaptureId capture;
  std::string who;
  Ponds() {
    try_out::SamplePond made(pond);
    capture = made.a1, who = try_out::told(made.catalogue.identities());
    made.catalogue.cache().keep_strip(made.photos[0], "v1", try_out::bytes("a strip"));
  }
  std::filesystem::path copy(const std::string& name = "copy") const {
    const std::filesystem::path to = folder.path / name;
    std::filesystem::remove_all(to);
    std::filesystem::copy(pond, to, std::filesystem::copy_options::recursive);
    return to;
  }
};

inline std::string told_by(const std::filesystem::path& folder) {
  return try_out::told(Catalogue::open(folder, system_env(), {.access = Access::read}).identities());
}
inline bool audits(const std::filesystem::path& folder) {
  Catalogue catalogue = Catalogue::open_apart(folder, system_env(), true);
  return audit(catalogue).holds();
}

}  // namespace evet::faults
