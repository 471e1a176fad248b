// What is wrong with the numbers handed to an estimator: the item, what is wrong, what would be right.
#pragma once
#include <stdexcept>
#include <string>
#include <vector>

#include "matcher/base/message.h"

namespace evet::models {

// One of several things that are wrong with a text.
struct Complaint {
  std::string place;  // "line 7", or a field
  Message wrong, right;
  std::string words() const;  // "line 7: it has 3 cells; the header has 4"
};

class InputError : public std::runtime_error {
 public:
  InputError(const std::string& item, const Message& wrong, const Message& right);
  InputError(const Message& item, const Message& wrong, const Message& right);
  // All of them at once, in `lines` as they are to be read.
  InputError(const Message& item, const std::vector<Complaint>& complaints, const std::string& lines,
             const Message& right);
  const std::string& item() const { return item_; }
  const Message& wrong() const { return wrong_; }
  const Message& right() const { return right_; }
  const std::vector<Complaint>& complaints() const { return complaints_; }  // empty where one thing is wrong
  Message message() const;                                                  // all of it

 private:
  std::string item_;
  Message wrong_, right_;
  std::vector<Complaint> complaints_;
};

}  // namespace evet::models
