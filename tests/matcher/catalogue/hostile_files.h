// What a folder from elsewhere may hold beside what the program writes, and how to see that
// nothing was touched.
#pragma once
#include <SQLiteCpp/SQLiteCpp.h>
#include <sys/stat.h>

#include <filesystem>
#include <map>
#include <string>

#include "matcher/base/sha256.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet::try_out {

inline void put_big_endian(Bytes& to, std::uint32_t value) {
  for (const int shift : {24, 16, 8, 0}) to.push_back(static_cast<std::byte>(value >> shift));
}

// A journal that a database believes to be left by a killed writer, of no page, and that names `victim` as
// its super-journal (SQLite file format, section 3): SQLite removes that when it has played this one back.
inline Bytes journal_naming(const std::string& victim, std::uint32_t pages) {
  const Bytes magic = bytes("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7");
  Bytes journal = magic;
  for (const std::uint32_t value : {0u, 7u, pages, 512u, 4096u}) put_big_endian(journal, value);
  journal.resize(512);
  put_big_endian(journal, 0x40000000u / 4096 + 1);
  std::uint32_t sum = 0;
  for (const char c : victim) sum += static_cast<std::uint32_t>(static_cast<signed char>(c));
  const Bytes name = bytes(victim);
  journal.insert(journal.end(), name.begin(), name.end());
  put_big_endian(journal, static_cast<std::uint32_t>(victim.size()));
  put_big_endian(journal, sum);
  journal.insert(journal.end(), magic.begin(), magic.end());
  return journal;
}

// Every file and link under a folder, by what it holds.
inline std::map<std::string, std::string> tree(const std::filesystem::path& folder) {
  std::map<std::string, std::string> found;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    std::string holds = "folder";
    if (entry.is_symlink())
      holds = "link to " + std::filesystem::read_symlink(entry.path()).string();
    else if (entry.is_regular_file())
      holds = sha256_hex(system_env().read_file(entry.path()));
    else if (!entry.is_directory())
      holds = "other";
    found[entry.path().lexically_relative(folder).string()] = holds;
  }
  return found;
}

}  // namespace evet::try_out
