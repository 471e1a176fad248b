#include "tools/intake/draft.h"

#include <algorithm>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/utf8.h"
#include "tools/intake/messages.h"
#include "tools/intake/sheet.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet {
namespace {

constexpr std::size_t kLongestName = 100;
constexpr int kLongestGapSeconds = 3600;

DraftPhoto& known_photo(Draft& draft, const std::string& name) {
  for (DraftPhoto& photo : draft.photos)
    if (photo.name == name) return photo;
  throw Error(ErrorKind::not_found, photo_item(in_quotes(name)), messages::kNotOfThisEvening);
}

DraftCapture* capture_of(Draft& draft, const std::string& key) {
  for (DraftCapture& capture : draft.captures)
    if (capture.key == key) return &capture;
  return nullptr;
}
DraftCapture& known_capture(Draft& draft, const std::string& key) {
  if (DraftCapture* found = capture_of(draft, key)) return *found;
  throw Error(ErrorKind::not_found, capture_item(in_quotes(key)), messages::kNotOfThisEvening);
}

std::string fresh_key(Draft& draft) {
  return "k" + std::to_string(draft.next_key++);
}

bool kept(const DraftCapture& capture) {
  return capture.by_hand || capture.nothing_caught || !capture.cells.empty();
}

void take_from_captures(Draft& draft, const std::set<std::string>& photos) {
  for (DraftCapture& capture : draft.captures)
    if (std::erase_if(capture.photos, [&](const std::string& name) { return photos.contains(name); }) > 0)
      capture.by_hand = true;
}

// Of the captures that a person has put a hand on: the one whose photo is nearest in time, within the gap.
DraftCapture* nearest_kept(Draft& draft, const std::string& time) {
  const long long at = clock_seconds(time);
  DraftCapture* nearest = nullptr;
  long long least = draft.gap_seconds + 1LL;
  if (at < 0) return nullptr;
  for (DraftCapture& capture : draft.captures)
    for (const std::string& name : capture.photos) {
      const long long other = clock_seconds(draft.photo(name)->taken_at);
      if (!kept(capture) || other < 0 || std::llabs(other - at) >= least) continue;
      nearest = &capture, least = std::llabs(other - at);
    }
  return nearest;
}

void order(Draft& draft) {
  const auto earliest = [&](const DraftCapture& capture) {
    TakenAt first;
    for (const std::string& name : capture.photos) {
      const std::string& time = draft.photo(name)->taken_at;
      if (first.photo.empty() || (!time.empty() && (first.time.empty() || time < first.time)))
        first = {name, time};
    }
    return first;
  };
  for (DraftCapture& capture : draft.captures)
    std::sort(capture.photos.begin(), capture.photos.end(), [&](const auto& a, const auto& b) {
      const std::string &x = draft.photo(a)->taken_at, &y = draft.photo(b)->taken_at;
      return x != y ? x < y : counted_before(a, b);
    });
  std::stable_sort(draft.captures.begin(), draft.captures.end(),
                   [&](const DraftCapture& a, const DraftCapture& b) {
                     const TakenAt x = earliest(a), y = earliest(b);
                     if (x.time.empty() != y.time.empty()) return y.time.empty();
                     return x.time != y.time ? x.time < y.time : counted_before(x.photo, y.photo);
                   });
}

// Everything that no person has put a hand on, by time; keys stay where the first photo does.
void gather(Draft& draft) {
  std::map<std::string, std::string> key_of;  // photo -> its capture's key so far
  std::set<std::string> in_kept;
  for (const DraftCapture& capture : draft.captures)
    for (const std::string& name : capture.photos) {
      key_of[name] = capture.key;
      if (kept(capture)) in_kept.insert(name);
    }
  std::erase_if(draft.captures, [](const DraftCapture& capture) { return !kept(capture); });
  std::erase_if(draft.captures, [](const DraftCapture& capture) {
    return capture.photos.empty() && !capture.nothing_caught;
  });
  std::vector<TakenAt> loose;
  for (const DraftPhoto& photo : draft.photos) {
    if (photo.left_out || in_kept.contains(photo.name)) continue;
    loose.push_back({photo.name, photo.taken_at});
  }
  // Those near a kept capture join it, the rest are gathered among themselves.
  std::vector<TakenAt> rest;
  std::vector<std::pair<std::string, std::string>> joining;  // key, photo
  for (const TakenAt& photo : loose) {
    if (const DraftCapture* near = nearest_kept(draft, photo.time); near != nullptr && !near->nothing_caught)
      joining.emplace_back(near->key, photo.photo);
    else
      rest.push_back(photo);
  }
  for (const auto& [key, photo] : joining) capture_of(draft, key)->photos.push_back(photo);
  std::set<std::string> used;
  for (const DraftCapture& capture : draft.captures) used.insert(capture.key);
  for (std::vector<std::string>& group : groups_by_time(std::move(rest), draft.gap_seconds)) {
    std::string key = key_of[group.front()];
    if (key.empty() || !used.insert(key).second) key = fresh_key(draft);
    draft.captures.push_back({.key = key, .photos = std::move(group), .cells = {}});
  }
  order(draft);
}

template <class Act>
void change(Draft& draft, const Act& act) {
  Draft next = draft;
  act(next);
  ++next.revision;
  draft = std::move(next);
}

}  // namespace

