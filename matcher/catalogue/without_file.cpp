#include "matcher/catalogue/without_file.h"

namespace evet {

std::set<PhotoId> without_file(const Store& store, const PhotoStore& photos) {
  std::set<PhotoId> never_here;
  const DeviceId device(store.here("device").value_or(""));
  store.each_entry(Store::kStart, [&](const StoredEntry& stored) {
    const Entry& entry = stored.entry;
    if (entry.device != device || (entry.kind != Merge::kKind && entry.kind != PhotoTaken::kKind)) return;
    const auto body = readable(entry);
    if (!body) return;
    if (const auto* merge = std::get_if<Merge>(&*body))
      never_here = {merge->without_file.begin(), merge->without_file.end()};
    else
      never_here.erase(std::get<PhotoTaken>(*body).photo);
  });
  std::erase_if(never_here, [&](const PhotoId& photo) { return photos.has(photo); });
  return never_here;
}

}  // namespace evet
