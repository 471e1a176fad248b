#include "models/base/input_error.h"

#include "models/base/messages.h"

namespace evet::models {
namespace {

Message refusal(const std::string& item, const Message& wrong, const Message& right) {
  return {messages::kRefusal, {{"item", item}, {"wrong", wrong}, {"right", right}}};
}

}  // namespace

std::string Complaint::words() const {
  return refusal(place, wrong, right).words();
}

InputError::InputError(const std::string& item, const Message& wrong, const Message& right)
    : std::runtime_error(refusal(item, wrong, right).words()), item_(item), wrong_(wrong), right_(right) {}

InputError::InputError(const Message& item, const Message& wrong, const Message& right)
    : InputError(item.words(), wrong, right) {}

InputError::InputError(const Message& item, const std::vector<Complaint>& complaints,
                       const std::string& lines, const Message& right)
    : InputError(item, {messages::kTheseLines, {{"lines", lines}}}, right) {
  complaints_ = complaints;
}

Message InputError::message() const {
  return refusal(item_, wrong_, right_);
}

}  // namespace evet::models
