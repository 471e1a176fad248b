// Why a person should look at a capture; the same on the command line, on the page
// and in the report.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "matcher/base/message.h"
#include "matcher/catalogue/people_said.h"
#include "matcher/search/rank.h"

namespace evet {

constexpr double kLeastMatchSaid = 0.05;  // a match less likely is not worth a sentence

struct LookNames {
  std::function<std::string(const IndividualId&)> individual;
  std::function<std::string(const CaptureId&)> capture;
};
// Of a capture advised 'look'; of another, only what must be known all the same: that another capture of the
// night may be the same new animal. Whom people have ruled out is told by ruled_out_words().
std::vector<Message> look_reasons(const RankedCapture& ranked, const PeopleSaid& people,
                                  const SearchOptions& costs, const LookNames& names);

// "not N-012: said to be different by KM on 2031-05-15", one for each word of a reader.
std::vector<Message> ruled_out_words(const PeopleSaid& people, const LookNames& names);

std::vector<std::string> in_words(const std::vector<Message>& reasons);

}  // namespace evet
