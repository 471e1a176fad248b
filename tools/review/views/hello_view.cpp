#include <array>
#include <map>

#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/words/in_words.h"

namespace evet::review {
namespace {

// What stands at the foot of every page.
constexpr std::array kCautions = {messages::kFootLicence,   messages::kFootTimeInHand,
                                  messages::kFootDisinfect, messages::kFootNotAlone,
                                  messages::kFootPlaces,    messages::kFootWhoDecides};

}  // namespace

nlohmann::json cautions() {
  nlohmann::json list = nlohmann::json::array();
  for (const MessageText& text : kCautions) list.push_back(in_words(text));
  return list;
}

nlohmann::json hello_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const std::int64_t position = newest_position(catalogue);
  const std::string title = catalogue.title();
  const std::vector<std::string> warnings = catalogue.warnings();
  const Identities& who = catalogue.identities();
  std::map<std::string, std::pair<int, int>> nights;
  for (const CaptureState& capture : who.captures) {
    auto& [captures, unsettled] = nights[capture.facts.night];
    ++captures;
    unsettled += (capture.individual || capture.closed) && !capture.disputed ? 0 : 1;
  }
  nlohmann::json list = nlohmann::json::array();
  for (auto at = nights.rbegin(); at != nights.rend(); ++at)
    list.push_back({{"night", at->first}, {"captures", at->second.first}, {"unsettled", at->second.second}});
  return {{"title", title},
          {"catalogue", call.desk.id},
          {"folder", call.local ? catalogue.folder().string() : catalogue.folder().filename().string()},
          {"none", false},
          {"reader", call.desk.reader},
          {"position", position},
          {"nights", list},
          {"individuals", who.individuals.size()},
          {"disputes", who.disputes.size()},
          {"warnings", warnings},
          {"cautions", cautions()}};
}

}  // namespace evet::review
