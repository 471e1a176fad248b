// What this program calls itself in ledgers, reports and on the command line.
#pragma once

namespace evet {

inline constexpr const char* kProgram = "evet 0.1.0";

}  // namespace evet
