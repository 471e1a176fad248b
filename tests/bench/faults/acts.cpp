#include "tests/bench/faults/acts.h"

#include <execinfo.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <map>
#include <optional>

#include "matcher/base/error.h"
#include "matcher/catalogue/audit.h"
#include "tests/bench/faults/machine.h"
#include "tests/bench/faults/program.h"
#include "tests/matcher/catalogue/tamper.h"
#include "tools/evet/out_of_memory.h"
#include "tools/review/page.h"

namespace evet::faults {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

constexpr unsigned kHangs_s = 300;

// Where it crashed, on standard error; then it ends as it would have.
void tell_where(int signal) {
  stop_failing();
  void* frames[64];
  ::backtrace_symbols_fd(frames, ::backtrace(frames, 64), STDERR_FILENO);
  std::signal(signal, SIG_DFL);
  std::raise(signal);
}

// In the checkout that it is run in, else in the one that it was built in.
fs::path night(const std::string& name) {
  const fs::path here = fs::absolute("tests/data/night");
  return (fs::exists(here) ? here : fs::path(EVET_SOURCE_DIR) / "tests/data/night") / name;
}

bool said(const Args& args) {
  return code_of(args) == kDone;
}

// Acknowledged is the right answer. That something does not hold may be said where a fault kept it from being
// seen; that all holds, never where it does not.
bool audited(const fs::path& pond, bool holds) {
  const int code = code_of({"audit", pond.string()});
  if (code == kDone && !holds) std::abort();
  return code == (holds ? kDone : kDoesNotHold);
}

bool take_in(const fs::path& pond, const std::string& sheet) {
  return said({"intake", pond.string(), night(sheet).string(), night("photos").string(), "--by", "KM",
               "--threads", "1"});
}

bool verdict_on_page(const fs::path& pond) {
  review::PageOptions options;
  options.port = 8080;
  review::Page page(pond, system_env(), options);
  review::Request request{"POST",
                          "/api/verdict",
                          {{"host", "127.0.0.1:8080"},
                           {"cookie", "evet_8080=" + page.guard().token()},
                           {"origin", "http://127.0.0.1:8080"},
                           {"sec-fetch-site", "same-origin"},
                           {"content-type", "application/json"},
                           {"x-evet-guard", page.guard().write_key()},
                           {"x-evet-reader", "KM"}},
                          {}};
  Catalogue catalogue = Catalogue::open(pond, system_env(), {.access = Access::read});
  const Identities& who = catalogue.identities();
  const auto& captures = who.captures;
  const auto at = [&](const std::string& name) {
    return std::find_if(captures.begin(), captures.end(),
                        [&](const CaptureState& one) { return one.facts.name == name; })
        ->id.value;
  };
  request.body = json{{"capture", at("d1")}, {"other", at("c1")}, {"answer", "same"}, {"after", 0}}.dump();
  return page.handle(request).status == 200;
}

}  // namespace

