// What was acknowledged stays, what was not leaves no trace: whichever write fails, whenever the process is
// killed, however many write at once. As SQLite's own testing does it (sqlite.org/testing.html, sections 3.2
// and 3.3): the n-th change fails, for n = 1, 2, 3, … until a run passes untouched.
#include <SQLiteCpp/SQLiteCpp.h>
#include <fcntl.h>
#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>

#include "matcher/base/error.h"
#include "matcher/catalogue/audit.h"
#include "matcher/catalogue/catalogue_parts.h"
#include "matcher/catalogue/database.h"
#include "matcher/catalogue/merge.h"
#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/faulty_disk.h"
#include "tests/matcher/catalogue/sample_pond.h"

namespace evet {
namespace {

using namespace try_out;
using testing_env::StillEnv;
namespace fs = std::filesystem;

std::string findings(const fs::path& folder) {
  Catalogue catalogue = Catalogue::open(folder, system_env(), {.access = Access::read});
  std::string text;
  for (const Finding& finding : audit(catalogue).findings)
    text += finding.item + ": " + finding.wrong() + "\n";
  return text;
}
std::vector<std::string> hashes(const fs::path& folder) {
  Catalogue catalogue = Catalogue::open(folder, system_env(), {.access = Access::read});
  std::vector<std::string> all;
  for (const ListedEntry& listed : catalogue.ledger()) all.push_back(listed.entry.hash);
  return all;
}

struct Durability : ::testing::Test {
  const Folder folder;
  const fs::path pond = folder.path / "pond", copy = folder.path / "copy";
  CaptureId capture;
  Durability() { capture = SamplePond(pond).a1; }
  // The pond again, as it was at first.
  const fs::path& fresh_copy() {
    fs::remove_all(copy);
    fs::copy(pond, copy, fs::copy_options::recursive);
    return copy;
  }
  std::vector<Body> words(const std::string& label) const {
    return {LabelGiven{capture, label}, LabelGiven{capture, label + " again"}};
  }
};

TEST_F(Durability, AWriteThatFailsLeavesNoTrace) {
  const std::vector<std::string> before = hashes(pond);
  for (const DiskFault fault : {DiskFault::io_error, DiskFault::full}) {
    int n = 1;
    for (;; ++n) {
      fresh_copy();
      FaultyDisk disk;
      bool failed = false;
      {
        Catalogue catalogue = Catalogue::open(copy, system_env());
        disk.fail_at(n, fault);
        try {
          catalogue.append(person("R1"), words("Dot"));
        } catch (const Error& error) {
          EXPECT_EQ(error.kind(), ErrorKind::storage) << error.what();
          EXPECT_EQ(exit_code(error.kind()), 4);
          failed = true;
        }
        disk.fail_at(0, DiskFault::none);
        if (failed) {  // and the same object carries on
          EXPECT_EQ(catalogue.append(person("R1"), words("Dash")).size(), 2u) << "change " << n;
        }
      }
      // "copied", and two labels: those of the run that passed, or of the one after the
      // failure; nothing else.
      const auto after = hashes(copy);
      EXPECT_EQ(after.size(), before.size() + 3) << "change " << n;
      EXPECT_TRUE(std::equal(before.begin(), before.end(), after.begin()));
      EXPECT_EQ(findings(copy), "") << "change " << n;
      if (!failed) break;
    }
    EXPECT_GT(n, 10);
  }
}

TEST_F(Durability, AKilledProcessLosesNothingItAcknowledged) {
  const size_t before = hashes(pond).size();
  int n = 1;
  for (bool killed = true; killed; ++n) {
    fresh_copy();
    int pipe[2];
    ASSERT_EQ(::pipe(pipe), 0);
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      FaultyDisk disk;
      Catalogue catalogue = Catalogue::open(copy, system_env());
      disk.fail_at(n, DiskFault::kill);
      for (int i = 0; i < 2; ++i) {
        catalogue.append(person("R1"), words("Dot " + std::to_string(i)));
        if (::write(pipe[1], "!", 1) != 1) ::_exit(3);  // acknowledged
      }
      ::_exit(0);
    }
    ::close(pipe[1]);
    size_t acknowledged = 0;
    for (char c; ::read(pipe[0], &c, 1) == 1;) ++acknowledged;
    ::close(pipe[0]);
    int status = 0;
    ::waitpid(child, &status, 0);
    killed = WIFSIGNALED(status);
    ASSERT_TRUE(killed || (WIFEXITED(status) && WEXITSTATUS(status) == 0));
    ASSERT_TRUE(!killed || WTERMSIG(status) == SIGKILL);

    // Opened only for reading: the journal left behind is played back all the same.
    const size_t after = hashes(copy).size();
    const size_t whole = before + (acknowledged == 0 ? 0 : 1 + 2 * acknowledged);  // 1: "copied"
    // All of what was acknowledged, and of the rest all or nothing.
    EXPECT_TRUE(after == whole || after == before + 1 + 2 * (acknowledged + 1))
        << "change " << n << ": " << after;
    EXPECT_EQ(findings(copy), "") << "change " << n;
    Catalogue catalogue = Catalogue::open(copy, system_env());
    EXPECT_EQ(catalogue.append(person("R1"), words("Dash")).size(), 2u);
  }
  EXPECT_GT(n, 20);
}

TEST_F(Durability, MakingACatalogueIsAllOrNothing) {
  for (const bool half : {false, true}) {
    int n = 1;
    for (;; ++n) {
      const fs::path made = folder.path / "made";
      fs::remove_all(made);
      StillEnv env;
      env.fail_at = n, env.half_written = half;
      try {
        Catalogue::create(made, "Alder Fen", person("R1"), env);
        break;
      } catch (const Error&) {
      }
      // Not there yet, and the same command again makes it; or there, and whole.
      if (fs::exists(made / "catalogue.sqlite")) {
        EXPECT_EQ(findings(made), "");
      } else {
        EXPECT_NO_THROW(Catalogue::create(made, "Alder Fen", person("R1"), system_env())) << "step " << n;
      }
      EXPECT_EQ(hashes(made).size(), 1u);
    }
    EXPECT_GT(n, 5);
  }
}

TEST_F(Durability, MakingTheDatabaseIsAllOrNothing) {
  int n = 1;
  for (;; ++n) {
    const fs::path made = folder.path / "made";
    fs::remove_all(made);
    bool failed = false;
    {
      FaultyDisk disk;
      disk.fail_at(n, DiskFault::full);
      try {
        Catalogue::create(made, "Alder Fen", person("R1"), system_env());
      } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::storage) << error.what();
        failed = true;
      }
      failed = failed || disk.failed();
    }
    if (!failed) break;
    if (!fs::exists(made / "catalogue.sqlite"))
      Catalogue::create(made, "Alder Fen", person("R1"), system_env());
    EXPECT_EQ(findings(made), "") << "change " << n;
  }
  EXPECT_GT(n, 10);
}

