#include "matcher/catalogue/signature.h"

#include <algorithm>
#include <atomic>
#include <nlohmann/json.hpp>

#include "matcher/base/ed25519.h"
#include "matcher/base/error.h"
#include "matcher/catalogue/canonical_json.h"

namespace evet {
namespace {

using Json = nlohmann::json;

constexpr const char* kField = "signed";
std::atomic<Signer*> used{nullptr};

// What is signed: the purpose, so that it can be no signature of anything else, and the hash without itself.
std::string text_to_sign(const Entry& entry, Json body) {
  body.erase(kField);
  Entry bare = entry;
  bare.body = canonical_json(body);
  return "evet ledger entry " + hash_of(bare);
}

std::string who_said(const Entry& entry) {
  return entry.actor.kind == ActorKind::person ? entry.actor.name : "device " + entry.device.value;
}

std::string text_in(const Json& object, const char* key) {
  const auto at = object.find(key);
  return at != object.end() && at->is_string() ? at->get<std::string>() : std::string();
}

// The body, and the signature that it says it has, whatever that is worth.
std::pair<Json, std::optional<Signature>> claim_in(const Entry& entry) {
  if (entry.body.find("\"signed\"") == std::string::npos) return {};
  Json body;
  try {
    body = read_json(entry.body);
  } catch (const std::exception&) {  // told elsewhere
    return {};
  }
  if (!body.is_object() || !body.contains(kField)) return {};
  const Json claim = body[kField];
  if (!claim.is_object()) return {std::move(body), Signature{}};
  return {std::move(body), Signature{text_in(claim, "key"), text_in(claim, "signature")}};
}

}  // namespace

Signer* Signer::in_use() {
  return used;
}
void Signer::use(Signer* signer) {
  used = signer;
}

std::optional<std::string> sign(Entry& entry) {
  Signer* signer = Signer::in_use();
  if (signer == nullptr) return std::nullopt;
  Json body = read_json(entry.body);
  const auto signature = signer->sign(entry.actor, text_to_sign(entry, body));
  if (!signature) return std::nullopt;
  body[kField] = {{"key", signature->key}, {"signature", signature->value}};
  entry.body = canonical_json(body);
  return signature->key;
}

Signed signing_of(const Entry& entry) {
  const auto [body, claim] = claim_in(entry);
  if (!claim) return {};
  const bool fits = signature_fits(claim->key, text_to_sign(entry, body), claim->value);
  return {fits ? Signing::fits : Signing::broken, claim->key};
}
Signed signing_claimed(const Entry& entry) {
  const auto claim = claim_in(entry).second;
  return claim ? Signed{Signing::fits, claim->key} : Signed{};
}

void KeyUses::take(const Entry& entry, const Signed& found) {
  const std::string who = who_said(entry);
  if (found.how != Signing::fits) {
    ++unsigned_;
    if (entry.actor.kind == ActorKind::person) readers_[who].without.push_back(entry.id);
    return;
  }
  KeyUse& use = readers_[who].keys[found.key];
  if (use.entries++ == 0 || entry.id < use.first)
    use.who = who, use.key = found.key, use.first = entry.id, use.first_time = entry.time;
}

std::vector<KeyUse> KeyUses::all() const {
  std::vector<KeyUse> uses;
  for (const auto& [who, reader] : readers_)
    for (const auto& [key, use] : reader.keys) uses.push_back(use);
  std::sort(uses.begin(), uses.end(), [](const KeyUse& a, const KeyUse& b) {
    return std::tie(a.who, a.first) < std::tie(b.who, b.first);
  });
  return uses;
}

std::map<std::string, size_t> KeyUses::unsigned_since() const {
  std::map<std::string, size_t> found;
  for (const auto& [who, reader] : readers_) {
    if (reader.keys.empty()) continue;
    EntryId first = reader.keys.begin()->second.first;
    for (const auto& [key, use] : reader.keys) first = std::min(first, use.first);
    const auto since = std::count_if(reader.without.begin(), reader.without.end(),
                                     [&](const EntryId& id) { return first < id; });
    if (since > 0) found[who] = static_cast<size_t>(since);
  }
  return found;
}

std::vector<KeyUse> new_keys(const KeyUses& all, const KeyUses& known) {
  const std::vector<KeyUse> before = known.all();
  std::vector<KeyUse> fresh;
  for (const KeyUse& use : all.all())
    if (std::none_of(before.begin(), before.end(),
                     [&](const KeyUse& old) { return old.who == use.who && old.key == use.key; }))
      fresh.push_back(use);
  return fresh;
}

std::string key_words(const std::string& key) {
  std::string words;
  constexpr size_t kShown = 16, kWord = 4;
  for (size_t i = 0; i < kShown && i < key.size(); ++i) {
    if (i > 0 && i % kWord == 0) words += ' ';
    words += key[i];
  }
  return words;
}

}  // namespace evet
