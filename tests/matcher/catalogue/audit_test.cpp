#include "matcher/catalogue/audit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/merge.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/matcher/catalogue/tamper.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::HasSubstr;
namespace fs = std::filesystem;

std::string findings(const AuditReport& report) {
  std::string text;
  for (const Finding& finding : report.findings) text += finding.item + ": " + finding.wrong() + "\n";
  return text;
}
std::string findings(const fs::path& folder, const AuditOptions& options = {}) {
  Catalogue catalogue = Catalogue::open(folder, system_env(), {.access = Access::read});
  return findings(audit(catalogue, options));
}

struct Audit : ::testing::Test {
  const Folder folder;
  const fs::path pond = folder.path / "pond";
  std::string head;
  std::vector<PhotoId> photos;
  Audit() {
    SamplePond made(pond);
    head = made.catalogue.head_hash();
    photos = made.photos;
  }
  fs::path file(const PhotoId& photo) const {
    return pond / "photos" / photo.value.substr(0, 2) / photo.value;
  }
};

TEST_F(Audit, FindsNothingWhereAllHolds) {
  Catalogue catalogue = Catalogue::open(pond, system_env());
  const AuditReport report = audit(catalogue);
  EXPECT_EQ(findings(report), "");
  EXPECT_TRUE(report.holds());
  EXPECT_EQ(report.entries, 10u);
  EXPECT_EQ(report.devices, 1u);
  EXPECT_EQ(report.photos, 3u);
  EXPECT_EQ(report.head, head);
  EXPECT_EQ(report.stray_files, 0u);
}

TEST_F(Audit, HoldsAfterMergesAndCopies) {
  fs::copy(pond, folder.path / "copy", fs::copy_options::recursive);
  Catalogue copy = Catalogue::open(folder.path / "copy", system_env());
  copy.append(person("R2"), {LabelGiven{copy.identities().captures[0].id, "Dot"}});
  SamplePond other(folder.path / "other", "o-");
  merge(copy, other.catalogue, person("R2"));
  const AuditReport report = audit(copy, {.against = head});
  EXPECT_EQ(findings(report), "");
  EXPECT_EQ(report.devices, 3u);
  EXPECT_EQ(report.against->covered, 10u);
  EXPECT_EQ(report.against->added_since, 13u);  // copied, label, ten of the other, merged
  EXPECT_EQ(findings(audit(copy, {.against = other.catalogue.head_hash()})), "");
}

TEST_F(Audit, ShowsThatAnOldHeadIsAPrefix) {
  Catalogue catalogue = Catalogue::open(pond, system_env());
  catalogue.append(person("R2"), {LabelGiven{catalogue.identities().captures[0].id, "Dot"}});
  const AuditReport report = audit(catalogue, {.against = head});
  EXPECT_TRUE(report.holds());
  ASSERT_TRUE(report.against && report.against->entry);
  EXPECT_EQ(report.against->covered, 10u);
  EXPECT_EQ(report.against->added_since, 1u);
}

TEST_F(Audit, ShowsALedgerThatWasCutBack) {
  tamper_unguarded(pond,
                   "DELETE FROM about WHERE position = 10; DELETE FROM verdict WHERE position = 10;"
                   "DELETE FROM entry WHERE position = 10");
  EXPECT_EQ(findings(pond), "");  // nothing inside can tell
  EXPECT_THAT(findings(pond, {.against = head}), HasSubstr("cut back or written anew"));
}

TEST_F(Audit, ShowsALedgerThatWasWrittenAnew) {
  // The last verdict says something else, with a hash that fits.
  Entry last;
  {
    Catalogue catalogue = Catalogue::open(pond, system_env());
    last = catalogue.ledger().back().entry;
  }
  last.body.replace(last.body.find("\"same\""), 6, "\"different\"");
  tamper_unguarded(pond,
                   "UPDATE entry SET body = '" + last.body + "', hash = '" + hash_of(last) +
                       "' WHERE position = 10; UPDATE verdict SET answer = 'different' WHERE position = 10");
  EXPECT_EQ(findings(pond), "");
  EXPECT_THAT(findings(pond, {.against = head}), HasSubstr("written anew"));
}