const DraftPhoto* Draft::photo(const std::string& name) const {
  for (const DraftPhoto& one : photos)
    if (one.name == name) return &one;
  return nullptr;
}
const DraftPhoto* Draft::photo(const PhotoId& id) const {
  for (const DraftPhoto& one : photos)
    if (one.id == id) return &one;
  return nullptr;
}
const DraftCapture* Draft::capture(const std::string& key) const {
  for (const DraftCapture& one : captures)
    if (one.key == key) return &one;
  return nullptr;
}

void add_photo(Draft& draft, DraftPhoto photo) {
  if (draft.photos.size() >= kMostDraftPhotos)
    throw Error(ErrorKind::too_large, in_words(messages::kTheEvening),
                Message(messages::kEveningIsFull, {{"most_draft_photos", std::to_string(kMostDraftPhotos)}}),
                messages::kTakeTheseInFirst);
  if (draft.photo(photo.name) != nullptr || draft.photo(photo.id) != nullptr)
    throw Error(ErrorKind::conflict, photo_item(in_quotes(photo.name)), messages::kIsThereAlready);
  change(draft, [&](Draft& next) {
    next.photos.push_back(std::move(photo));
    std::erase_if(next.captures, [](const DraftCapture& capture) { return capture.nothing_caught; });
    gather(next);
  });
}

void set_gap(Draft& draft, int seconds) {
  if (seconds < 1 || seconds > kLongestGapSeconds)
    throw Error(
        ErrorKind::bad_input, in_words(messages::kThePauseBetween),
        Message(messages::kSecondsOutOfRange, {{"seconds", std::to_string(seconds)}}),
        Message(messages::kGiveSecondsUpTo, {{"longest_gap_seconds", std::to_string(kLongestGapSeconds)}}));
  change(draft, [&](Draft& next) {
    next.gap_seconds = seconds;
    gather(next);
  });
}

void move_photos(Draft& draft, const std::vector<std::string>& photos, const std::string& key) {
  change(draft, [&](Draft& next) {
    for (const std::string& name : photos) known_photo(next, name).left_out = false;
    if (!key.empty()) known_capture(next, key);
    if (photos.empty()) return;
    take_from_captures(next, {photos.begin(), photos.end()});
    if (key.empty()) {
      next.captures.push_back({.key = fresh_key(next), .photos = photos, .cells = {}, .by_hand = true});
    } else {
      DraftCapture& to = known_capture(next, key);
      to.photos.insert(to.photos.end(), photos.begin(), photos.end());
      to.by_hand = true;
    }
    gather(next);
  });
}

void leave_out(Draft& draft, const std::vector<std::string>& photos, bool out) {
  change(draft, [&](Draft& next) {
    for (const std::string& name : photos) known_photo(next, name).left_out = out;
    if (out)
      for (DraftCapture& capture : next.captures)
        std::erase_if(capture.photos, [&](const std::string& name) { return next.photo(name)->left_out; });
    gather(next);
  });
}

void forget_photos(Draft& draft, const std::vector<std::string>& photos) {
  change(draft, [&](Draft& next) {
    for (const std::string& name : photos) known_photo(next, name);
    const std::set<std::string> gone(photos.begin(), photos.end());
    for (DraftCapture& capture : next.captures)
      std::erase_if(capture.photos, [&](const std::string& name) { return gone.contains(name); });
    std::erase_if(next.photos, [&](const DraftPhoto& photo) { return gone.contains(photo.name); });
    gather(next);
  });
}

