// The files that a sheet's photo names mean. Another letter case, or accents put together in another way, is the
// same name to the person who wrote it and another to the disk: it is taken, and said so. A name without its
// ending, or with a slip in its letters, is answered with what was probably meant and never taken: the next number
// is the next animal.
#pragma once
#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "matcher/base/env.h"
#include "tools/intake/sheet.h"

namespace evet {

// As people read it: letters composed (Unicode NFC), letter case folded. Two spellings of one name are equal.
std::string folded_name(const std::string& name);

class PhotoFiles {
 public:
  PhotoFiles(const Sheet& sheet, const std::filesystem::path& folder, Env& env);
  // The one file whose name differs only in letter case or accents, where no row names that file itself; empty
  // where there is none, or more than one.
  std::string same_name(const std::string& photo) const;
  // For a name that is not there: what was probably meant, or what to look at.
  Message meant_instead(const std::string& photo) const;
  bool is_there(const std::string& photo) const;

 private:
  const std::vector<std::string>& names_in(const std::string& folder) const;
  Message plain_;
  std::map<std::string, std::vector<std::string>>
      names_;                    // of each folder that rows name, and the photos folder
  std::set<std::string> named_;  // by rows
};

// Rows whose photo has another spelling than its file get the file's. Returns what is to be said of each.
std::vector<Message> find_photo_files(Sheet& sheet, const std::filesystem::path& folder, Env& env);

}  // namespace evet
