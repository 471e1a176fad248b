// Where a draft lies until it is taken in: the folder "incoming" of its catalogue, with the photos as they came,
// the draft itself, and the sheets that were made of drafts.
//
//   incoming/evening.json   the draft
//   incoming/photos/        its photos, under the names that they have on the sheet
//   incoming/sheets/        the sheets that were taken in
//
// A photo is on the disk before the draft speaks of it, and the draft is replaced whole: killed at any instant,
// the folder opens again with every photo that was acknowledged, and those that came but were not yet written
// down are found. Nothing of it is in the catalogue before the night is taken in.
#pragma once
#include <filesystem>
#include <functional>
#include <string>

#include "matcher/catalogue/catalogue.h"
#include "tools/intake/draft.h"

namespace evet {

// A photo's bytes, looked at before they are let in: what kind it is, and when it was taken.
struct LookedAt {
  PhotoId id;
  std::string taken_at;
};
// Decoded whole, though small. Errors: those of decode_photo, naming `name`.
LookedAt look_at_photo(BytesView bytes, const std::string& name);

struct Arrival {
  std::string name;    // in the draft
  bool again = false;  // the same picture was there already, perhaps under another name
};

class DraftFolder {
 public:
  // Errors: storage. A draft that cannot be read is set aside under another name, and its photos are found anew.
  DraftFolder(const std::filesystem::path& catalogue, Env& env);

  const Draft& draft() const { return draft_; }
  const std::vector<std::string>& warnings() const { return warnings_; }
  std::filesystem::path photos() const { return folder_ / "photos"; }
  std::filesystem::path sheets() const { return folder_ / "sheets"; }

  // On the disk when it returns; when it throws, the draft is as it was.
  void change(const std::function<void(Draft&)>& act);
  Arrival add(BytesView bytes, const std::string& from, const LookedAt& looked_at,
              std::int64_t modified_ms = 0);
  Bytes read(const DraftPhoto& photo) const;
  // Writes the sheet that is to be taken in, and returns where it lies.
  std::filesystem::path write_sheet(const std::string& name, const std::string& csv);
  // After the night was taken in: what the catalogue holds now is no longer kept here.
  void forget_taken(Catalogue& catalogue);
  // Takes photos that were left out away for good. Errors: conflict for one that is on a capture.
  void remove(const std::vector<std::string>& names);

 private:
  void load();
  void find_strays();
  void save(const Draft& draft);
  void begin();

  std::filesystem::path folder_;
  Env& env_;
  Draft draft_;
  std::vector<std::string> warnings_;
};

}  // namespace evet
