// Which bytes and names of a folder are on the disk, and which the machine still keeps to itself.
#pragma once
#include <filesystem>
#include <map>
#include <memory>
#include <random>
#include <string>
#include <vector>

#include "tests/bench/faults/machine.h"

namespace evet::faults {

class WatchedFolder {
 public:
  // All that is there is on the disk.
  explicit WatchedFolder(const std::filesystem::path& root);

  bool holds(const std::string& path) const;  // whether it lies under the root
  void opened(const std::string& path, bool created, bool emptied);
  void written(const std::string& path, long long at, const char* bytes, std::size_t size);
  void resized(const std::string& path, long long size);
  void made_folder(const std::string& path);
  void removed(const std::string& path);
  void renamed(const std::string& from, const std::string& to);
  void synced(const std::string& path);

  // Leaves in the folder what the disk has.
  void lose(Disk disk, unsigned seed);

 private:
  struct Change {
    long long at = 0;
    std::string bytes{};
    bool resizes = false;
  };
  struct Node {
    bool folder = false;
    std::string on_disk{};
    std::vector<Change> pending{};
  };
  using Names = std::map<std::string, std::shared_ptr<Node>>;
  struct NameChange {
    std::string folder;
    std::string gone{};  // a name; empty: none
    std::string come{};
    std::shared_ptr<Node> node{};
  };
  static void apply(std::string& bytes, const Change& change);
  static void apply(Names& names, const NameChange& change);
  void change_names(NameChange change);
  static std::string surviving(const Node& node, Disk disk, std::mt19937& random);

  std::string root_;
  Names now_, on_disk_;
  std::vector<NameChange> pending_;
};

}  // namespace evet::faults
