// Any bytes as a model card: one that fits, or an InputError, and nothing else.
#include <cstdint>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "models/ask/model_card.h"
#include "models/base/input_error.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto json = nlohmann::json::parse(data, data + size, nullptr, false);
  if (json.is_discarded()) return 0;
  try {
    const evet::models::ModelCard card = evet::models::read_model_card(json);
    if (card.level && !(*card.level > 0 && *card.level < 1)) std::abort();
    if (card.bootstrap < 0) std::abort();
  } catch (const evet::models::InputError&) {
  }
  return 0;
}
