// Rows as text, added up, and as the table that is kept.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "tests/bench/faults/row.h"

namespace evet::faults {

std::string text_of(const std::vector<Row>& rows);                 // JSON
std::optional<std::vector<Row>> rows_in(const std::string& text);  // nothing when it is not such a text
// Rows of the same name become one.
void add(std::vector<Row>& all, const std::vector<Row>& more);
// On standard output. Whether nothing was wrong.
bool print(const std::vector<Row>& rows);

}  // namespace evet::faults
