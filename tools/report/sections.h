// The parts of the night page, in reading order. Each gives one <section> or an empty string.
#pragma once
#include <string>

#include "tools/report/night_report.h"

namespace evet::report {

std::string head_section(const NightReport& report);        // where, when, who, under which licence
std::string glance_section(const NightReport& report);      // counts that add up to the sheet
std::string conditions_section(const NightReport& report);  // method, effort, weather, licence
std::string captures_section(const NightReport& report);    // every capture in a table
std::string recaptures_section(const NightReport& report);  // both strips side by side
std::string newcomers_section(const NightReport& report);   //
std::string looks_section(const NightReport& report);       // what a person has yet to decide
std::string unusable_section(const NightReport& report);    // photos that failed, and what to do
std::string overrides_section(const NightReport& report);   // recorded although something spoke against it
std::string estimate_section(const NightReport& report);    // discovery curve and numbers with their doubt
std::string cautions_section();                             // what holds for everybody
std::string how_section(const NightReport& report);         // how the figures were made
std::string signature_section(const NightReport& report);   // of the licence holder; for the authority alone

std::string style_sheet();

}  // namespace evet::report
