#include "tools/trial/group_words.h"

#include <algorithm>
#include <array>

#include "tools/trial/messages.h"
#include "tools/words/in_words.h"

namespace evet::trial {
namespace {

constexpr std::array kKnown = {
    messages::kGroupSite,
    messages::kGroupSeason,
    messages::kGroupObserver,
    messages::kGroupSex,
    messages::kGroupQuality,
    messages::kGroupYearsApart,
    messages::kGroupNotGiven,
    messages::kGroupAPhotoWithoutRemarks,
    messages::kGroupRemarksOnEveryPhoto,
    messages::kGroupNoUsablePhoto,
    messages::kGroupSameYear,
    messages::kGroupOneYear,
    messages::kGroupTwoYears,
    messages::kGroupThreeYears,
    messages::kGroupFemale,
    messages::kGroupMale,
    messages::kGroupUnknown,
};

}  // namespace

std::string group_in_words(const std::string& name) {
  const auto at = std::find_if(kKnown.begin(), kKnown.end(),
                               [&](const MessageText& text) { return name == text.english; });
  return at == kKnown.end() ? name : in_words(*at);
}

}  // namespace evet::trial
