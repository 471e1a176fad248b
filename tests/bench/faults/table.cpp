#include "tests/bench/faults/table.h"

#include <nlohmann/json.hpp>

namespace evet::faults {

std::string text_of(const std::vector<Row>& rows) {
  nlohmann::json json = nlohmann::json::array();
  for (const Row& row : rows) json.push_back({row.what, row.tried, row.wrong, row.first_wrong});
  return json.dump(1, ' ', true, nlohmann::json::error_handler_t::replace) + "\n";
}

std::optional<std::vector<Row>> rows_in(const std::string& text) try {
  std::vector<Row> rows;
  for (const auto& one : nlohmann::json::parse(text))
    rows.push_back({one.at(0).get<std::string>(), one.at(1).get<std::size_t>(), one.at(2).get<std::size_t>(),
                    one.at(3).get<std::string>()});
  return rows;
} catch (const nlohmann::json::exception&) {
  return std::nullopt;
}

void add(std::vector<Row>& all, const std::vector<Row>& more) {
  for (const Row& row : more) {
    const auto same =
        std::find_if(all.begin(), all.end(), [&](const Row& one) { return one.what == row.what; });
    Row& sum = same == all.end() ? all.emplace_back(Row{row.what}) : *same;
    sum.tried += row.tried;
    if (sum.wrong == 0) sum.first_wrong = row.first_wrong;
    sum.wrong += row.wrong;
  }
}

bool print(const std::vector<Row>& rows) {
  std::printf("| what | tried | wrong |\n|---|---:|---:|\n");
  std::size_t wrong = 0;
  for (const Row& row : rows) {
    std::printf("| %s | %zu | %zu%s |\n", row.what.c_str(), row.tried, row.wrong,
                row.wrong > 0 ? (" (first: " + row.first_wrong + ")").c_str() : "");
    wrong += row.wrong;
  }
  return wrong == 0;
}

}  // namespace evet::faults
