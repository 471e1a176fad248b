#include "tests/bench/faults/power.h"

#include <algorithm>
#include <fstream>
#include <sstream>

namespace evet::faults {
namespace fs = std::filesystem;

namespace {

std::string above(const std::string& path) {
  return fs::path(path).parent_path().string();
}

}  // namespace

WatchedFolder::WatchedFolder(const fs::path& root) : root_(fs::absolute(root).lexically_normal().string()) {
  now_[root_] = std::make_shared<Node>(Node{.folder = true});
  for (const auto& entry : fs::recursive_directory_iterator(root)) {
    auto node = std::make_shared<Node>(Node{.folder = entry.is_directory()});
    if (entry.is_regular_file()) {
      std::ostringstream text;
      text << std::ifstream(entry.path(), std::ios::binary).rdbuf();
      node->on_disk = text.str();
    }
    now_[fs::absolute(entry.path()).lexically_normal().string()] = std::move(node);
  }
  on_disk_ = now_;
}

bool WatchedFolder::holds(const std::string& path) const {
  return path.starts_with(root_) && (path.size() == root_.size() || path[root_.size()] == '/');
}

void WatchedFolder::apply(std::string& bytes, const Change& change) {
  const auto at = static_cast<std::size_t>(change.at);
  if (change.resizes) {
    bytes.resize(at);
  } else {
    if (bytes.size() < at + change.bytes.size()) bytes.resize(at + change.bytes.size());
    bytes.replace(at, change.bytes.size(), change.bytes);
  }
}
void WatchedFolder::apply(Names& names, const NameChange& change) {
  if (!change.gone.empty()) names.erase(change.gone);
  if (!change.come.empty()) names[change.come] = change.node;
}
void WatchedFolder::change_names(NameChange change) {
  apply(now_, change);
  pending_.push_back(std::move(change));
}

void WatchedFolder::opened(const std::string& path, bool created, bool emptied) {
  if (created) change_names({above(path), {}, path, std::make_shared<Node>()});
  if (emptied && !created) resized(path, 0);
}
void WatchedFolder::written(const std::string& path, long long at, const char* bytes, std::size_t size) {
  if (const auto node = now_.find(path); node != now_.end())
    node->second->pending.push_back({at, std::string(bytes, size), false});
}
void WatchedFolder::resized(const std::string& path, long long size) {
  if (const auto node = now_.find(path); node != now_.end())
    node->second->pending.push_back({size, {}, true});
}
void WatchedFolder::made_folder(const std::string& path) {
  change_names({above(path), {}, path, std::make_shared<Node>(Node{.folder = true})});
}
void WatchedFolder::removed(const std::string& path) {
  change_names({above(path), path, {}, {}});
}
void WatchedFolder::renamed(const std::string& from, const std::string& to) {
  const auto node = now_.find(from);
  if (node != now_.end()) change_names({above(to), from, to, node->second});
}

void WatchedFolder::synced(const std::string& path) {
  const auto node = now_.find(path);
  if (node == now_.end()) return;
  for (const Change& change : node->second->pending) apply(node->second->on_disk, change);
  node->second->pending.clear();
  for (const NameChange& change : pending_)
    if (change.folder == path) apply(on_disk_, change);
  std::erase_if(pending_, [&](const NameChange& change) { return change.folder == path; });
}

std::string WatchedFolder::surviving(const Node& node, Disk disk, std::mt19937& random) {
  constexpr std::size_t kSector = 512;
  std::string bytes = node.on_disk;
  if (disk == Disk::forgets) return bytes;
  for (Change change : node.pending) {
    const unsigned fate = random() % 4;
    if (fate == 0) continue;
    if (fate == 1 && change.bytes.size() > kSector)
      change.bytes.resize(kSector * (1 + random() % (change.bytes.size() / kSector)));
    apply(bytes, change);
  }
  return bytes;
}

void WatchedFolder::lose(Disk disk, unsigned seed) {
  std::mt19937 random(seed);
  Names left = on_disk_;
  if (disk == Disk::shuffles) {
    const std::size_t kept = random() % (pending_.size() + 1);
    for (std::size_t i = 0; i < kept; ++i) apply(left, pending_[i]);
  }
  for (const auto& entry : fs::directory_iterator(root_)) fs::remove_all(entry.path());
  for (const auto& [path, node] : left) {  // folders come before what is in them
    if (path == root_ || !fs::exists(above(path))) continue;
    if (node->folder)
      fs::create_directory(path);
    else
      std::ofstream(path, std::ios::binary) << surviving(*node, disk, random);
  }
}

}  // namespace evet::faults
