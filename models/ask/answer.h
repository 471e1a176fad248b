// Weights within each family of the table, and the answer to quote: averaged over the models that can be.
#pragma once
#include <string>
#include <vector>

#include "models/ask/fit_choice.h"

namespace evet::models {

// AICc or QAICc, deltas and Akaike weights within each family. A row that has no finite estimate, that the
// data are too few for, or that adds nothing to a smaller one is left out, and says why.
void weigh_rows(std::vector<FittedRow>& rows, double overdispersion, bool overdispersion_is_estimated);

// Burnham & Anderson (2002), sections 4.2-4.3: weighted means with unconditional standard errors. What a
// family is for is averaged: N and its groups (closed), survival, N ever, N by occasion, growth (open),
// survival and N by period (robust). A chance that is the same throughout and that of one interval are figures of their
// own, each averaged over the models that give it: without a date where the former hold most of the weight, with a
// date always. Details of each: "best" (value in the best model), "models", "lowest"
// and "highest" among models with a weight of 0.05 or more. Without any likelihood the first row's estimates
// are the answer.
std::vector<Estimate> averaged_answer(const std::vector<FittedRow>& rows, double level);

// The rows of a family that a figure of the answer is averaged over, or could be.
std::vector<const ModelRow*> rows_behind(const Parameter& what, const std::vector<const ModelRow*>& family);

// The row with the highest weight of the first family that has one; null where there is none.
const FittedRow* best_row(const std::vector<FittedRow>& rows);
const FittedRow* best_row(const std::vector<FittedRow>& rows, const std::string& family);

// An estimate of a row by what it is; survival that is the same throughout also answers for one interval and
// for one group.
const Estimate* find_estimate(const ModelRow& row, const Parameter& what);

}  // namespace evet::models
