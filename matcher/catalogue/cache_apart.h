// A cache from elsewhere, asked row by row: SQLite reads it in a process that can do no harm (read_apart.h). What
// that answers is bounded; whether a row is as it was written its sum shows, to whoever asked.
#pragma once
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "matcher/catalogue/cache_wire.h"
#include "matcher/catalogue/read_apart.h"

namespace evet {

class CacheApart {
 public:
  // Errors: LineBroken where there is none; storage.
  CacheApart(const ReadersApart& readers, const std::filesystem::path& file, bool with_wal);
  // Nothing where there is no such row. Errors: LineBroken.
  std::optional<CacheRow> get(const std::string& photo, const std::string& what, const std::string& maker);
  // One row after another, of all, no more in all than the file could hold; nothing at the end. Errors: LineBroken.
  std::optional<CacheRow> next();

 private:
  std::unique_ptr<Confined> reader_;
  std::uint64_t left_;  // bytes that next() may still bring
};

}  // namespace evet
