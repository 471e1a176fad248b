#include "matcher/catalogue/own_databases.h"

#include <spdlog/spdlog.h>

#include <atomic>
#include <sstream>

#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/read_apart.h"

namespace evet {
namespace {

std::atomic<OwnDatabases*> used{nullptr};

constexpr std::size_t kLargestList = 1U << 20;

}  // namespace

OwnDatabases::OwnDatabases(Env& env, std::filesystem::path list) : env_(&env), list_(std::move(list)) {}
OwnDatabases::~OwnDatabases() {
  if (in_use() == this) use(nullptr);
}
OwnDatabases* OwnDatabases::in_use() {
  return used;
}
void OwnDatabases::use(OwnDatabases* own) {
  used = own;
}

// A list that grew beyond all bounds is begun anew.
void OwnDatabases::read_list() {
  if (list_.empty()) return;
  const FileFacts facts = env_->facts(list_);
  if (facts.kind != FileKind::file || facts.bytes > kLargestList) return;
  const Bytes bytes = env_->read_file(list_);
  std::istringstream lines(std::string(reinterpret_cast<const char*>(bytes.data()), bytes.size()));
  for (std::string line; std::getline(lines, line);)
    if (!line.empty()) known_.insert(line);
}

bool OwnDatabases::has(const std::string& identity) {
  const std::lock_guard lock(mutex_);
  if (known_.contains(identity)) return true;
  try {  // another program may have made it meanwhile
    read_list();
  } catch (const Error&) {
  }
  return known_.contains(identity);
}

void OwnDatabases::add(const std::string& identity) {
  const std::lock_guard lock(mutex_);
  try {
    read_list();
    if (!known_.insert(identity).second || list_.empty()) return;
    std::string text;
    for (const std::string& one : known_) text += one + "\n";
    make_folders_durably(*env_, list_.parent_path());
    write_file_durably(*env_, list_, std::as_bytes(std::span(text)));
  } catch (const Error& error) {
    known_.insert(identity);
    spdlog::info(Message(messages::kReadAsFromElsewhere,
                         {{"file", list_.string()}, {"why", std::string(error.what())}})
                     .words());
  }
}

bool from_elsewhere(const std::filesystem::path& database, Env& env) {
  OwnDatabases* own = OwnDatabases::in_use();
  return own != nullptr && ReadersApart::in_use() != nullptr && !own->has(env.identity(database));
}

void remember_as_own(const std::filesystem::path& database, Env& env) {
  if (OwnDatabases* own = OwnDatabases::in_use(); own != nullptr) own->add(env.identity(database));
}

}  // namespace evet
