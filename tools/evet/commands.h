// The commands of `evet`, a table of name -> function, and the way in.
#pragma once
#include "tools/evet/command.h"

namespace evet {

const std::vector<Command>& commands();

// `args`: the command line after the program's name. Returns the exit code; never throws. Log lines of all
// parts go to `console.err` while it runs.
int run_evet(const Args& args, Console& console);

// One a command, each in a file of its own.
int run_new(const Args& args, Console& console);
int run_intake(const Args& args, Console& console);
int run_night(const Args& args, Console& console);
int run_rank(const Args& args, Console& console);
int run_review(const Args& args, Console& console);
int run_verdict(const Args& args, Console& console);
int run_individuals(const Args& args, Console& console);
int run_histories(const Args& args, Console& console);
int run_estimate(const Args& args, Console& console);
int run_plan(const Args& args, Console& console);
int run_report(const Args& args, Console& console);
int run_merge(const Args& args, Console& console);
int run_audit(const Args& args, Console& console);
int run_proof(const Args& args, Console& console);
int run_share(const Args& args, Console& console);
int run_trial(const Args& args, Console& console);
int run_inspect(const Args& args, Console& console);
int run_card(const Args& args, Console& console);
int run_sheet(const Args& args, Console& console);

}  // namespace evet
