// A line between two processes of which one may have been taken over by what it read: plain values and bytes
// of stated lengths, none of them believed to be more than that, and none waited for beyond a deadline.
#pragma once
#include <chrono>
#include <cstddef>
#include <span>
#include <stdexcept>
#include <string>
#include <type_traits>

namespace evet {

// The other end has gone, or says more than it may.
struct LineBroken : std::runtime_error {
  using std::runtime_error::runtime_error;
};
struct LineTooSlow : LineBroken {
  using LineBroken::LineBroken;
};

class Line {
 public:
  explicit Line(int fd) : fd_(fd) {}  // a stream socket that somebody else closes
  // 0: no limit. From now on.
  void allow_seconds(int seconds);

  void put(const void* from, std::size_t size);
  void get(void* to, std::size_t size);
  template <class Value>
  void put_value(const Value& value) {
    static_assert(std::is_trivially_copyable_v<Value>);
    put(&value, sizeof value);
  }
  template <class Value>
  Value get_value() {
    static_assert(std::is_arithmetic_v<Value>);
    Value value;
    get(&value, sizeof value);
    return value;
  }
  void put_text(const std::string& text);
  std::string get_text(std::size_t at_most);

 private:
  void wait(short for_what) const;
  int fd_;
  std::chrono::steady_clock::time_point until_ = std::chrono::steady_clock::time_point::max();
};

}  // namespace evet