TEST_F(Durability, APhotoIsKeptWholeOrNotAtAll) {
  const Bytes picture = bytes("a picture of some size, that could be torn in the middle");
  int n = 1;
  for (;; ++n) {
    fresh_copy();
    StillEnv env;
    Catalogue catalogue = Catalogue::open(copy, env);
    env.changes = 0, env.fail_at = n, env.half_written = true;
    bool failed = false;
    try {
      catalogue.store_photo(picture);
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::storage);
      failed = true;
    }
    env.fail_at = 0;
    const PhotoId photo = catalogue.store_photo(picture);  // again, as the next intake would
    EXPECT_EQ(catalogue.read_photo(photo), picture);
    const std::vector<std::string> names = env.list_folder(copy / "photos" / photo.value.substr(0, 2));
    EXPECT_EQ(std::count_if(names.begin(), names.end(), [](const auto& name) { return name.size() != 64; }),
              0);
    if (!failed) break;
  }
  EXPECT_GE(n, 5);
}

TEST_F(Durability, AMergeIsAllOrNothing) {
  SamplePond(folder.path / "other", "o-");
  const std::vector<std::string> before = hashes(pond);
  int n = 1;
  for (;; n += 3) {
    fresh_copy();
    FaultyDisk disk;
    bool failed = false;
    {
      Catalogue into = Catalogue::open(copy, system_env());
      Catalogue other = Catalogue::open(folder.path / "other", system_env(), {.access = Access::read});
      disk.fail_at(n, DiskFault::full);
      try {
        merge(into, other, person("R1"));
      } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::storage) << error.what();
        failed = true;
      }
      disk.fail_at(0, DiskFault::none);
    }
    EXPECT_EQ(findings(copy), "");
    if (!failed) break;
    EXPECT_EQ(hashes(copy), before) << "change " << n;
  }
  EXPECT_GT(n, 10);
}

