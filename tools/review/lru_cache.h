// Bytes by name up to a bound, the least recently used dropped first.
#pragma once
#include <cstddef>
#include <list>
#include <map>
#include <string>

namespace evet::review {

class LruCache {
 public:
  explicit LruCache(std::size_t bound) : bound_(bound) {}
  const std::string* find(const std::string& name);
  const std::string& keep(const std::string& name, std::string bytes);
  void forget(const std::string& part_of_name);
  std::size_t size() const { return size_; }

 private:
  struct One {
    std::string name, bytes;
  };
  std::size_t bound_, size_ = 0;
  std::list<One> order_;  // newest first
  std::map<std::string, std::list<One>::iterator> at_;
};

}  // namespace evet::review
