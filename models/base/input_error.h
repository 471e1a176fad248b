// What is wrong with the numbers handed to an estimator: the item, what is wrong, what would be right.
#pragma once
#include <stdexcept>
#include <string>

namespace evet::models {

class InputError : public std::runtime_error {
 public:
  InputError(std::string item, const std::string& what_is_wrong, const std::string& what_would_be_right);
  const std::string& item() const { return item_; }

 private:
  std::string item_;
};

}  // namespace evet::models
