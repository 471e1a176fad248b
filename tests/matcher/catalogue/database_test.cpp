// Every connection is armed as SQLite advises for files that may have been made to harm
// (sqlite.org/security.html, "Untrusted SQLite Database Files").
#include "matcher/catalogue/database.h"

#include <SQLiteCpp/Statement.h>
#include <gtest/gtest.h>
#include <sqlite3.h>

#include "matcher/catalogue/sql.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet {
namespace {

int config(sqlite3* handle, int what) {
  int value = -1;
  sqlite3_db_config(handle, what, -1, &value);
  return value;
}

struct Armed : ::testing::TestWithParam<bool> {
  Connection database{":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE};
  Armed() {
    arm(database, true);
    database.exec(sql::kSchema);
    arm(database, GetParam());
  }
  int asked(const char* question) { return database.execAndGet(question).getInt(); }
};

TEST_P(Armed, AsSqliteAdvises) {
  sqlite3* handle = database.getHandle();
  EXPECT_EQ(config(handle, SQLITE_DBCONFIG_DEFENSIVE), 1);
  EXPECT_EQ(config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA), 0);
  EXPECT_EQ(config(handle, SQLITE_DBCONFIG_ENABLE_VIEW), 0);
  EXPECT_EQ(config(handle, SQLITE_DBCONFIG_ENABLE_TRIGGER), GetParam() ? 1 : 0);
  EXPECT_EQ(config(handle, SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION), 0);
  EXPECT_EQ(config(handle, SQLITE_DBCONFIG_WRITABLE_SCHEMA), 0);
  EXPECT_EQ(asked("PRAGMA cell_size_check"), 1);
  EXPECT_EQ(asked("PRAGMA temp_store"), 2);  // in memory
  EXPECT_EQ(sqlite3_limit(handle, SQLITE_LIMIT_ATTACHED, -1), 0);
  EXPECT_EQ(sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, -1), sql::kLongestValue);
  EXPECT_EQ(sqlite3_limit(handle, SQLITE_LIMIT_WORKER_THREADS, -1), 0);
}

TEST_P(Armed, WhatItForbidsIsRefused) {
  for (const char* question :
       {"ATTACH ':memory:' AS other", "SELECT load_extension('other')", "SELECT * FROM v",
        "PRAGMA writable_schema = ON; INSERT INTO sqlite_schema VALUES ('table', 't', 't', 0, '')",
        "SELECT 1 UNION SELECT 2 UNION SELECT 3 UNION SELECT 4", "SELECT zeroblob(70000000)"}) {
    database.tryExec("CREATE VIEW v AS SELECT 1");
    EXPECT_THROW(database.exec(question), SQLite::Exception) << question;
  }
}

// The program's own longest questions stay within the bounds.
TEST_P(Armed, ItsOwnChecksRun) {
  SQLite::Statement check(database, sql::kQuickCheck);
  ASSERT_TRUE(check.executeStep());
  EXPECT_EQ(check.getColumn(0).getString(), "ok");
  SQLite::Statement keys(database, sql::kForeignKeyCheck);
  EXPECT_FALSE(keys.executeStep());
}

INSTANTIATE_TEST_SUITE_P(ReadingAndWriting, Armed, ::testing::Bool());

// A connection that the system would let write, as one that reads it must not: its own statement refuses, and no page
// of the file is mapped.
TEST(ReadOnly, RefusesToWriteAndMapsNothing) {
  const try_out::Folder folder;
  Connection database((folder.path / "catalogue.sqlite").string(),
                      SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  database.exec("CREATE TABLE t (x TEXT)");
  ASSERT_EQ(database.execAndGet("PRAGMA mmap_size = 1000000").getInt(), 1000000);
  arm(database, false);
  EXPECT_EQ(database.execAndGet("PRAGMA mmap_size").getInt(), 0);
  EXPECT_NO_THROW(database.exec("INSERT INTO t VALUES ('before')"))
      << "nothing is shown if it may not write anyway";
  database.exec(sql::kReadOnly);
  for (const char* change :
       {"INSERT INTO t VALUES ('x')", "DELETE FROM t", "CREATE TABLE u (x TEXT)", "DROP TABLE t"})
    EXPECT_THROW(database.exec(change), SQLite::Exception) << change;
  EXPECT_EQ(database.execAndGet("SELECT count(*) FROM t").getInt(), 1);
}

}  // namespace
}  // namespace evet