TEST_F(Audit, ShowsAnEntryThatWasAltered) {
  for (const char* change : {"time = '2031-05-01T00:00:00.000+00:00'", "actor = 'R7'", "kind = 'label'",
                             "body = body || ' '", "body = 'x'", "seq = 77", "actor_kind = 'program'",
                             "prev = ''", "device = '019e6a3b-7c11-7f00-8a2e-3d5b9c40e1f2'"}) {
    SCOPED_TRACE(change);
    const fs::path copy = folder.path / "copy";
    fs::remove_all(copy);
    fs::copy(pond, copy, fs::copy_options::recursive);
    tamper_unguarded(copy, std::string("UPDATE entry SET ") + change + " WHERE position = 5");
    EXPECT_THAT(findings(copy), HasSubstr("altered after it was written"));
  }
}

TEST_F(Audit, ShowsAnEntryThatWasTakenOut) {
  tamper_unguarded(pond, "PRAGMA foreign_keys = OFF; DELETE FROM entry WHERE position = 8");
  const std::string text = findings(pond);
  EXPECT_THAT(text, HasSubstr("its entries 8 are missing"));
  EXPECT_THAT(text, HasSubstr("table verdict is not what the ledger gives"));
}

TEST_F(Audit, ShowsARewrittenEntryByTheOneThatFollows) {
  Entry fifth;
  {
    Catalogue catalogue = Catalogue::open(pond, system_env());
    fifth = catalogue.ledger().at(4).entry;
  }
  fifth.actor.name = "R7";
  tamper_unguarded(pond, "UPDATE entry SET actor = 'R7', hash = '" + hash_of(fifth) + "' WHERE position = 5");
  EXPECT_THAT(findings(pond), HasSubstr("does not follow from number 5 of its device"));
}

TEST_F(Audit, ShowsEntriesPutInPastTheProgram) {
  Entry made;
  {
    Catalogue catalogue = Catalogue::open(pond, system_env());
    made = catalogue.ledger().front().entry;
  }
  made.device = DeviceId("019e6a3b-7c11-7f00-8a2e-3d5b9c40e1f2");
  made.id = EntryId("019e6a3b-7c11-7f00-8a2e-3d5b9c40e1f3");
  made.hash = hash_of(made);
  // Before the newest, so that it stays the head.
  tamper_unguarded(pond,
                   "INSERT INTO entry (position, id, device, seq, time, actor_kind, actor, kind, body, prev, "
                   "hash) VALUES (0, '" +
                       made.id.value + "', '" + made.device.value + "', 1, '" + made.time +
                       "', 'person', 'R1', '" + made.kind + "', '" + made.body + "', '', '" + made.hash +
                       "')");
  EXPECT_THAT(findings(pond), HasSubstr("1 entries are vouched for by no later one"));
}

TEST_F(Audit, ShowsProjectionsThatWereAltered) {
  tamper(pond, "UPDATE verdict SET answer = 'different' WHERE answer = 'same'");
  EXPECT_THAT(findings(pond), HasSubstr("table verdict is not what the ledger gives"));
  tamper(pond, "UPDATE capture SET svl_mm = 80 WHERE position = 2; DELETE FROM about WHERE position = 2");
  EXPECT_THAT(findings(pond), HasSubstr("table capture is not what the ledger gives"));
  EXPECT_THAT(findings(pond), HasSubstr("table about is not what the ledger gives"));
}

TEST_F(Audit, ShowsThatTheGuardsAreGone) {
  tamper(pond, "DROP TRIGGER entry_no_delete; CREATE TABLE extra (a)");
  const std::string text = findings(pond);
  EXPECT_THAT(text, HasSubstr("the trigger entry_no_delete is missing"));
  EXPECT_THAT(text, HasSubstr("the table extra does not belong there"));
}

