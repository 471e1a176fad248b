// Power cuts on a file system that keeps no more than POSIX promises: a file's bytes are there when the file
// was synced, its name when its folder was synced after it got it. What was acknowledged survives, whatever
// an earlier run that was killed had left unsynced.
#include <gtest/gtest.h>
#include <unistd.h>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/catalogue.h"
#include "tests/matcher/base/strict_disk.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet {
namespace {

using namespace try_out;
using testing_env::StrictDisk;
namespace fs = std::filesystem;

TEST(PowerLoss, APhotoThatAKilledRunLeftIsThereOnceItIsAcknowledged) {
  const Bytes picture = bytes("a picture that was being taken in");
  int n = 1;
  for (bool killed = true; killed; ++n) {
    const Folder folder;
    StrictDisk disk;
    Catalogue catalogue = Catalogue::create(folder.path / "pond", "Alder Fen", person("R1"), disk);
    disk.changes = 0, disk.fail_at = n, disk.half_written = true;
    killed = false;
    try {
      catalogue.store_photo(picture);
    } catch (const Error&) {
      killed = true;
    }
    disk.fail_at = 0;
    const PhotoId photo = catalogue.store_photo(picture);  // the same line again
    disk.cut_power();
    EXPECT_EQ(catalogue.read_photo(photo), picture) << "killed at change " << n;
  }
  EXPECT_GT(n, 5);
}

// What a real kill leaves: the file under its name, and nothing synced.
TEST(PowerLoss, APhotoFileThatIsThereAlreadyIsSyncedAllTheSame) {
  const Folder folder;
  StrictDisk disk;
  Catalogue catalogue = Catalogue::create(folder.path / "pond", "Alder Fen", person("R1"), disk);
  const Bytes picture = bytes("a picture");
  const PhotoId photo(sha256_hex(picture));
  const fs::path place = folder.path / "pond/photos" / photo.value.substr(0, 2);
  disk.make_folders(place);
  disk.write_file(place / photo.value, picture);
  EXPECT_EQ(catalogue.store_photo(picture), photo);
  disk.cut_power();
  EXPECT_EQ(catalogue.read_photo(photo), picture);
}

TEST(PowerLoss, ANewCatalogueIsThereOnceItIsAcknowledged) {
  const Folder folder;
  const fs::path before = fs::current_path();
  fs::current_path(folder.path);
  for (const char* name : {"pond", "./pond2", "over/there/pond", "pond3/"}) {
    StrictDisk disk;
    std::string head;
    { head = Catalogue::create(name, "Alder Fen", person("R1"), disk).head_hash(); }
    disk.cut_power();
    EXPECT_TRUE(fs::exists(fs::path(name) / "photos")) << name;
    EXPECT_EQ(Catalogue::open(name, system_env(), {.access = Access::read}).head_hash(), head) << name;
  }
  fs::current_path(before);
}

TEST(PowerLoss, AReportIsWholeOrTheOneBefore) {
  const Folder folder;
  int n = 1;
  for (bool failed = true; failed; ++n) {
    StrictDisk disk;
    system_env().write_file(folder.path / "report", bytes("the one before"));
    disk.fail_at = n, disk.half_written = true;
    failed = false;
    try {
      write_file_durably(disk, folder.path / "report", bytes("the new one"));
    } catch (const Error&) {
      failed = true;
    }
    const Bytes found = system_env().read_file(folder.path / "report");
    EXPECT_TRUE(found == bytes("the new one") || (failed && found == bytes("the one before"))) << n;
  }
}

}  // namespace
}  // namespace evet
