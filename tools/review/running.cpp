#include "tools/review/running.h"

#include <httplib.h>

#include <nlohmann/json.hpp>
#include <span>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"
#include "matcher/base/write_durably.h"

namespace evet::review {
namespace {

namespace fs = std::filesystem;
constexpr std::size_t kLongestRunningNote = 400;

// A folder of its own, since a file is made before its rights can be taken away.
fs::path note_of(const CatalogueHomes& homes) {
  return homes.list.parent_path() / "page" / "address";
}

std::string read_note(const fs::path& file, Env& env) {
  try {
    const FileFacts facts = env.facts(file);
    if (facts.kind != FileKind::file || facts.bytes > kLongestRunningNote) return {};
    const Bytes bytes = env.read_file(file);
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
  } catch (const Error&) {
    return {};
  }
}

struct Address {
  std::string origin, token;  // "http://127.0.0.1:8737"
  int port = 0;
};
std::optional<Address> address_in(const std::string& url) {
  constexpr std::string_view kHttp = "http://", kToken = "/?t=";
  const std::size_t token = url.find(kToken);
  const std::size_t colon = url.rfind(':', token);
  if (!url.starts_with(kHttp) || token == std::string::npos || colon < kHttp.size()) return std::nullopt;
  const std::string port = url.substr(colon + 1, token - colon - 1);
  if (port.empty() || port.size() > 5 || port.find_first_not_of("0123456789") != std::string::npos)
    return std::nullopt;
  return Address{url.substr(0, token), url.substr(token + kToken.size()), std::stoi(port)};
}

}  // namespace

RunningNote::RunningNote(const CatalogueHomes& homes, Env& env, std::string url)
    : file_(note_of(homes)), env_(env), url_(std::move(url)) {
  try {
    make_folders_durably(env_, file_.parent_path());
    fs::permissions(file_.parent_path(), fs::perms::owner_all);
    write_file_durably(env_, file_, std::as_bytes(std::span(url_)));
  } catch (const std::exception&) {
  }
}

RunningNote::~RunningNote() {
  try {
    if (read_note(file_, env_) == url_) env_.remove(file_);  // or it is that of a page begun later
  } catch (const std::exception&) {
  }
}

std::optional<std::string> window_of_running_page(const CatalogueHomes& homes, Env& env) {
  const auto address = address_in(read_note(note_of(homes), env));
  if (!address) return std::nullopt;
  httplib::Client client(address->origin);
  client.set_connection_timeout(1);
  client.set_read_timeout(1);
  const httplib::Headers headers{{"Cookie", "evet_" + std::to_string(address->port) + "=" + address->token},
                                 {"Origin", address->origin},
                                 {"X-Evet-Guard", sha256_hex("write " + address->token)}};
  const auto answer = client.Post("/api/window", headers, "{}", "application/json");
  if (!answer || answer->status != 200) return std::nullopt;
  const auto json = nlohmann::json::parse(answer->body, nullptr, false);
  if (!json.is_object() || !json.contains("url") || !json["url"].is_string()) return std::nullopt;
  std::string url = json["url"].get<std::string>();
  if (!url.starts_with(address->origin + "/?t=")) return std::nullopt;
  return url;
}

}  // namespace evet::review
