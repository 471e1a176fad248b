#include "tools/intake/draft_folder.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"
#include "matcher/base/write_durably.h"
#include "matcher/photo/decode.h"
#include "matcher/photo/read_file.h"
#include "tools/intake/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
constexpr std::size_t kLargestDraft = 32U << 20;
constexpr const char* kDraft = "evening.json";
constexpr int kEnoughToLook = 64;  // pixels: a picture cut short shows only at its end

}  // namespace

LookedAt look_at_photo(BytesView bytes, const std::string& name) {
  const Photo photo =
      decode_photo(bytes, photo_item(in_quotes(name)), {.enough_long_side_px = kEnoughToLook});
  return {PhotoId(sha256_hex(bytes)), photo.header.taken_at.value_or("")};
}

DraftFolder::DraftFolder(const fs::path& catalogue, Env& env) : folder_(catalogue / "incoming"), env_(env) {
  // A link could lead anywhere: what is here is opened only where it is what we make ourselves.
  for (const fs::path& one : {folder_, folder_ / "photos", folder_ / "sheets"})
    if (const FileKind kind = env_.facts(one).kind; kind != FileKind::none && kind != FileKind::folder)
      throw Error(ErrorKind::bad_input, one.string(), messages::kDraftIsNoFolder, messages::kTakeItAway);
  if (!env_.exists(folder_)) return;
  load();
  find_strays();
}

void DraftFolder::load() {
  const fs::path file = folder_ / kDraft;
  const FileFacts facts = env_.facts(file);
  if (facts.kind == FileKind::none) return;
  try {
    if (facts.kind != FileKind::file || facts.bytes > kLargestDraft)
      throw Error(ErrorKind::bad_input, file.string(), messages::kNoDraft);
    const Bytes bytes = env_.read_file(file);
    const auto* text = reinterpret_cast<const char*>(bytes.data());
    draft_ = draft_from(nlohmann::json::parse(text, text + bytes.size(), nullptr, false));
  } catch (const Error& error) {
    if (error.kind() == ErrorKind::storage) throw;
    draft_ = {};
    const std::string aside = std::string(kDraft) + ".set-aside-" + std::to_string(env_.now().unix_ms);
    env_.rename(file, folder_ / aside);
    warnings_.push_back(in_words(messages::kEveningCouldNotBeRead, {{"file", in_quotes(aside)}}));
    return;
  }
  std::vector<std::string> gone;
  for (const DraftPhoto& photo : draft_.photos)
    if (env_.facts(photos() / photo.name).kind != FileKind::file) gone.push_back(photo.name);
  if (gone.empty()) return;
  forget_photos(draft_, gone);  // written with the next change
  warnings_.push_back(
      in_words(messages::kPhotosNoLongerThere, {{"n", gone.size()}, {"names", listed(gone)}}));
}

void DraftFolder::find_strays() {
  if (!env_.exists(photos())) return;
  Draft found = draft_;
  for (const std::string& name : env_.list_folder(photos())) {
    const FileFacts facts = env_.facts(photos() / name);
    if (facts.kind != FileKind::file || facts.bytes > kMaxPhotoBytes || draft_.photo(name) != nullptr)
      continue;
    try {
      if (safe_photo_name(name) != name) continue;
      const Bytes bytes = env_.read_file(photos() / name);
      const LookedAt looked_at = look_at_photo(bytes, name);
      if (found.photo(looked_at.id) != nullptr) continue;
      add_photo(found, {.name = name,
                        .from = name,
                        .id = looked_at.id,
                        .bytes = static_cast<std::int64_t>(bytes.size()),
                        .taken_at = looked_at.taken_at,
                        .notes = {}});
    } catch (const Error&) {  // half a file of a program that was killed: it is sent again
    }
  }
  draft_ = std::move(found);
}

void DraftFolder::begin() {
  for (const fs::path& one : {photos(), sheets()})
    if (!env_.exists(one)) make_folders_durably(env_, one);
}

void DraftFolder::save(const Draft& draft) {
  begin();
  const std::string text =
      nlohmann::json(draft).dump(1, ' ', false, nlohmann::json::error_handler_t::replace);
  write_file_durably(env_, folder_ / kDraft, std::as_bytes(std::span(text)));
}

void DraftFolder::change(const std::function<void(Draft&)>& act) {
  Draft next = draft_;
  act(next);
  save(next);
  draft_ = std::move(next);
}

Arrival DraftFolder::add(BytesView bytes, const std::string& from, const LookedAt& looked_at,
                         std::int64_t modified_ms) {
  if (const DraftPhoto* known = draft_.photo(looked_at.id)) return {known->name, true};
  const std::string name = free_name(draft_, safe_photo_name(from));
  Draft next = draft_;
  add_photo(next, {.name = name,
                   .from = from,
                   .id = looked_at.id,
                   .bytes = static_cast<std::int64_t>(bytes.size()),
                   .modified_ms = modified_ms,
                   .taken_at = looked_at.taken_at,
                   .notes = {}});
  begin();
  const fs::path file = photos() / name;
  try {
    write_file_durably(env_, file, bytes);
    save(next);
  } catch (...) {
    try {
      env_.remove(file);
    } catch (const Error&) {  // found again at the next start
    }
    throw;
  }
  draft_ = std::move(next);
  return {name, false};
}

Bytes DraftFolder::read(const DraftPhoto& photo) const {
  if (env_.facts(photos() / photo.name).kind != FileKind::file)
    throw Error(ErrorKind::not_found, photo_item(in_quotes(photo.name)), messages::kPhotoIsGone,
                messages::kDropItAgain);
  return env_.read_file(photos() / photo.name);
}

fs::path DraftFolder::write_sheet(const std::string& name, const std::string& csv) {
  begin();
  const fs::path file = sheets() / name;
  write_file_durably(env_, file, std::as_bytes(std::span(csv)));
  return file;
}

void DraftFolder::forget_taken(Catalogue& catalogue) {
  std::vector<std::string> taken;
  for (const DraftPhoto& photo : draft_.photos)
    if (!photo.left_out && !catalogue.captures_with_photo(photo.id).empty()) taken.push_back(photo.name);
  // First out of the draft, then off the disk: killed between the two, the photos are found again, and the
  // next intake says that the catalogue has them.
  change([&](Draft& draft) {
    forget_photos(draft, taken);
    set_nothing_caught(draft, false);
    draft.common.clear();  // the catalogue proposes them now
  });
  for (const std::string& name : taken) env_.remove(photos() / name);
}

void DraftFolder::remove(const std::vector<std::string>& names) {
  for (const std::string& name : names)
    if (const DraftPhoto* photo = draft_.photo(name); photo != nullptr && !photo->left_out)
      throw Error(ErrorKind::conflict, photo_item(in_quotes(name)), messages::kPhotoOnCapture,
                  messages::kLeaveItOutFirst);
  change([&](Draft& draft) { forget_photos(draft, names); });
  for (const std::string& name : names) env_.remove(photos() / name);
}

}  // namespace evet
