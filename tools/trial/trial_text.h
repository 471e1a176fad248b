// The scores of a trial as a table to read.
#pragma once
#include <string>

#include "tools/trial/trial_score.h"

namespace evet::trial {

// Markdown: one line a figure, with its 95 % interval and what it was counted from.
std::string markdown(const Trial& trial, const Scores& scores);

// "98.0 % (95.1-99.6), 196 of 200"
std::string text_of(const Rate& rate);

}  // namespace evet::trial
