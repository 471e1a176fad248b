// photos/: originals bit for bit, each named by the SHA-256 of its bytes, in 256 folders by
// its first two digits.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "matcher/base/env.h"
#include "matcher/base/ids.h"

namespace evet {

class PhotoStore {
 public:
  PhotoStore(std::filesystem::path folder, Env& env) : folder_(std::move(folder)), env_(&env) {}

  // On the disk when it returns. A file of that name with other bytes (a damaged disk) is replaced. Errors:
  // bad_input where a link, a pipe or a folder lies in its place.
  PhotoId keep(BytesView bytes);
  bool has(const PhotoId& photo) const;
  // Errors: not_found; storage when the bytes do not hash to the name.
  Bytes read(const PhotoId& photo) const;
  std::filesystem::path path(const PhotoId& photo) const;

 private:
  bool holds(const std::filesystem::path& file, BytesView bytes) const;

  std::filesystem::path folder_;
  Env* env_;
};

}  // namespace evet
