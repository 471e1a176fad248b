#include "tools/intake/photo_files.h"

#include <utf8proc.h>

#include <algorithm>
#include <cstdlib>
#include <memory>

#include "matcher/base/error.h"
#include "tools/intake/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

std::string folder_part(const std::string& photo) {
  const std::size_t slash = photo.rfind('/');
  return slash == std::string::npos ? std::string() : photo.substr(0, slash);
}
std::string name_part(const std::string& photo) {
  const std::size_t slash = photo.rfind('/');
  return slash == std::string::npos ? photo : photo.substr(slash + 1);
}
std::string joined(const std::string& folder, const std::string& name) {
  return folder.empty() ? name : folder + "/" + name;
}
std::string digits_of(const std::string& name) {
  std::string out;
  for (const char c : name)
    if (c >= '0' && c <= '9') out += c;
  return out;
}
std::string stem(const std::string& name) {
  return fs::path(name).stem().string();
}

}  // namespace

std::string folded_name(const std::string& name) {
  utf8proc_uint8_t* out = nullptr;
  const auto options = static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_CASEFOLD);
  const utf8proc_ssize_t size = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(name.data()),
                                             static_cast<utf8proc_ssize_t>(name.size()), &out, options);
  const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> held(out, &std::free);
  if (size < 0) return lower_ascii(name);  // no UTF-8: only its ASCII letters can be folded
  return {reinterpret_cast<const char*>(out), static_cast<std::size_t>(size)};
}

PhotoFiles::PhotoFiles(const Sheet& sheet, const fs::path& folder, Env& env)
    : plain_(messages::kCheckNameAndFolder, {{"folder", folder.string()}}) {
  std::set<std::string> folders{""};
  for (const SheetRow& row : sheet.rows) folders.insert(folder_part(row.photo)), named_.insert(row.photo);
  for (const std::string& one : folders) try {
      const fs::path path = one.empty() ? folder : folder / one;
      if (env.facts(path).kind != FileKind::none && env.exists(path)) names_[one] = env.list_folder(path);
    } catch (const Error&) {  // reading the photo says what is wrong
    }
}

const std::vector<std::string>& PhotoFiles::names_in(const std::string& folder) const {
  static const std::vector<std::string> none;
  const auto at = names_.find(folder);
  return at == names_.end() ? none : at->second;
}

bool PhotoFiles::is_there(const std::string& photo) const {
  const auto& names = names_in(folder_part(photo));
  return std::find(names.begin(), names.end(), name_part(photo)) != names.end();
}

std::string PhotoFiles::same_name(const std::string& photo) const {
  const std::string folder = folder_part(photo), folded = folded_name(name_part(photo));
  std::string found;
  for (const std::string& name : names_in(folder)) {
    if (folded_name(name) != folded) continue;
    if (!found.empty()) return {};
    found = joined(folder, name);
  }
  return named_.contains(found) ? std::string() : found;
}

Message PhotoFiles::meant_instead(const std::string& photo) const {
  const std::string folder = folder_part(photo), name = name_part(photo);
  std::vector<std::string> same_stem, near;
  for (const std::string& other : names_in(folder)) {
    if (named_.contains(joined(folder, other))) continue;  // that is another row's photo
    if (folded_name(stem(other)) == folded_name(name) ||
        folded_name(stem(other)) == folded_name(stem(name)) || folded_name(other) == folded_name(name))
      same_stem.push_back(other);
    // Another number is another photo.
    if (digits_of(stem(other)) == digits_of(stem(name))) near.push_back(other);
  }
  if (same_stem.size() == 1) return {messages::kDidYouMean, {{"meant", in_quotes(same_stem.front())}}};
  if (same_stem.size() > 1) {
    std::vector<std::string> quoted_names;
    for (std::size_t i = 0; i < std::min<std::size_t>(same_stem.size(), 4); ++i)
      quoted_names.push_back(in_quotes(same_stem[i]));
    return {messages::kWhichIsMeant, {{"names", listed(quoted_names, messages::kOrTheLast)}}};
  }
  if (const auto one = near_miss(name, near)) return {messages::kDidYouMean, {{"meant", in_quotes(*one)}}};
  return plain_;
}

std::vector<Message> find_photo_files(Sheet& sheet, const fs::path& folder, Env& env) {
  const PhotoFiles files(sheet, folder, env);
  std::vector<Message> notices;
  for (SheetRow& row : sheet.rows) {
    if (files.is_there(row.photo)) continue;
    const std::string found = files.same_name(row.photo);
    if (found.empty()) continue;
    notices.push_back({messages::kPlacedNotice,
                       {{"where", at_photo(row.line, row.photo)},
                        {"what", Message(messages::kTakenToBeFile, {{"name", in_quotes(found)}})}}});
    row.photo = found;
    sheet.named.insert(found);
  }
  for (SheetCapture& capture : sheet.captures)
    if (!capture.rows.empty()) capture.facts.photo = sheet.rows[capture.rows.front()].photo;
  return notices;
}

}  // namespace evet
