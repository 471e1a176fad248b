// The options by which commands choose captures for a history: place, time, and which nights were worked.
#pragma once
#include <map>
#include <string_view>

#include "matcher/catalogue/histories.h"
#include "tools/evet/command.h"

namespace evet {

class HistoriesWanted {
 public:
  void add_options(CLI::App& app);
  // Errors: those of the nights file.
  HistoriesOptions options() const;
  bool any_but_gap() const;  // whether any of the options was given, the gap aside
  int gap_days() const { return options_.period_gap_days; }  // 0: none was given

 private:
  HistoriesOptions options_;
  std::string nights_;
};

// A CSV with the columns night and effort: every night that was worked, also those without a catch, in
// whatever unit the survey counts. Errors: bad_input naming the line.
std::map<std::string, double> read_nights_worked(std::string_view text, const std::string& item);

}  // namespace evet
