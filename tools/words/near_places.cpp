#include "tools/words/near_places.h"

#include <algorithm>
#include <map>

#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

std::vector<std::string> words_of_name(const std::string& text) {
  std::vector<std::string> out(1);
  for (const char c : lower_ascii(text))
    if (c == ' ' || c == '-')
      out.emplace_back();
    else
      out.back() += c;
  return out;
}

bool has_number(const std::string& word) {
  return word.find_first_of("0123456789") != std::string::npos;
}

// One letter wrong, dropped, added, or two neighbours swapped.
bool one_slip(const std::string& a, const std::string& b) {
  const std::string &longer = a.size() >= b.size() ? a : b, &shorter = a.size() >= b.size() ? b : a;
  if (longer.size() - shorter.size() > 1) return false;
  std::size_t i = 0;
  while (i < shorter.size() && longer[i] == shorter[i]) ++i;
  const auto rest = [](const std::string& text, std::size_t from) {
    return from < text.size() ? text.substr(from) : std::string();
  };
  if (longer.size() > shorter.size()) return rest(longer, i + 1) == rest(shorter, i);
  const bool swapped =
      i + 1 < a.size() && a[i] == b[i + 1] && a[i + 1] == b[i] && rest(a, i + 2) == rest(b, i + 2);
  return swapped || rest(a, i + 1) == rest(b, i + 1);
}

// The same words but for one, which is long enough that one slip in it does not make another word of it.
bool one_word_mistyped(const std::string& a, const std::string& b) {
  constexpr std::size_t kShortest = 5;
  const std::vector<std::string> ours = words_of_name(a), theirs = words_of_name(b);
  if (ours.size() != theirs.size()) return false;
  int mistyped = 0;
  for (std::size_t i = 0; i < ours.size(); ++i) {
    if (ours[i] == theirs[i]) continue;
    if (has_number(ours[i]) || has_number(theirs[i]) ||
        std::min(ours[i].size(), theirs[i].size()) < kShortest || !one_slip(ours[i], theirs[i]))
      return false;
    ++mistyped;
  }
  return mistyped == 1;
}

std::string letters_alone(const std::string& text) {
  std::string out;
  for (const char c : lower_ascii(text))
    if (c != ' ' && c != '-' && c != '_' && c != '.' && c != '\'') out += c;
  return out;
}

void compare(const std::set<std::string>& written, const std::set<std::string>& known,
             const std::string& site, std::vector<NearPlace>& out) {
  for (const std::string& one : written) {
    if (known.contains(one)) continue;
    const auto near = std::find_if(known.begin(), known.end(), [&](const std::string& other) {
      return letters_alone(other) == letters_alone(one) || one_word_mistyped(other, one);
    });
    if (near != known.end()) out.push_back({one, *near, site});
  }
}

}  // namespace

Message NearPlace::message() const {
  if (site.empty())
    return {messages::kNewSiteNearKnown, {{"written", in_quotes(written)}, {"known", in_quotes(known)}}};
  return {messages::kNewPondNearKnown,
          {{"written", in_quotes(written)}, {"site", in_quotes(site)}, {"known", in_quotes(known)}}};
}

std::vector<NearPlace> near_places(const std::set<SiteAndPond>& written, const std::set<SiteAndPond>& known) {
  const auto sites = [](const std::set<SiteAndPond>& places) {
    std::map<std::string, std::set<std::string>> out;
    for (const auto& [site, pond] : places) {
      out[site];
      if (!pond.empty()) out[site].insert(pond);
    }
    return out;
  };
  const auto names = [](const std::map<std::string, std::set<std::string>>& of) {
    std::set<std::string> out;
    for (const auto& [site, ponds] : of) out.insert(site);
    return out;
  };
  const auto ours = sites(written), theirs = sites(known);
  std::vector<NearPlace> out;
  compare(names(ours), names(theirs), {}, out);
  for (const auto& [site, ponds] : ours)
    if (const auto at = theirs.find(site); at != theirs.end()) compare(ponds, at->second, site, out);
  return out;
}

}  // namespace evet
