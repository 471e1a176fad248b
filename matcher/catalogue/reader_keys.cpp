#include "matcher/catalogue/reader_keys.h"

#include <spdlog/spdlog.h>

#include <cctype>
#include <cstdlib>

#include "matcher/base/error.h"
#include "matcher/base/printable.h"
#include "matcher/base/sha256.h"
#include "matcher/base/uuid.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

constexpr size_t kLargestKeyFile = 4096;

std::string file_name(const Actor& actor) {
  if (actor.kind == ActorKind::program) return "device.pem";
  std::string name;
  for (const unsigned char c : actor.name)
    name += std::isalnum(c) != 0 && c < 0x80 ? std::string(1, static_cast<char>(c)) : "_";
  // Codes that differ in what was replaced, or in nothing but case, are still two.
  return "reader-" + name.substr(0, 40) + "-" + sha256_hex(actor.name).substr(0, 8) + ".pem";
}

std::string read_text(Env& env, const fs::path& file) {
  const Bytes bytes = env.read_start(file, kLargestKeyFile);
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

// Of two who make the same key at once the first makes it, and the other reads it.
void make_key(Env& env, const fs::path& file) {
  SigningKey::Seed seed;
  env.fill_random(seed);
  const std::string pem = SigningKey::of_seed(seed).pem();
  make_folders_durably(env, file.parent_path());
  fs::permissions(file.parent_path(), fs::perms::owner_all);
  const fs::path part = file.string() + ".part-" + uuid7(system_env());
  try {
    env.write_file(part, BytesView(reinterpret_cast<const std::byte*>(pem.data()), pem.size()));
    fs::permissions(part, fs::perms::owner_read | fs::perms::owner_write);
    env.sync_file(part);
    env.rename_new(part, file);
  } catch (const Error& error) {
    env.remove(part);
    if (error.kind() != ErrorKind::conflict) throw;
  }
  env.sync_folder(file.parent_path());
}

}  // namespace

ReaderKeys::ReaderKeys(Env& env, fs::path folder) : env_(&env), folder_(std::move(folder)) {}

const SigningKey& ReaderKeys::key_of(const Actor& actor) {
  const Actor whose{actor.kind, actor.kind == ActorKind::person ? actor.name : ""};
  if (const auto at = keys_.find(whose); at != keys_.end()) return at->second;
  const fs::path file = folder_ / file_name(whose);
  if (env_->facts(file).kind == FileKind::none) {
    make_key(*env_, file);
    if (whose.kind == ActorKind::person)
      spdlog::info(Message(messages::kSigningKeyMade,
                           {{"who", printable(whose.name)}, {"file", printable(file.string())}})
                       .words());
  }
  return keys_.emplace(whose, SigningKey::of_pem(read_text(*env_, file), file.string())).first->second;
}

std::optional<Signature> ReaderKeys::sign(const Actor& actor, const std::string& text) {
  const std::lock_guard lock(mutex_);
  std::string why;
  try {
    const SigningKey& key = key_of(actor);
    return Signature{key.public_key(), key.sign(text)};
  } catch (const Error& error) {
    why = error.what();
  } catch (const fs::filesystem_error& error) {
    why = error.what();
  }
  if (!told_) spdlog::warn(Message(messages::kKeptUnsigned, {{"why", printable(why)}}).words());
  told_ = true;
  return std::nullopt;
}

fs::path usual_keys_folder() {
  const auto set = [](const char* name) {
    const char* value = std::getenv(name);
    return fs::path(value == nullptr ? "" : value);
  };
  if (const fs::path named = set("EVET_KEYS"); !named.empty()) return named;
  if (const fs::path data = set("XDG_DATA_HOME"); data.is_absolute()) return data / "evet" / "keys";
  if (const fs::path home = set("HOME"); home.is_absolute()) return home / ".local/share/evet/keys";
  return {};
}

}  // namespace evet
