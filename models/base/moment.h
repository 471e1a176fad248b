// When an occasion or a period was, by the labels of its first and last occasion.
#pragma once
#include <string>
#include <utility>

namespace evet::models {

struct Moment {
  Moment(const char* occasion) : Moment(std::string(occasion)) {}
  Moment(std::string occasion) : first(occasion), last(std::move(occasion)) {}
  Moment(std::string first_occasion, std::string last_occasion)
      : first(std::move(first_occasion)), last(std::move(last_occasion)) {}

  bool dated() const;         // a label such as "3" says no more than the number itself
  std::string words() const;  // "2031-04-10", "2031-04-10 to 2031-04-14"
  bool operator==(const Moment&) const = default;

  std::string first, last;
};

}  // namespace evet::models