TEST_F(Durability, SeveralProcessesWriteAtOnce) {
  constexpr int kProcesses = 3, kWrites = 15;
  std::vector<pid_t> children;
  for (int p = 0; p < kProcesses; ++p) {
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      try {
        Catalogue catalogue = Catalogue::open(pond, system_env());
        for (int i = 0; i < kWrites; ++i)
          catalogue.append(person("R" + std::to_string(p)),
                           words(std::to_string(p) + "." + std::to_string(i)));
        catalogue.store_photo(bytes("the same picture from all"));
        ::_exit(0);
      } catch (const std::exception&) {
        ::_exit(1);
      }
    }
    children.push_back(child);
  }
  for (const pid_t child : children) {
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0);
  }
  EXPECT_EQ(hashes(pond).size(), 10u + 2 * kProcesses * kWrites);
  EXPECT_EQ(findings(pond), "");
}

TEST_F(Durability, AnOpenCatalogueSeesWhatOthersWrote) {
  Catalogue one = Catalogue::open(pond, system_env()), two = Catalogue::open(pond, system_env());
  EXPECT_TRUE(one.identities().capture(capture)->individual);
  two.append(person("R1"), {LabelGiven{capture, "Dot"}});
  EXPECT_EQ(one.identities().individuals[0].label, "Dot");
}

TEST_F(Durability, ABusyCatalogueSaysSo) {
  SQLite::Database holder((pond / "catalogue.sqlite").string(), SQLite::OPEN_READWRITE);
  holder.exec("BEGIN IMMEDIATE");
  Catalogue catalogue = Catalogue::open(pond, system_env(), {.busy_timeout_ms = 20});
  try {
    catalogue.append(person("R1"), words("Dot"));
    FAIL() << "it was written past the lock";
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::storage);
    EXPECT_NE(std::string(error.what()).find("another program is writing"), std::string::npos);
  }
}

// Closing a file lets go of every lock that the process has on it: a second look at the folder must not take
// the writer's away, or two processes write at once.
TEST_F(Durability, OpeningItAgainTakesNoLockAwayFromAWriter) {
  Catalogue catalogue = Catalogue::open(pond, system_env());
  parts_of(catalogue).store.transaction([&] {
    Catalogue::open(pond, system_env(), {.access = Access::read}).identities();
    const pid_t child = ::fork();
    if (child == 0) {  // without SQLite, which remembers here what it locked before the fork
      const int fd = ::open((pond / "catalogue.sqlite").c_str(), O_RDWR);
      struct flock reserved {};  // the byte that a writer locks (SQLite file format, section 1.4)
      reserved.l_type = F_WRLCK, reserved.l_start = 0x40000001, reserved.l_len = 1;
      ::_exit(fd >= 0 && ::fcntl(fd, F_SETLK, &reserved) != 0 ? 0 : 1);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << "another process could write";
  });
}

// A statement that is still open makes SQLiteCpp's own closing end the process, with the words "database is
// locked"; where memory runs out within that library, one is left so.
TEST_F(Durability, AConnectionClosesThoughAStatementIsLeftOpen) {
  {
    Connection connection((pond / "catalogue.sqlite").string(), SQLite::OPEN_READONLY);
    for (int i = 0; i < 3; ++i) {
      sqlite3_stmt* left = nullptr;
      ASSERT_EQ(sqlite3_prepare_v2(connection.getHandle(), "SELECT id FROM entry", -1, &left, nullptr),
                SQLITE_OK);
      ASSERT_EQ(sqlite3_step(left), SQLITE_ROW);
    }
  }
  EXPECT_EQ(findings(pond), "");
}

}  // namespace
}  // namespace evet
