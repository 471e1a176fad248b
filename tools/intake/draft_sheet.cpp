#include "tools/intake/draft_sheet.h"

#include <algorithm>
#include <charconv>
#include <cstdio>

#include "matcher/base/moment.h"
#include "matcher/catalogue/known_nights.h"
#include "tools/intake/sheet.h"

namespace evet {
namespace {

// RFC 4180. Not csv_field(): what a person wrote has to come out of the sheet letter by letter.
std::string field(const std::string& text) {
  if (text.find_first_of("\",;\r\n\t") == std::string::npos && !text.starts_with(' ') && !text.ends_with(' '))
    return text;
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? "\"\"" : std::string(1, c);
  return out + '"';
}

std::string number_text(double value) {
  char text[40];
  const auto [end, status] = std::to_chars(text, text + sizeof text, value);
  return {text, end};
}

// The number of "c7"; 0 for another label.
int number_of(const std::string& label) {
  int number = 0;
  if (label.size() < 2 || label.size() > 6 || label[0] != 'c') return 0;
  const auto [end, status] = std::from_chars(label.data() + 1, label.data() + label.size(), number);
  return status == std::errc() && end == label.data() + label.size() ? number : 0;
}

// A clock that was never set says nothing of the night: it began at the camera's making, or before.
std::string likely_night(const std::string& taken_at, const std::string& today) {
  const std::string night = night_of(taken_at);
  return night > today || night < "2001" ? std::string() : night;
}

std::string night_of_capture(const Draft& draft, const DraftCapture& capture, const std::string& today) {
  for (const std::string& name : capture.photos)
    if (std::string night = likely_night(draft.photo(name)->taken_at, today); !night.empty()) return night;
  return {};
}

void propose_nights(const Draft& draft, const std::string& today, Proposed& out) {
  std::map<std::string, int> nights;
  for (const DraftCapture& capture : draft.captures)
    if (const std::string night = night_of_capture(draft, capture, today); !night.empty()) ++nights[night];
  std::string& common = out.common["night"] = today;
  int most = 0;
  for (const auto& [night, count] : nights)
    if (count > most) common = night, most = count;
  for (const DraftCapture& capture : draft.captures)
    if (const std::string night = night_of_capture(draft, capture, today); !night.empty() && night != common)
      out.captures[capture.key]["night"] = night;
}

// The last night that was worked, with a catch or without one.
void propose_as_last_night(Catalogue& catalogue, const std::vector<CaptureState>& captures, Cells& common) {
  const std::vector<NightIntake::Visit> visits = visits_of(catalogue);  // by night
  if (visits.empty()) return;
  NightIntake::Visit last = visits.back();
  const CaptureFacts* caught = captures.empty() ? nullptr : &captures.back().facts;
  if (caught != nullptr && caught->night == last.night) last = {caught->site, caught->pond, caught->night};
  // The way of working and whose licence it is stay as they were; weather and hours do not.
  const NightFacts facts = night_facts_of(catalogue, last);
  common["site"] = last.site, common["pond"] = last.pond;
  common["method"] = facts.method, common["effort_unit"] = facts.effort_unit;
  common["holder"] = facts.holder;
  common["licence"] = facts.licence, common["observer"] = facts.observers;
  std::optional<double> latitude = facts.latitude, longitude = facts.longitude;
  if (caught != nullptr) {
    // Where the night itself does not say, the captures do, of that night or of the one before it.
    const bool same_night = caught->night == last.night;
    if (same_night || common["licence"].empty()) common["licence"] = caught->licence;
    if (same_night || common["observer"].empty()) common["observer"] = caught->observer;
    const auto there = std::find_if(captures.rbegin(), captures.rend(), [&](const CaptureState& one) {
      return one.facts.site == last.site && one.facts.pond == last.pond && one.facts.latitude;
    });
    if (there != captures.rend()) latitude = there->facts.latitude, longitude = there->facts.longitude;
  }
  if (latitude && longitude)
    common["latitude"] = number_text(*latitude), common["longitude"] = number_text(*longitude);
}

}  // namespace

Proposed proposed_for(const Draft& draft, Catalogue& catalogue, const std::string& observer,
                      const std::string& today) {
  Proposed out;
  propose_nights(draft, today, out);
  const std::vector<CaptureState> captures = catalogue.identities().captures;  // by night
  propose_as_last_night(catalogue, captures, out.common);
  if (!observer.empty()) out.common["observer"] = observer;
  const std::string night = cell_of(draft, out, {}, "night");
  for (const CaptureState& capture : captures)
    if (capture.facts.night == night)
      out.first_number = std::max(out.first_number, number_of(capture.facts.name) + 1);
  return out;
}

std::string cell_of(const Draft& draft, const Proposed& proposed, const std::string& key,
                    const std::string& column) {
  const auto found = [&](const Cells& cells) {
    const auto at = cells.find(column);
    return at == cells.end() ? nullptr : &at->second;
  };
  if (const DraftCapture* capture = draft.capture(key); capture != nullptr)
    if (const std::string* own = found(capture->cells)) return *own;
  if (const std::string* common = found(draft.common)) return *common;
  if (const auto at = proposed.captures.find(key); at != proposed.captures.end())
    if (const std::string* own = found(at->second)) return *own;
  const std::string* common = found(proposed.common);
  return common == nullptr ? std::string() : *common;
}

std::string label_of(const Draft& draft, const Proposed& proposed, const std::string& key) {
  int number = proposed.first_number;
  for (const DraftCapture& capture : draft.captures) {
    if (capture.key == key) {
      const auto own = capture.cells.find("capture");
      return own != capture.cells.end() ? own->second : "c" + std::to_string(number);
    }
    ++number;
  }
  return {};
}

DraftSheet sheet_of(const Draft& draft, const Proposed& proposed) {
  DraftSheet out;
  const auto& columns = sheet_columns();
  for (std::size_t i = 0; i < columns.size(); ++i) out.csv += (i > 0 ? "," : "") + columns[i];
  out.csv += '\n';
  const auto write = [&](const DraftCapture& capture, const std::string& photo) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const std::string& column = columns[i];
      if (i > 0) out.csv += ',';
      if (column == "photo")
        out.csv += field(photo.empty() ? "none" : photo);
      else if (column == "capture")
        out.csv += photo.empty() ? "" : field(label_of(draft, proposed, capture.key));
      else
        out.csv += field(cell_of(draft, proposed, capture.key, column));
    }
    out.csv += '\n';
    out.rows.push_back({capture.key, photo});
  };
  for (const DraftCapture& capture : draft.captures) {
    if (capture.nothing_caught) write(capture, {});
    for (const std::string& photo : capture.photos) write(capture, photo);
  }
  return out;
}

std::string sheet_name(const Draft& draft, const Proposed& proposed) {
  const std::string night = cell_of(draft, proposed, {}, "night");
  return (is_date(night) ? night : "evening") + ".csv";
}

}  // namespace evet
