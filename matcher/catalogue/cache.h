// What can be made again from the photos: patterns and strips. A separate SQLite file that may be deleted at
// any time; a damaged or unwritable one is replaced or done without, never an error.
//
// Its bytes are parsed and not trusted: each row carries the SHA-256 of its content, and a pattern that is
// not of the shape and range that the program makes is as good as none. A sum does not show who wrote a row:
// whoever sends a whole folder could have put another pattern in it. Where that matters, delete the cache.
#pragma once
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/env.h"
#include "matcher/base/ids.h"
#include "matcher/pattern/pattern.h"

namespace evet {

class ReadersApart;

class Cache {
 public:
  // Nothing is read or kept: of a folder whose files this process does not open.
  Cache();
  Cache(const std::filesystem::path& folder, Env& env, bool writable);
  Cache(Cache&&) noexcept;
  Cache& operator=(Cache&&) noexcept;
  ~Cache();

  // `maker` is the version of the code (and, where one was drawn, the midline) that made it; another maker's
  // is stale.
  std::optional<Pattern> pattern(const PhotoId& photo, const std::string& maker);
  void keep_pattern(const PhotoId& photo, const std::string& maker, const Pattern& pattern);
  // An encoded picture (PNG or JPEG bytes) of the strip.
  std::optional<Bytes> strip(const PhotoId& photo, const std::string& maker);
  void keep_strip(const PhotoId& photo, const std::string& maker, BytesView picture);

  // For the audit: photos of which something kept is not as it was written; an empty id when the rest cannot
  // be read at all.
  std::vector<PhotoId> damaged();
  // The same of a folder from elsewhere, read in a process apart.
  static std::vector<PhotoId> damaged_apart(const std::filesystem::path& folder, Env& env,
                                            const ReadersApart& readers);
  bool usable() const;  // false: nothing is kept, everything is made again each time

 private:
  std::vector<PhotoId> look_for_damage();
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace evet