std::string sketch(const fs::path& pond) {
  Catalogue catalogue = Catalogue::open(pond, system_env(), {.access = Access::read});
  const Identities& who = catalogue.identities();
  std::map<CaptureId, std::string> names;
  for (const CaptureState& capture : who.captures)
    names[capture.id] = capture.facts.night + "/" + capture.facts.name;
  std::vector<std::string> lines;
  for (const CaptureState& capture : who.captures) {
    std::string line = names[capture.id] + (capture.disputed ? " disputed" : "") + " photos";
    for (const PhotoState& photo : capture.photos) line += " " + photo.name + (photo.usable ? "+" : "-");
    if (capture.individual)
      for (const CaptureId& with : who.individual(*capture.individual)->captures) line += " " + names[with];
    lines.push_back(std::move(line));
  }
  std::sort(lines.begin(), lines.end());
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

Acts::Acts() {
  Signer::use(&keys_);
  const fs::path &at = folder_.path, first = at / "first", second = at / "second", settled = at / "settled",
                 field = at / "field", altered = at / "altered";
  const auto copy = [](const fs::path& from, const fs::path& to) {
    fs::copy(from, to, fs::copy_options::recursive);
  };
  said({"new", first.string(), "--by", "KM"});
  take_in(first, "first.csv");
  said({"rank", first.string(), "--accept", "--threads", "1"});
  copy(first, second);
  take_in(second, "second.csv");
  copy(second, settled);
  said({"rank", settled.string(), "--accept", "--threads", "1"});
  copy(second, field);
  said({"verdict", field.string(), "d2", "different", "c1", "--by", "MO"});
  said({"verdict", field.string(), "d1", "same", "c1", "--by", "MO"});
  copy(settled, altered);
  try_out::tamper_unguarded(altered, "UPDATE entry SET actor = 'ZZ' WHERE position = 3");

  acts_ = {{"intake", first, [](const fs::path& pond) { return take_in(pond, "second.csv"); }, false},
           {"rank", second,
            [](const fs::path& pond) {
              return said({"rank", pond.string(), "--accept", "--threads", "1"});
            },
            false},
           {"verdict", settled,
            [](const fs::path& pond) {
              return said({"verdict", pond.string(), "d3", "new", "--by", "KM", "--reason", "a fork"});
            }},
           {"verdict-elsewhere", settled,
            [](const fs::path& pond) {
              return said({"verdict", pond.string(), "d3", "new", "--by", "KM", "--reason", "a fork"});
            },
            true, true, true, true},
           {"merge", settled,
            [field](const fs::path& pond) {
              return said({"merge", pond.string(), field.string(), "--by", "KM"});
            },
            true, true},
           {"review", second, verdict_on_page},
           {"audit", settled, [](const fs::path& pond) { return audited(pond, true); }, true, true},
           {"audit-here", settled, [](const fs::path& pond) { return audited(pond, true); }},
           {"audit-altered", altered, [](const fs::path& pond) { return audited(pond, false); }, true, false,
            false}};
  for (Act& act : acts_) {
    act.sketch_before = sketch(act.before);
    const fs::path pond = fresh_copy(act, at);
    act.run(pond);
    act.sketch_after = sketch(pond);
  }
}

fs::path fresh_copy(const Act& act, const fs::path& folder) {
  fs::path pond = folder / ("copy-" + std::to_string(::getpid()));
  fs::remove_all(pond);
  fs::copy(act.before, pond, fs::copy_options::recursive);
  return pond;
}

Ended in_child(const Act& act, const fs::path& pond, const std::function<void()>& arm,
               const std::function<void()>& done) {
  constexpr int kRefused = 20;
  const pid_t child = ::fork();
  if (child == 0) {
    ::alarm(kHangs_s);
    end_plainly_without_memory();
    for (const int signal : {SIGABRT, SIGSEGV, SIGBUS, SIGFPE}) std::signal(signal, tell_where);
    int status = kRefused;
    std::optional<ReadersApart> readers;
    OwnDatabases own(system_env(), {});
    if (act.elsewhere) OwnDatabases::use(&own);
    if (act.apart)
      ReadersApart::use(
          &readers.emplace(std::make_shared<ConfinedMaker>(std::vector{ReadersApart::confined()}), 0));
    try {
      arm();
      status = act.run(pond) ? 0 : kRefused;
    } catch (const std::exception&) {  // as run_evet() would tell it
      status = kRefused;
    }
    stop_failing();
    if (done) done();
    ::_exit(status);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  Ended ended;
  if (WIFSIGNALED(status))
    ended.crashed = WTERMSIG(status) == SIGALRM ? "it hung" : "signal " + std::to_string(WTERMSIG(status));
  else if (WEXITSTATUS(status) == kPowerIsGone)
    ended.power_gone = true;
  else if (WEXITSTATUS(status) == 0)
    ended.acknowledged = true;
  else if (WEXITSTATUS(status) == exit_code(ErrorKind::storage))
    ended.without_memory = true;
  else if (WEXITSTATUS(status) != kRefused)
    ended.crashed = "exit code " + std::to_string(WEXITSTATUS(status));
  return ended;
}

void check_after(Row& row, const Act& act, const fs::path& pond, const Ended& ended,
                 const std::string& when) {
  const std::string where = act.name + ", " + when + ": ";
  row.expect(ended.crashed.empty(), where + ended.crashed);
  try {
    const std::string now = sketch(pond);
    if (ended.acknowledged)
      row.expect(now == act.sketch_after, where + "what was acknowledged is not there");
    else if (act.whole)
      row.expect(now == act.sketch_before || now == act.sketch_after, where + "half of it is there");
    {
      Catalogue catalogue = Catalogue::open(pond, system_env(), {.access = Access::read});
      const AuditReport report = audit(catalogue);
      row.expect(report.holds() == act.holds,
                 where + (report.holds() ? "" : report.findings[0].item + ": " + report.findings[0].wrong()));
    }
    if (now == act.sketch_after) return;
    const Ended again = in_child(act, pond, [] {});
    row.expect(again.acknowledged && sketch(pond) == act.sketch_after,
               where + "the same act again does not carry on" + again.crashed);
  } catch (const std::exception& error) {
    row.expect(false, where + error.what());
  }
}

}  // namespace evet::faults
