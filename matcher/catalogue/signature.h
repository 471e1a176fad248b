// Who really said an entry: an Ed25519 signature in its body, `signed` {`key`, `signature`}, over the hash that
// the entry would have without it. The hash of the entry covers the signature in turn, so that it travels with
// merges and cannot be taken off unseen. Entries without one are as valid as ever, and are counted.
//
// A person's entries are signed with the reader's key, the program's with the key of the machine. A signature
// says that whoever holds the key said it; whose key it is, is for people to know: its first use and every
// other key under the same name are shown.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "matcher/catalogue/entry.h"

namespace evet {

struct Signature {
  std::string key, value;  // hex, as in matcher/base/ed25519.h
};

class Signer {
 public:
  virtual ~Signer() = default;
  // Nothing where this signer has no key to sign with.
  virtual std::optional<Signature> sign(const Actor& actor, const std::string& text) = 0;

  // The one whose signatures this process's entries get; nullptr: they get none.
  static Signer* in_use();
  static void use(Signer* signer);
};

// Before `hash` is made of it. The key it was signed with, if it was.
std::optional<std::string> sign(Entry& entry);

enum class Signing { none, fits, broken };
struct Signed {
  Signing how = Signing::none;
  std::string key{};  // what it claims, where it claims one
};
Signed signing_of(const Entry& entry);
// The same for an entry of a ledger that was checked before: its key is believed.
Signed signing_claimed(const Entry& entry);

// Which keys a ledger's entries are signed with.
struct KeyUse {
  std::string who;  // a reader's code, or "device " and its id for what the program said there
  std::string key;
  EntryId first;
  std::string first_time;
  size_t entries = 0;
};
class KeyUses {
 public:
  void take(const Entry& entry, const Signed& found);
  std::vector<KeyUse> all() const;  // by who, then by first use
  // Of people who have a key: entries under their name without a signature after their first with one.
  std::map<std::string, size_t> unsigned_since() const;
  size_t unsigned_entries() const { return unsigned_; }

 private:
  struct Reader {
    std::map<std::string, KeyUse> keys;
    std::vector<EntryId> without;
  };
  std::map<std::string, Reader> readers_;
  size_t unsigned_ = 0;
};
// Those of `all` whose `who` and key are not in `known`.
std::vector<KeyUse> new_keys(const KeyUses& all, const KeyUses& known);

// "1a2b 3c4d 5e6f 7081": enough of a key to be read out over a telephone.
std::string key_words(const std::string& key);

}  // namespace evet
