// The photos that a night sheet names, and those in their folder that it does not.
#pragma once
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/env.h"
#include "matcher/catalogue/fold.h"
#include "tools/intake/sheet.h"

namespace evet {

// "line 3, photo 'IMG 1.jpg'".
std::string at_line(const SheetRow& row);

// What reading a row's photo gave: its name by content, or why it cannot be taken.
struct ReadPhoto {
  PhotoId id;
  std::string refusal;
  std::optional<std::string> taken_at;  // by the camera's clock; of a photo that the catalogue does not know
};

// `known`: whether the catalogue has this picture; one that it has is not decoded again. Errors: storage.
ReadPhoto read_row_photo(const SheetRow& row, const std::filesystem::path& folder, Env& env,
                         const std::function<bool(const PhotoId&)>& known);

// Forgotten rows: pictures that lie in the folder, and that neither the sheet nor the catalogue names.
std::vector<std::string> pictures_on_no_row(const std::filesystem::path& folder, const Sheet& sheet,
                                            const Identities& who, Env& env);

}  // namespace evet
