// The parts of a ZIP archive in memory, unpacked one at a time and within a bound.
#pragma once
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace evet {

class PackedParts {
 public:
  // Nothing where it is no archive that can be read.
  static std::optional<PackedParts> open(std::string_view file);
  PackedParts(PackedParts&&) noexcept;
  PackedParts& operator=(PackedParts&&) noexcept;
  ~PackedParts();

  bool has(const std::string& name) const;
  // Nothing where it is not there, is locked by a password, damaged, or larger than `at_most` bytes.
  std::optional<std::string> part(const std::string& name, std::size_t at_most) const;
  bool locked() const;  // some part wants a password

 private:
  struct Archive;
  explicit PackedParts(std::unique_ptr<Archive> archive);
  std::unique_ptr<Archive> archive_;
};

}  // namespace evet
