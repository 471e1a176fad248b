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
                        {{"text", evet::quoted(said->second.text)}, {"line", said->second.line}}),
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

}  // namespace

void gather_nights(Sheet& sheet) {
  Gathering gathering(sheet);
  for (const SheetRow& row : sheet.rows) gathering.add(row);
  for (const NoCatch& row : sheet.no_catches) gathering.add(row);
}

std::vector<Body> facts_said(Catalogue& catalogue, const Sheet& sheet, const std::string& reason) {
  std::vector<Body> out;
  for (const SheetNight& night : sheet.nights) {
    const NightIntake::Visit visit{night.site, night.pond, night.night};
    std::map<std::string, std::string> texts;
    for (const auto& [column, said] : night.said) texts[column] = said.text;
    NightFactsSaid facts = night_facts_said(visit, night_facts_of(catalogue, visit), texts, reason);
    if (!facts.changes.empty()) out.emplace_back(std::move(facts));
  }
  return out;
}

}  // namespace evet
