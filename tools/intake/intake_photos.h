// The photos that a night sheet names, and those in their folder that it does not.
#pragma once
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "tools/intake/sheet.h"

namespace evet {

// What reading a row's photo gave: its name by content, or why it cannot be taken.
struct ReadPhoto {
  PhotoId id;
  std::optional<Reason> refusal{};
  std::optional<std::string>
      taken_at{};  // by the camera's clock; of a photo that the catalogue does not know
};

struct PhotosOfSheet {
  std::vector<ReadPhoto> reads;        // of the sheet's rows, in their order
  std::vector<std::string> on_no_row;  // pictures in the folder that neither sheet nor catalogue names
  std::vector<Message> hints;          // nights that the camera's clock does not bear out
};

// A picture that the catalogue has is not decoded again. Errors: storage.
PhotosOfSheet read_photos(Catalogue& catalogue, const Sheet& sheet, const std::filesystem::path& folder,
                          int threads, const std::function<void(size_t done, size_t all)>& progress,
                          Env& env);

}  // namespace evet