TEST_F(Audit, ShowsPhotosThatChangedOrWentAway) {
  write_file_durably(system_env(), file(photos[0]), bytes("another picture"));
  fs::remove(file(photos[1]));
  const std::string text = findings(pond);
  EXPECT_THAT(text, HasSubstr("photo " + photos[0].value + ": its bytes have changed"));
  EXPECT_THAT(text, HasSubstr("photo " + photos[1].value + ": its file is gone"));
  const std::string quick = findings(pond, {.photos = false});
  EXPECT_THAT(quick, HasSubstr("its file is gone"));
  EXPECT_THAT(quick, ::testing::Not(HasSubstr("have changed")));
}

TEST_F(Audit, CountsFilesThatNoEntryKnows) {
  Catalogue catalogue = Catalogue::open(pond, system_env());
  catalogue.store_photo(bytes("taken in, and then the power went"));
  const AuditReport report = audit(catalogue);
  EXPECT_TRUE(report.holds());
  EXPECT_EQ(report.stray_files, 1u);
}

TEST_F(Audit, ShowsAChainThatForked) {
  // A backup put back, disk image and all, so that the folder believes it is the original; both wrote on.
  fs::copy(pond, folder.path / "backup", fs::copy_options::recursive);
  Catalogue here = Catalogue::open(pond, system_env()),
            there = Catalogue::open(folder.path / "backup", system_env());
  tamper(folder.path / "backup", "UPDATE here SET value = '" +
                                     system_env().identity(folder.path / "backup" / "catalogue.sqlite") +
                                     "' WHERE key = 'device_file'");
  const CaptureId capture = here.identities().captures[0].id;
  here.append(person("R1"), {LabelGiven{capture, "Dot"}});
  there.append(person("R1"), {LabelGiven{capture, "Dash"}});
  EXPECT_EQ(merge(here, there, person("R1")).entries, 1u);  // nothing is lost
  // The merge vouches for both branches: it is told, and the audit holds again. It held never again before.
  for (int round = 0; round < 2; ++round) {
    const AuditReport report = audit(here);
    EXPECT_EQ(findings(report), "");
    ASSERT_EQ(report.forks.size(), 1u);
    EXPECT_THAT(report.forks[0].wrong(), HasSubstr("several entries claim to be its number 11"));
    here.append(person("R1"), {LabelGiven{capture, "Dot again"}});
  }
  EXPECT_EQ(merge(there, here, person("R1")).entries, 4u);
  EXPECT_EQ(findings(audit(there)), "");
  EXPECT_EQ(told(here.identities()), told(there.identities()));
}

TEST_F(Audit, ShowsAForkThatNobodyVouchesFor) {
  Entry branch = put_in(pond, LabelGiven::kKind, R"({"capture":"x","label":"Dot"})");
  {
    Catalogue catalogue = Catalogue::open(pond, system_env(), {.access = Access::read});
    branch.prev = catalogue.ledger().at(8).entry.hash;
  }
  branch.seq = 10;
  branch.hash = hash_of(branch);
  tamper_unguarded(pond, "UPDATE entry SET seq = 10, prev = '" + branch.prev + "', hash = '" + branch.hash +
                             "' WHERE kind = 'label'");
  EXPECT_THAT(findings(pond), HasSubstr("several entries claim to be its number 10"));
}

TEST_F(Audit, WantsAHashThatCouldBeOne) {
  Catalogue catalogue = Catalogue::open(pond, system_env());
  EXPECT_THROW(audit(catalogue, {.against = "abc"}), Error);
  EXPECT_THAT(findings(audit(catalogue, {.against = std::string(64, '0')})), HasSubstr("no entry has it"));
}

}  // namespace
}  // namespace evet
