#include "models/base/moment.h"

#include "models/base/messages.h"

namespace evet::models {

bool Moment::dated() const {
  return first.size() >= 10 && first[4] == '-' && first[7] == '-';
}

std::string Moment::words() const {
  if (first == last) return first;
  return Message(messages::kFromTo, {{"first", first}, {"last", last}}).words();
}

}  // namespace evet::models
