// The private keys of this machine's readers, a file each in a folder of the user's own: never in a catalogue,
// which is copied and passed on. A key is made when its reader first signs here; kept keys stay as they are.
#pragma once
#include <filesystem>
#include <map>
#include <mutex>

#include "matcher/base/ed25519.h"
#include "matcher/base/env.h"
#include "matcher/catalogue/signature.h"

namespace evet {

class ReaderKeys : public Signer {
 public:
  ReaderKeys(Env& env, std::filesystem::path folder);
  // Where no key can be made or read, work goes on unsigned, and the log says so once.
  std::optional<Signature> sign(const Actor& actor, const std::string& text) override;

 private:
  const SigningKey& key_of(const Actor& actor);
  Env* env_;
  std::filesystem::path folder_;
  std::mutex mutex_;
  std::map<Actor, SigningKey> keys_;
  bool told_ = false;
};

// $EVET_KEYS, else the user's own place for data (XDG Base Directory Specification); empty where there is none.
std::filesystem::path usual_keys_folder();

}  // namespace evet
