#include "check_values.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>

namespace evet::models::testing {

using nlohmann::json;

json check_entry(const std::string& file, const std::string& id) {
  std::ifstream input(std::string(EVET_TEST_DATA) + "/checkvalues/" + file + ".json");
  const json topic = json::parse(input);
  for (const json& entry : topic.at("entries"))
    if (entry.at("id") == id) return entry;
  throw std::runtime_error("no entry " + id);
}

namespace {

void agrees_one(const std::string& what, const json& wanted, const json& check, double got) {
  if (wanted.is_null()) {
    EXPECT_TRUE(std::isnan(got)) << what << " is undefined, got " << got;
    return;
  }
  if (wanted.is_string()) {
    ASSERT_EQ(wanted, "inf") << what;
    EXPECT_TRUE(std::isinf(got) && got > 0) << what << " is infinite, got " << got;
    return;
  }
  const double value = wanted;
  const double difference = std::abs(got - value);
  const bool close =
      (check.contains("tol_abs") && difference <= check["tol_abs"].get<double>()) ||
      (check.contains("tol_rel") && difference <= check["tol_rel"].get<double>() * std::abs(value));
  const double digits =
      difference == 0 ? 15 : std::min(15.0, -std::log10(difference / std::max(std::abs(value), 1e-300)));
  EXPECT_TRUE(close) << what << ": wanted " << value << ", got " << got;
  std::printf("  %-58s %16.10g  %4.1f digits\n", what.c_str(), got, digits);
}

}  // namespace

void agrees(const json& entry, const json& expected, const std::string& name, double got) {
  const json& check = expected.at(name);
  agrees_one(entry.at("id").get<std::string>() + " " + name, check.at("value"), check, got);
}

void agrees(const json& entry, const json& expected, const std::string& name,
            const std::vector<double>& got) {
  const json& check = expected.at(name);
  const std::string what = entry.at("id").get<std::string>() + " " + name;
  ASSERT_EQ(check.at("value").size(), got.size()) << what;
  for (std::size_t i = 0; i < got.size(); ++i)
    agrees_one(what + "[" + std::to_string(i) + "]", check.at("value")[i], check, got[i]);
}

CaptureHistories histories_of(const json& history_counts) {
  return histories_from_counts(history_counts.get<std::map<std::string, int>>());
}

}  // namespace evet::models::testing
