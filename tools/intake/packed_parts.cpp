#include "tools/intake/packed_parts.h"

#include <zip.h>

namespace evet {

struct PackedParts::Archive {
  zip_t* zip = nullptr;
  ~Archive() {
    if (zip != nullptr) zip_discard(zip);
  }
};

PackedParts::PackedParts(std::unique_ptr<Archive> archive) : archive_(std::move(archive)) {}
PackedParts::PackedParts(PackedParts&&) noexcept = default;
PackedParts& PackedParts::operator=(PackedParts&&) noexcept = default;
PackedParts::~PackedParts() = default;

std::optional<PackedParts> PackedParts::open(std::string_view file) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* source = zip_source_buffer_create(file.data(), file.size(), 0, &error);
  auto archive = std::make_unique<Archive>();
  if (source != nullptr) archive->zip = zip_open_from_source(source, ZIP_RDONLY, &error);
  if (source != nullptr && archive->zip == nullptr) zip_source_free(source);
  zip_error_fini(&error);
  if (archive->zip == nullptr) return std::nullopt;
  return PackedParts(std::move(archive));
}

bool PackedParts::has(const std::string& name) const {
  return zip_name_locate(archive_->zip, name.c_str(), 0) >= 0;
}

std::optional<std::string> PackedParts::part(const std::string& name, std::size_t at_most) const {
  zip_file_t* file = zip_fopen(archive_->zip, name.c_str(), 0);
  if (file == nullptr) return std::nullopt;
  const std::unique_ptr<zip_file_t, decltype(&zip_fclose)> held(file, &zip_fclose);
  // Its own word for its length counts for nothing.
  std::string out, buffer(64 * 1024, '\0');
  for (;;) {
    const zip_int64_t n = zip_fread(file, buffer.data(), buffer.size());
    if (n < 0 || out.size() + static_cast<std::size_t>(n) > at_most) return std::nullopt;
    if (n == 0) return out;
    out.append(buffer, 0, static_cast<std::size_t>(n));
  }
}

bool PackedParts::locked() const {
  const zip_int64_t all = zip_get_num_entries(archive_->zip, 0);
  for (zip_int64_t i = 0; i < all; ++i) {
    zip_stat_t facts;
    if (zip_stat_index(archive_->zip, static_cast<zip_uint64_t>(i), 0, &facts) == 0 &&
        (facts.valid & ZIP_STAT_ENCRYPTION_METHOD) != 0 && facts.encryption_method != ZIP_EM_NONE)
      return true;
  }
  return false;
}

}  // namespace evet
