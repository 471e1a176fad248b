#include "models/base/input_error.h"

#include <utility>

namespace evet::models {

InputError::InputError(std::string item, const std::string& what_is_wrong,
                       const std::string& what_would_be_right)
    : std::runtime_error(item + ": " + what_is_wrong + "; " + what_would_be_right), item_(std::move(item)) {}

}  // namespace evet::models
