// Catalogues of every format that was ever released open for ever: frozen samples in
// tests/data/catalogue_format_<n>, made once with EVET_WRITE_SAMPLE=<folder> and never touched again. Beside
// each lies who.txt, what was in it.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "matcher/base/error.h"
#include "matcher/catalogue/audit.h"
#include "matcher/catalogue/merge.h"
#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/every_kind.h"
#include "tests/matcher/catalogue/sample_pond.h"

namespace evet {
namespace {

using namespace try_out;
namespace fs = std::filesystem;

// Three captures, a photo, a dispute, and an entry of every kind.
void write_sample(const fs::path& folder) {
  testing_env::StillEnv env(8785);
  Catalogue catalogue = Catalogue::create(folder, "Alder Fen", person("R1"), env);
  const auto say = [&](const Actor& actor, const Body& body) {
    env.clock.unix_ms += 60000;
    return catalogue.append(actor, {body}).back().id;
  };
  EveryKind every;
  every.photo = catalogue.store_photo(bytes("not really a picture"));
  const CaptureId c = catalogue.new_capture_id();
  say(person("OB1"), Capture{every.b, facts("2031-05-20", "c2")});
  say(person("OB1"), Capture{c, facts("2031-05-21", "c3")});
  every.entry = say(person("R2"), Verdict{.capture = every.b, .other = c, .answer = Answer::same});
  for (const Body& body : every.bodies())
    if (kind_of(body) != Merge::kKind) say(person("R1"), body);
  say(program(), Verdict{.capture = c, .other = every.a, .answer = Answer::same});
  say(person("R1"), Verdict{.capture = every.b, .other = every.a, .answer = Answer::same});
  say(person("R2"), Verdict{.capture = every.b, .other = every.a, .answer = Answer::different});
  {
    const Folder elsewhere;
    testing_env::StillEnv other_env(43);
    Catalogue other = Catalogue::create(elsewhere.path / "pond", "Reed Hollow", person("R4"), other_env);
    merge(catalogue, other, person("R1"));
  }
  std::ofstream(folder / "who.txt") << catalogue.head_hash() << "\n" << told(catalogue.identities());
  fs::remove_all(folder / "cache");
}

std::string expected(const fs::path& sample) {
  std::ostringstream text;
  text << std::ifstream(sample / "who.txt").rdbuf();
  return text.str();
}

TEST(FrozenFormat, EverySampleOpensAndSaysWhatItSaid) {
  if (const char* where = std::getenv("EVET_WRITE_SAMPLE"); where != nullptr) write_sample(where);
  int samples = 0;
  for (const auto& entry : fs::directory_iterator(EVET_TEST_DATA)) {
    if (entry.path().filename().string().rfind("catalogue_format_", 0) != 0) continue;
    SCOPED_TRACE(entry.path().filename().string());
    ++samples;
    const Folder folder;
    const fs::path copy = folder.path / "copy";
    fs::copy(entry.path(), copy, fs::copy_options::recursive);
    for (const Access access : {Access::read, Access::write}) {
      Catalogue catalogue = Catalogue::open(copy, system_env(), {.access = access});
      EXPECT_EQ(catalogue.head_hash() + "\n" + told(catalogue.identities()), expected(entry.path()));
      const AuditReport report = audit(catalogue);
      EXPECT_TRUE(report.holds()) << report.findings.front().item << ": " << report.findings.front().wrong();
    }
    Catalogue catalogue = Catalogue::open(copy, system_env());
    const std::string head = catalogue.head_hash();
    catalogue.append(person("R3"), {LabelGiven{catalogue.identities().captures[0].id, "Dash"}});
    EXPECT_TRUE(audit(catalogue, {.against = head}).holds());
  }
  EXPECT_GE(samples, 1);
}

// The same sample made by today's program is the same ledger: a change of format that
// nobody meant shows here.
TEST(FrozenFormat, TodaysProgramStillWritesTheNewestOne) {
  const Folder folder;
  write_sample(folder.path / "pond");
  EXPECT_EQ(expected(folder.path / "pond"), expected(fs::path(EVET_TEST_DATA) / "catalogue_format_1b"));
}

}  // namespace
}  // namespace evet
