// Identifiers are types, never bare strings, so that a photo cannot be passed where a capture is meant.
#pragma once
#include <compare>
#include <functional>
#include <string>
#include <utility>

namespace evet {

template <class Tag>
struct Id {
  std::string value;
  Id() = default;
  explicit Id(std::string text) : value(std::move(text)) {}
  bool empty() const { return value.empty(); }
  friend auto operator<=>(const Id&, const Id&) = default;
};

using PhotoId = Id<struct PhotoTag>;      // SHA-256 of the file's bytes, 64 hex digits
using CaptureId = Id<struct CaptureTag>;  // UUIDv7: one animal in hand, once
using IndividualId =
    Id<struct IndividualTag>;           // the id of the individual's oldest capture; see catalogue/fold.h
using EntryId = Id<struct EntryTag>;    // UUIDv7 of a ledger entry
using DeviceId = Id<struct DeviceTag>;  // UUIDv7 of the machine that wrote an entry

}  // namespace evet

template <class Tag>
struct std::hash<evet::Id<Tag>> {
  size_t operator()(const evet::Id<Tag>& id) const noexcept { return std::hash<std::string>{}(id.value); }
};
