// The rows of a cache, and whether each is as it was written.
#pragma once
#include <SQLiteCpp/Statement.h>

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "matcher/base/env.h"
#include "matcher/base/ids.h"
#include "matcher/catalogue/database.h"

namespace evet {

// Kept with a row: a changed one, or one moved to another photo, is as good as none.
std::string cache_sum(const std::string& photo, const std::string& what, const std::string& maker,
                      BytesView bytes);
Bytes blob_in(SQLite::Statement& row, int at);
const std::map<std::string, std::string>& cache_schema_as_made();

// Photos of which a row is not as it was written; an empty id when the rest cannot be read.
std::vector<PhotoId> damaged_rows(Connection& database);
// In a process to which the file, and its -wal, was handed under this name (handed_files.h): the cache, open;
// nullptr where it is no cache of this version.
std::unique_ptr<Connection> cache_where_handed(const std::string& name, bool with_wal);

}  // namespace evet
