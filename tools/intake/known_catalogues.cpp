#include "tools/intake/known_catalogues.h"

#include <pwd.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/catalogue.h"
#include "tools/intake/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
constexpr std::size_t kMostListed = 200;
constexpr std::size_t kLargestList = 1U << 20;
constexpr const char* kDatabase = "catalogue.sqlite";

std::string variable(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string() : std::string(value);
}

std::vector<fs::path> listed_folders(const CatalogueHomes& homes, Env& env) {
  std::vector<fs::path> out;
  try {
    const FileFacts facts = env.facts(homes.list);
    if (facts.kind != FileKind::file || facts.bytes > kLargestList) return out;
    const Bytes bytes = env.read_file(homes.list);
    const auto* text = reinterpret_cast<const char*>(bytes.data());
    const auto json = nlohmann::json::parse(text, text + bytes.size(), nullptr, false);
    if (!json.is_object() || !json.contains("catalogues") || !json["catalogues"].is_array()) return out;
    for (const auto& one : json["catalogues"])
      if (one.is_string() && out.size() < kMostListed) out.emplace_back(one.get<std::string>());
  } catch (const Error&) {  // then only what lies in the usual folder is known
  }
  return out;
}

bool is_catalogue(const fs::path& folder, Env& env) {
  try {
    return env.facts(folder / kDatabase).kind == FileKind::file;
  } catch (const Error&) {
    return false;
  }
}

KnownCatalogue looked_at(const fs::path& folder, Env& env) {
  KnownCatalogue known{.id = sha256_hex(folder.string()).substr(0, 16),
                       .folder = folder,
                       .title = {},
                       .trouble = {},
                       .last_night = {}};
  try {
    Catalogue catalogue = Catalogue::open(folder, env, {.access = Access::read});
    known.title = catalogue.title();
    const auto& captures = catalogue.identities().captures;
    if (!captures.empty()) known.last_night = captures.back().facts.night;
  } catch (const Error& error) {
    known.trouble = error.what();
  } catch (const std::exception&) {
    known.trouble = in_words(messages::kCannotBeOpenedAudit);
  }
  if (known.title.empty()) known.title = folder.filename().string();
  try {
    const fs::path photos = folder / "incoming" / "photos";
    known.evening_waits = env.facts(photos).kind == FileKind::folder && !env.list_folder(photos).empty();
  } catch (const Error&) {
  }
  return known;
}

}  // namespace

CatalogueHomes catalogue_homes() {
  if (const std::string own = variable("EVET_HOME"); !own.empty())
    return {own, fs::path(own) / "catalogues.json"};
  fs::path home = variable("HOME");
  if (home.empty())
    if (const passwd* entry = ::getpwuid(::geteuid()); entry != nullptr && entry->pw_dir != nullptr)
      home = entry->pw_dir;
  if (home.empty())
    throw Error(ErrorKind::not_found, in_words(messages::kTheUsersFolder), messages::kNoHome,
                messages::kSetHome);
  const std::string state = variable("XDG_STATE_HOME");
  return {home / "evet",
          (state.empty() ? home / ".local" / "state" : fs::path(state)) / "evet" / "catalogues.json"};
}

fs::path own_databases_list() {
  try {
    return catalogue_homes().list.parent_path() / "databases.txt";
  } catch (const Error&) {
    return {};
  }
}

std::vector<KnownCatalogue> known_catalogues(const CatalogueHomes& homes, Env& env) {
  std::vector<fs::path> folders = listed_folders(homes, env);
  try {
    if (env.facts(homes.catalogues).kind == FileKind::folder)
      for (const std::string& name : env.list_folder(homes.catalogues))
        folders.push_back(homes.catalogues / name);
  } catch (const Error&) {
  }
  std::vector<KnownCatalogue> out;
  for (const fs::path& folder : folders) {
    const bool again =
        std::any_of(out.begin(), out.end(), [&](const KnownCatalogue& one) { return one.folder == folder; });
    if (!again && out.size() < kMostListed && is_catalogue(folder, env))
      out.push_back(looked_at(folder, env));
  }
  return out;
}

void remember_catalogue(const CatalogueHomes& homes, const fs::path& folder, Env& env) {
  try {
    const fs::path whole = fs::absolute(folder).lexically_normal();
    const fs::path plain = whole.has_filename() ? whole : whole.parent_path();
    std::vector<std::string> list{plain.string()};
    for (const fs::path& one : listed_folders(homes, env))
      if (one != plain && list.size() < kMostListed) list.push_back(one.string());
    make_folders_durably(env, homes.list.parent_path());
    const std::string text =
        nlohmann::json{{"catalogues", list}}.dump(1, ' ', false, nlohmann::json::error_handler_t::replace);
    write_file_durably(env, homes.list, std::as_bytes(std::span(text)));
  } catch (const std::exception&) {
  }
}

void remember_catalogue(const fs::path& folder, Env& env) {
  try {
    remember_catalogue(catalogue_homes(), folder, env);
  } catch (const Error&) {
  }
}

fs::path folder_for_title(const CatalogueHomes& homes, const std::string& title, Env& env) {
  std::string name;
  for (const char c : lower_ascii(title)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    const bool letter = (static_cast<unsigned char>(c) & 0x80) != 0;  // part of a letter beyond ASCII
    if (plain || letter)
      name += c;
    else if (!name.empty() && name.back() != '-')
      name += '-';
  }
  while (!name.empty() && name.back() == '-') name.pop_back();
  constexpr std::size_t kLongest = 80;
  if (name.empty() || name.size() > kLongest)
    throw Error(ErrorKind::bad_input, in_words(messages::kTheNameItem, {{"name", in_quotes(title)}}),
                messages::kNoNameForFolder, messages::kGiveLetters);
  fs::path folder = homes.catalogues / name;
  if (env.exists(folder))
    throw Error(ErrorKind::conflict, in_words(messages::kTheFolderItem, {{"folder", folder.string()}}),
                messages::kIsThereAlready, messages::kOpenItOrRename);
  return folder;
}

}  // namespace evet
