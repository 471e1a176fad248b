#include "tools/intake/draft_check.h"

#include <algorithm>

#include "tools/intake/camera_clock.h"
#include "tools/intake/intake_night.h"
#include "tools/intake/intake_plan.h"
#include "tools/intake/near_known_places.h"
#include "tools/intake/read_sheet.h"
#include "tools/intake/sheet_nights.h"

namespace evet {
namespace {

class Faults {
 public:
  Faults(const Draft& draft, const DraftSheet& sheet, std::vector<CellFault>& out)
      : draft_(draft), sheet_(sheet), out_(out) {}

  void add(std::size_t line, const std::string& column, std::string sentence) {
    CellFault fault{.capture = {}, .photo = {}, .column = column, .sentence = std::move(sentence)};
    if (line >= 2 && line - 2 < sheet_.rows.size()) {
      const DraftSheet::Row& row = sheet_.rows[line - 2];
      fault.capture = row.capture;
      const DraftCapture* capture = draft_.capture(row.capture);
      if (column == "photo" || column.empty())
        fault.photo = row.photo;
      else if (capture != nullptr && !capture->cells.contains(column) && column != "capture" &&
               common_column(column))
        fault.capture.clear();  // it stands, or is missing, at the top
    }
    const bool known = std::any_of(out_.begin(), out_.end(), [&](const CellFault& one) {
      return one.capture == fault.capture && one.photo == fault.photo && one.column == fault.column &&
             one.sentence == fault.sentence;
    });
    if (!known) out_.push_back(std::move(fault));
  }

 private:
  static bool common_column(const std::string& column) {
    for (const char* one : {"site", "pond", "night", "observer", "licence", "latitude", "longitude", "trap"})
      if (column == one) return true;
    const auto& of_night = night_columns();
    return std::find(of_night.begin(), of_night.end(), column) != of_night.end();
  }

  const Draft& draft_;
  const DraftSheet& sheet_;
  std::vector<CellFault>& out_;
};

std::vector<TimedPhoto> timed(const Draft& draft, const Sheet& sheet) {
  std::vector<TimedPhoto> out;
  for (const SheetRow& row : sheet.rows)
    if (const DraftPhoto* photo = draft.photo(row.photo); photo != nullptr && !photo->taken_at.empty())
      out.push_back({row.photo, row.night, photo->taken_at});
  return out;
}

}  // namespace

DraftCheck check_draft(const Draft& draft, const Proposed& proposed, Catalogue& catalogue, Env& env) {
  DraftCheck out;
  const DraftSheet written = sheet_of(draft, proposed);
  if (written.rows.empty()) return out;
  Sheet sheet = read_sheet(written.csv, {.today = today(env)});
  Faults faults(draft, written, out.faults), asks(draft, written, out.asks);
  for (const SheetProblem& problem : sheet.problems)
    faults.add(problem.line, problem.column, problem.reason.words());
  out.captures = sheet.captures.size(), out.photos = sheet.rows.size();
  sheet.problems.clear();
  std::vector<ReadPhoto> reads(sheet.rows.size());
  for (std::size_t i = 0; i < reads.size(); ++i)
    if (const DraftPhoto* photo = draft.photo(sheet.rows[i].photo)) reads[i].id = photo->id;
  const IntakePlan plan = plan_night(catalogue, sheet, reads, false);
  for (const SheetProblem& refused : plan.refused) faults.add(refused.line, "photo", refused.reason.words());
  for (const NearPlace& near : near_known_places(catalogue, plan)) {
    const SheetProblem problem = refused_for(near, sheet);
    asks.add(problem.line, problem.column, problem.reason.words());
  }
  out.photos_known = plan.photos_known;
  for (const Message& notice : plan.noticed) out.noticed.push_back(notice.words());
  for (const Message& hint : camera_clock_hints(timed(draft, sheet))) out.noticed.push_back(hint.words());
  return out;
}

}  // namespace evet
