// Which databases this user's programs made themselves, known by their files' identity (Env::identity): those are
// opened as they are. Any other may have been made to harm: it is read apart (read_apart.h), and written anew before
// anything is added to it (taken_over.h).
//
// Not against who changes a known file where it lies, as on a stick that was lent.
#pragma once
#include <filesystem>
#include <mutex>
#include <set>
#include <string>

#include "matcher/base/env.h"

namespace evet {

class OwnDatabases {
 public:
  // `list`: a file of the user's own, made when there is something to remember; empty where there is no place.
  OwnDatabases(Env& env, std::filesystem::path list);
  ~OwnDatabases();
  OwnDatabases(const OwnDatabases&) = delete;
  OwnDatabases& operator=(const OwnDatabases&) = delete;

  bool has(const std::string& identity);
  // Where the list cannot be written it is known to this process alone: the next reads it apart once more.
  void add(const std::string& identity);

  // Those that Catalogue and Cache go by; nullptr: every database is opened as it is.
  static OwnDatabases* in_use();
  static void use(OwnDatabases* own);

 private:
  void read_list();
  Env* env_;
  std::filesystem::path list_;
  std::mutex mutex_;
  std::set<std::string> known_;
};

// Whether a database is to be read apart: it is not known, and there is a process to read it in. Errors: storage.
bool from_elsewhere(const std::filesystem::path& database, Env& env);
void remember_as_own(const std::filesystem::path& database, Env& env);

}  // namespace evet
