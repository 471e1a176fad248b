// Why a verdict was given, in the reader's language.
#pragma once
#include <string>

#include "matcher/catalogue/entry.h"
#include "matcher/catalogue/verdict.h"

namespace evet {

// The program's name in the ledger where somebody accepted its advice on the page; who, stands in the reason alone.
inline constexpr const char* kProgramOnPage = "evet review";

// What the program writes down with a verdict of its own: its answer, and the probability that the verdict's evidence
// has for it. Empty where the evidence has none.
std::string reason_from_evidence(const Verdict& verdict);

// As it is shown. The program's own is worded anew from the evidence, whatever language it was written in; what a
// person wrote, or what was accepted for a person on the page, stays as it was written.
std::string reason_shown(const Actor& by, const Verdict& verdict);

}  // namespace evet