void check_cell(const std::string& column, const std::string& text) {
  const auto& columns = sheet_columns();
  if (column == "photo" || std::find(columns.begin(), columns.end(), column) == columns.end())
    throw Error(ErrorKind::bad_input, in_words(messages::kColumnItem, {{"name", in_quotes(column)}}),
                messages::kNoSuchColumn);
  if (text.size() > kLongestCell || first_not_utf8(text))
    throw Error(ErrorKind::too_large, column,
                Message(messages::kCellTooLong, {{"longest_cell", std::to_string(kLongestCell)}}));
  if (std::any_of(text.begin(), text.end(), [](unsigned char c) { return c < 0x20 || c == 0x7f; }))
    throw Error(ErrorKind::bad_input, column, messages::kCellHoldsControl, messages::kWriteOnOneLine);
}

void write_cell(Draft& draft, const std::string& key, const std::string& column, const std::string& text) {
  check_cell(column, text);
  change(draft, [&](Draft& next) {
    if (key.empty()) {
      next.common[column] = text;
      return;
    }
    Cells& cells = known_capture(next, key).cells;
    if (text.empty())
      cells.erase(column);
    else
      cells[column] = text;
  });
}

void set_nothing_caught(Draft& draft, bool nothing) {
  change(draft, [&](Draft& next) {
    const bool any = std::any_of(next.photos.begin(), next.photos.end(),
                                 [](const DraftPhoto& photo) { return !photo.left_out; });
    if (nothing && any)
      throw Error(ErrorKind::conflict, in_words(messages::kANightWithoutACatch), messages::kEveningHasPhotos,
                  messages::kLeavePhotosOutFirst);
    std::erase_if(next.captures, [](const DraftCapture& capture) { return capture.nothing_caught; });
    if (nothing)
      next.captures.push_back(
          {.key = fresh_key(next), .photos = {}, .cells = {}, .by_hand = false, .nothing_caught = true});
  });
}

std::string safe_photo_name(std::string_view name) {
  std::string out;
  if (const std::size_t slash = name.find_last_of("/\\"); slash != std::string_view::npos)
    name.remove_prefix(slash + 1);
  for (std::string_view left = name; !left.empty();) {
    const CodePoint point = first_code_point(left);
    const std::size_t bytes = std::max<std::size_t>(point.bytes, 1);
    const bool plain = point.bytes > 0 && point.value >= 0x20 && (point.value < 0x7f || point.value > 0xa0);
    // Bidirectional and zero-width signs make one name look like another.
    const bool hidden = (point.value >= 0x200b && point.value <= 0x200f) ||
                        (point.value >= 0x2028 && point.value <= 0x202e) ||
                        (point.value >= 0x2060 && point.value <= 0x206f) || point.value == 0xfeff;
    out += plain && !hidden ? std::string(left.substr(0, bytes)) : std::string("_");
    left.remove_prefix(bytes);
  }
  out.erase(0, out.find_first_not_of(" ."));
  while (!out.empty() && (out.back() == ' ' || out.back() == '.')) out.pop_back();
  if (out.size() > kLongestName) {  // the end names the kind of file, and counts
    out.erase(0, out.size() - kLongestName);
    while (!out.empty() && (static_cast<unsigned char>(out.front()) & 0xc0) == 0x80) out.erase(0, 1);
  }
  if (out.empty() || lower_ascii(out) == "none")
    throw Error(ErrorKind::bad_input, in_words(messages::kFileNameItem, {{"name", in_quotes(name)}}),
                messages::kNoNameForPhoto, messages::kRenameFile);
  return out;
}

std::string free_name(const Draft& draft, const std::string& name) {
  const std::size_t dot = name.rfind('.');
  const std::string stem = name.substr(0, dot), rest = dot == std::string::npos ? "" : name.substr(dot);
  const auto taken = [&](const std::string& one) {
    // Names that differ in letter case alone are one file on some disks.
    return std::any_of(draft.photos.begin(), draft.photos.end(),
                       [&](const DraftPhoto& photo) { return lower_ascii(photo.name) == lower_ascii(one); });
  };
  std::string tried = name;
  for (int i = 2; taken(tried); ++i) tried = stem + " (" + std::to_string(i) + ")" + rest;
  return tried;
}

}  // namespace evet
