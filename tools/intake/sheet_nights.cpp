#include "tools/intake/sheet_nights.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/catalogue/known_nights.h"
#include "tools/intake/messages.h"
#include "tools/words/night_fields.h"
#include "tools/words/text.h"

namespace evet {
namespace {

class Gathering {
 public:
  explicit Gathering(Sheet& sheet) : sheet_(sheet) {}

  template <class Row>
  void add(const Row& row) {
    if (row.of_night.empty()) return;
    const auto same = [&](const SheetNight& one) {
      return one.site == row.site && one.pond == row.pond && one.night == row.night;
    };
    auto at = std::find_if(sheet_.nights.begin(), sheet_.nights.end(), same);
    if (at == sheet_.nights.end())
      at = sheet_.nights.insert(sheet_.nights.end(), {row.site, row.pond, row.night, {}});
    for (const auto& [column, text] : row.of_night) {
      const auto [said, fresh] = at->said.try_emplace(column, SheetNight::Said{row.line, text});
      if (fresh)
        check(*at, column, row.line, text);
      else if (said->second.text != text)
        refuse(row.line, column,
               {Message(messages::kNightSaidOtherwise,
                        {{"text", in_quotes(said->second.text)}, {"line", said->second.line}}),
                messages::kWriteTheSameOrNothing});
    }
  }

 private:
  // Held to the rules of `evet night`, each value by itself.
  void check(SheetNight& night, const std::string& column, std::size_t line, const std::string& text) {
    try {
      night_facts_said({night.site, night.pond, night.night}, {}, {{column, text}}, {});
    } catch (const Error& error) {
      refuse(line, column, error.reason());
      night.said.erase(column);
    }
  }
  void refuse(std::size_t line, const std::string& column, const Reason& reason) {
    sheet_.problems.push_back({line, column, reason});
  }

  Sheet& sheet_;
};

using TextsOfVisits = std::map<NightIntake::Visit, std::map<std::string, std::string>>;

// Whose licence it was and who was there is told by captures; of a night without any, by the night itself.
void add_without_catch(const Sheet& sheet, TextsOfVisits& texts) {
  const auto caught = [&](const NightIntake::Visit& visit) {
    return std::any_of(sheet.rows.begin(), sheet.rows.end(), [&](const SheetRow& row) {
      return row.site == visit.site && row.pond == visit.pond && row.night == visit.night;
    });
  };
  std::map<NightIntake::Visit, std::vector<std::string>> observers;
  for (const NoCatch& none : sheet.no_catches) {
    const NightIntake::Visit visit{none.site, none.pond, none.night};
    if (caught(visit)) continue;
    if (!none.licence.empty()) texts[visit].try_emplace("licence", none.licence);
    auto& here = observers[visit];
    if (!none.observer.empty() && std::find(here.begin(), here.end(), none.observer) == here.end())
      here.push_back(none.observer);
  }
  for (const auto& [visit, codes] : observers)
    for (const std::string& code : codes) {
      std::string& all = texts[visit]["observers"];
      all += (all.empty() ? "" : ", ") + code;
    }
}

}  // namespace

void gather_nights(Sheet& sheet) {
  Gathering gathering(sheet);
  for (const SheetRow& row : sheet.rows) gathering.add(row);
  for (const NoCatch& row : sheet.no_catches) gathering.add(row);
}

std::vector<Body> facts_said(Catalogue& catalogue, const Sheet& sheet, const std::string& reason) {
  TextsOfVisits texts;
  for (const SheetNight& night : sheet.nights)
    for (const auto& [column, said] : night.said)
      texts[{night.site, night.pond, night.night}][column] = said.text;
  add_without_catch(sheet, texts);
  std::vector<Body> out;
  for (const auto& [visit, said] : texts) {
    NightFactsSaid facts = night_facts_said(visit, night_facts_of(catalogue, visit), said, reason);
    if (!facts.changes.empty()) out.emplace_back(std::move(facts));
  }
  return out;
}

}  // namespace evet
