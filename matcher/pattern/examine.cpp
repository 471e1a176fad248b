#include "matcher/pattern/examine.h"

namespace evet {

Examined examine_photo(std::span<const std::byte> file, const std::string& item,
                       const ExamineOptions& options) {
  options.belly.check();
  options.pattern.check();
  const Photo photo = decode_photo(file, item, options.decode);
  Examined out;
  out.header = photo.header;
  out.belly = find_belly(photo, options.belly);
  if (out.belly.usable()) out.pattern = make_pattern(*out.belly.strip, out.belly.shape, options.pattern);
  return out;
}

}  // namespace evet
