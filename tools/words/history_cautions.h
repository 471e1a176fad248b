// What a reader of histories should know of the identities behind them.
#pragma once
#include <string>
#include <vector>

#include "matcher/base/message.h"
#include "matcher/catalogue/histories.h"

namespace evet {

// Why histories may say less than they seem to: sentences for the user; empty when all is settled.
std::vector<Message> cautions(const HistoriesReport& report);

}  // namespace evet
