// A catalogue from somebody whose program checks nothing, merged: refused and nothing taken, or taken and
// everything works after; either way no file outside is touched. And any bytes as its journal.
//
// The first byte chooses. Entries: kinds and bodies that the program writes, changed by the bytes that
// follow, each with a right hash and its place in the chain.
#include <cstdint>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <string>

#include "matcher/base/error.h"
#include "matcher/catalogue/audit.h"
#include "matcher/catalogue/merge.h"
#include "tests/matcher/catalogue/every_kind.h"
#include "tests/matcher/catalogue/hostile_files.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/matcher/catalogue/tamper.h"

namespace {

using namespace evet;
using namespace evet::try_out;
namespace fs = std::filesystem;

void require(bool holds) {
  if (!holds) std::abort();
}

// Made once: two ponds, of which each input gets copies.
struct Ponds {
  Folder folder;
  CaptureId capture;
  Ponds() {
    SamplePond house(folder.path / "house"), field(folder.path / "field", "f-");
    capture = field.a1;
    fs::remove_all(folder.path / "house/cache"), fs::remove_all(folder.path / "field/cache");
    system_env().write_file(folder.path / "victim", bytes("of somebody else"));
  }
  fs::path fresh(const std::string& name) const {
    const fs::path copy = folder.path / (name + "-copy");
    fs::remove_all(copy);
    fs::copy(folder.path / name, copy, fs::copy_options::recursive);
    return copy;
  }
};

std::string changed(std::string body, const std::uint8_t*& data, std::size_t& size) {
  for (int n = 0; n < 4 && size >= 3; ++n, data += 3, size -= 3) {
    const std::size_t at = (data[0] | (data[1] & 3u) << 8) % (body.size() + 1);
    if ((data[1] & 0x80) != 0)
      body.insert(at, 1, static_cast<char>(data[2]));
    else if (at < body.size())
      body[at] = static_cast<char>(data[2]);
  }
  return body;
}

void any_entries(const Ponds& ponds, const std::uint8_t* data, std::size_t size) {
  EveryKind every;
  every.a = ponds.capture;
  const std::vector<Body> samples = every.bodies();
  const fs::path house = ponds.fresh("house"), field = ponds.fresh("field");
  for (int n = 0; n < 6 && size >= 2; ++n) {
    const Body& sample = samples[*data % samples.size()];
    ++data, --size;
    put_in(field, kind_of(sample), changed(body_text(sample), data, size));
  }
  Catalogue into = Catalogue::open(house, system_env());
  const std::string before = told(into.identities());
  const size_t entries = into.ledger().size();
  try {
    Catalogue from = Catalogue::open(field, system_env(), {.access = Access::read});
    merge(into, from, person("R1"));
  } catch (const Error&) {
    require(into.ledger().size() == entries && told(into.identities()) == before);
  }
  const CaptureId own = into.identities().captures.front().id;
  const EntryId label = into.append(person("R1"), {LabelGiven{own, "Dot"}}).back().id;
  into.append(person("R1"), {Withdrawal{label}});
  Catalogue again = Catalogue::open(house, system_env());
  require(told(again.identities()) == told(into.identities()));
  require(audit(again).holds());
}

void any_journal(const Ponds& ponds, const std::uint8_t* data, std::size_t size) {
  const fs::path field = ponds.fresh("field"), file = field / "catalogue.sqlite";
  Bytes journal(reinterpret_cast<const std::byte*>(data), reinterpret_cast<const std::byte*>(data) + size);
  if (size > 1 && data[0] % 2 == 0) {
    const Bytes naming = journal_naming((ponds.folder.path / "victim").string(),
                                        static_cast<std::uint32_t>(fs::file_size(file) / 4096));
    journal = naming;
    for (std::size_t i = 1; i + 2 < size; i += 3)
      journal[(data[i] | data[i + 1] << 8) % journal.size()] = static_cast<std::byte>(data[i + 2]);
  }
  system_env().write_file(file.string() + "-journal", journal);
  for (const Access access : {Access::read, Access::write}) {
    const auto before = tree(field);
    try {
      Catalogue::open(field, system_env(), {.access = access}).identities();
    } catch (const Error&) {
    }
    if (access == Access::read) require(tree(field) == before);
    require(system_env().read_file(ponds.folder.path / "victim") == bytes("of somebody else"));
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Ponds ponds;
  if (size < 2) return 0;
  if (data[0] % 4 == 0)
    any_journal(ponds, data + 1, size - 1);
  else
    any_entries(ponds, data + 1, size - 1);
  return 0;
}
