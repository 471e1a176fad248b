#include "tools/review/lru_cache.h"

namespace evet::review {

const std::string* LruCache::find(const std::string& name) {
  const auto at = at_.find(name);
  if (at == at_.end()) return nullptr;
  order_.splice(order_.begin(), order_, at->second);
  return &order_.front().bytes;
}

const std::string& LruCache::keep(const std::string& name, std::string bytes) {
  if (const auto at = at_.find(name); at != at_.end()) {
    size_ -= at->second->bytes.size();
    order_.erase(at->second);
    at_.erase(at);
  }
  size_ += bytes.size();
  order_.push_front({name, std::move(bytes)});
  at_[name] = order_.begin();
  while (size_ > bound_ && order_.size() > 1) {
    size_ -= order_.back().bytes.size();
    at_.erase(order_.back().name);
    order_.pop_back();
  }
  return order_.front().bytes;
}

void LruCache::forget(const std::string& part_of_name) {
  for (auto one = order_.begin(); one != order_.end();) {
    if (one->name.find(part_of_name) == std::string::npos) {
      ++one;
      continue;
    }
    size_ -= one->bytes.size();
    at_.erase(one->name);
    one = order_.erase(one);
  }
}

}  // namespace evet::review
