// Reads the published and recomputed answers of tests/data/checkvalues and holds results against them.
#pragma once
#include <string>

#include <nlohmann/json.hpp>

#include "models/capture_histories.h"

namespace evet::models::testing {

// The entry with this id of a topic file ("01_two_occasion").
nlohmann::json check_entry(const std::string& file, const std::string& id);

// Expects `got` to agree with expected[name] within its stated tolerance, and prints the digits of agreement.
void agrees(const nlohmann::json& entry, const nlohmann::json& expected, const std::string& name, double got);
void agrees(const nlohmann::json& entry, const nlohmann::json& expected, const std::string& name,
            const std::vector<double>& got);

CaptureHistories histories_of(const nlohmann::json& history_counts);

}  // namespace evet::models::testing
