// The costs of the errors in words: "a wrong join is ten times worse than a missed one, a
// look costs a twentieth".
#pragma once
#include <string>

#include "matcher/catalogue/calibration.h"

namespace evet {

// Clauses parted by commas, semicolons or "and", each with "wrong join" or "look" and an amount: a number, a
// fraction or a number word, in missed joins. What is not named stays as in `otherwise`. Errors: usage, with
// the clause that is not understood.
Costs costs_from_words(const std::string& text, const Costs& otherwise = {});

// "A wrong join is 10 times as bad as a missed one; a look costs 0.05 of a missed join."
std::string in_words(const Costs& costs);

Costs costs_of(const SearchOptions& options);
void set_costs(SearchOptions& options, const Costs& costs);

}  // namespace evet
