#include "matcher/catalogue/statements.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/base/moment.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

// Sorts one body into its list; kinds that say nothing about identity are left out.
struct Adder {
  Statements& to;
  const Stamp& stamp;
  void operator()(const CatalogueMade&) const {}
  void operator()(const Reading&) const {}
  void operator()(const Calibration&) const {}
  void operator()(const NightFactsSaid&) const {}
  void operator()(const Capture& body) const { to.captures.push_back({stamp, body}); }
  void operator()(const Correction& body) const { to.corrections.push_back({stamp, body}); }
  void operator()(const PhotoTaken& body) const {
    to.photos.push_back({stamp, {body.photo, body.capture, body.name, body.examination.usable}});
  }
  void operator()(const Reexamined& body) const {
    to.examinations.push_back({stamp, {body.photo, body.examination.usable}});
  }
  void operator()(const Verdict& body) const { to.verdicts.push_back({stamp, body}); }
  void operator()(const LabelGiven& body) const { to.labels.push_back({stamp, body}); }
  void operator()(const Closing& body) const { to.closings.push_back({stamp, body}); }
  void operator()(const Withdrawal& body) const { to.withdrawals.push_back({stamp, body}); }
  void operator()(const Merge& body) const { to.merges.push_back({stamp, body}); }
  void operator()(const NightIntake& body) const { to.intakes.push_back({stamp, body}); }
};

}  // namespace

Stamp stamp_of(const Entry& entry) {
  return {entry.id, entry.device, entry.seq, entry.time, entry.actor};
}

void add(Statements& statements, const Stamp& stamp, const Body& body) {
  std::visit(Adder{statements, stamp}, body);
}

void add(Statements& statements, const Entry& entry) {
  std::string why;
  if (const auto body = readable(entry, &why))
    add(statements, stamp_of(entry), *body);
  else
    statements.set_aside.push_back({entry.id, std::move(why)});
}

Statements statements_of(std::span<const Entry> entries) {
  Statements statements;
  for (const Entry& entry : entries) add(statements, entry);
  return statements;
}

Statements as_it_stood(const Statements& statements, const std::string& as_of) {
  const auto moment = parse_instant(as_of);
  if (!moment && !is_date(as_of))
    throw Error(ErrorKind::bad_input, as_of, messages::kNeitherDateNorTime, messages::kWriteDateOrTime);
  const auto later = [&](const auto& said) {
    if (!moment) return said.stamp.time.substr(0, 10) > as_of;
    const auto at = parse_instant(said.stamp.time);
    return at && at->unix_ms > moment->unix_ms;
  };
  Statements then = statements;
  std::erase_if(then.captures, later);
  std::erase_if(then.photos, later);
  std::erase_if(then.verdicts, later);
  std::erase_if(then.examinations, later);
  std::erase_if(then.corrections, later);
  std::erase_if(then.labels, later);
  std::erase_if(then.closings, later);
  std::erase_if(then.withdrawals, later);
  std::erase_if(then.merges, later);
  std::erase_if(then.intakes, later);
  return then;
}

}  // namespace evet
