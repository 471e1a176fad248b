#include "tools/review/page.h"

#include "matcher/base/error.h"
#include "tools/review/assets.h"
#include "tools/review/messages.h"
#include "tools/review/page_words.h"
#include "tools/review/routes.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet::review {

void PageOptions::check() const {
  if (port > 65535)
    throw Error(ErrorKind::usage, in_words(messages::kPortItem, {{"port", std::to_string(port)}}),
                messages::kThereIsNoSuchPort, messages::kNameFreePort);
  if (!reader.empty() && !is_reader_code(reader)) person(reader);
  if (!(second_share >= 0 && second_share <= 1))
    throw Error(ErrorKind::usage, in_words(messages::kShareOfSecondReadings), messages::kDoesNotLieBetween0);
  if (threads < 1)
    throw Error(ErrorKind::usage, in_words(messages::kThreadsItem), messages::kAtLeastOneIsNeeded);
}

Page::Page(const std::filesystem::path& catalogue, Env& env, const PageOptions& options)
    : guard_(env, options.host, options.port, options.passphrase),
      shared_(!options.passphrase.empty()),
      readers_(options.reader),
      house_(env, {options.threads, options.reader, options.second_share, options.homes}),
      env_(env) {
  options.check();
  if (!catalogue.empty()) house_.open(catalogue);
}

Response Page::handle(const Request& request) {
  Response response;
  try {
    const auto target = parse_target(request.target);
    std::optional<Response> stopped;
    {
      const std::lock_guard lock(guard_mutex_);
      stopped = guard_.stop(request, target);
    }
    response = stopped ? *stopped : answer(request, *target);
  } catch (const Error& error) {
    response = error_answer(http_status(error.kind()), name(error.kind()), error.what(),
                            std::string(error.wrong().code()));
  } catch (const std::exception&) {
    // No text from inside: it may hold a path.
    response = error_answer(500, "storage", in_words(messages::kProgramFailedAtThis));
  }
  Guard::seal(response);
  if (request.method == "HEAD") response.body.clear();
  return response;
}

std::string Page::session_of(const Request& request) {
  const std::lock_guard lock(guard_mutex_);
  return guard_.session_of(request);
}

// Who came in by the passphrase and under which code, shown to and answered by who sits at the machine.
// POST {"guest": NUMBER, "yes"}: it is who it says, or it is sent away.
nlohmann::json Page::guests(const Request& request, const std::string& session) {
  if (session != kOwner)
    throw Error(ErrorKind::conflict, in_words(messages::kTheGuests), messages::kSeatAnswersGuests);
  const std::int64_t now_ms = env_.now().unix_ms;
  if (request.method == "POST") {
    const auto body = nlohmann::json::parse(request.body, nullptr, false);
    if (!body.is_object())
      throw Error(ErrorKind::bad_input, in_words(messages::kTheRequest), messages::kBodyIsNotJsonObject);
    const auto number = body.find("guest");
    if (number == body.end() || !number->is_number_integer() || *number < 1 || *number > 1'000'000'000)
      throw Error(ErrorKind::bad_input, "field 'guest'", messages::kIsNotGuestNumber);
    readers_.answer(number->get<int>(), flag_in(body, "yes"), now_ms);
  }
  nlohmann::json list = nlohmann::json::array();
  for (const Guest& guest : readers_.guests()) {
    const char* stands = guest.stands == Guest::Stands::asks    ? "asks"
                         : guest.stands == Guest::Stands::reads ? "reads"
                                                                : "sent_away";
    list.push_back({{"guest", guest.number},
                    {"reader", guest.reader},
                    {"from", guest.from},
                    {"stands", stands},
                    {"heard_s_ago", (now_ms - guest.heard_ms) / 1000}});
    if (guest.holder_heard_ms > 0) list.back()["other_heard_s_ago"] = (now_ms - guest.holder_heard_ms) / 1000;
  }
  return {{"guests", list}};
}

Response Page::answer(const Request& request, const Target& target) {
  if (request.method != "POST") {
    if (target.path.empty()) return knows(request) ? *asset("index.html") : *asset("door.html");
    if (target.path == std::vector<std::string>{"spoken.js"})
      return {.type = "text/javascript; charset=utf-8", .body = spoken_script()};
    if (target.path.size() == 1)
      if (const auto found = asset(target.path[0])) return *found;
  }
  if (request.method == "POST" && target.path == std::vector<std::string>{"api", "window"}) {
    if (session_of(request) != kOwner)
      return error_answer(403, "usage", in_words(messages::kOnlySeatOpensWindows));
    const std::lock_guard lock(guard_mutex_);
    return json_answer({{"url", guard_.url_once()}});
  }
  if (target.path == std::vector<std::string>{"api", "guests"})
    return json_answer(guests(request, session_of(request)));
  const Route* route = find_route(request.method, target);
  if (route == nullptr) return error_answer(404, "not_found", in_words(messages::kNothingAtThisAddress));
  const std::string reader = request.header("x-evet-reader");
  const std::string session = session_of(request);
  readers_.check(session, reader, request.method == "POST", env_.now().unix_ms, request.peer);
  nlohmann::json body = nlohmann::json::object();
  if (request.method == "POST" && !route->raw) {
    body = nlohmann::json::parse(request.body, nullptr, false);
    if (!body.is_object())
      throw Error(ErrorKind::bad_input, in_words(messages::kTheRequest), messages::kBodyIsNotJsonObject);
  }
  if (route->house != nullptr) {
    Visit visit{house_, body, reader, of_this_machine(request.peer)};
    return json_answer(route->house(visit));
  }
  const std::shared_ptr<Desk> desk = house_.desk();
  const bool hello = target.path.back() == "hello";
  nlohmann::json json;
  if (!desk && !hello)
    throw Error(ErrorKind::conflict, in_words(messages::kThePage), messages::kNoCatalogueIsOpen,
                messages::kOpenOneFirst);
  if (!desk) {
    json = hello_without_catalogue(house_);
  } else {
    // A window that still shows another catalogue must not write into this one.
    const std::string shown = request.header("x-evet-catalogue");
    if (!hello && !shown.empty() && shown != desk->id)
      throw Error(ErrorKind::conflict, in_words(messages::kThePage), messages::kAnotherCatalogueWasOpenedIn,
                  messages::kReloadWindowGoOnWith);
    Call call{*desk, target, std::move(body), reader};
    call.local = of_this_machine(request.peer);
    if (route->raw) call.bytes = request.body;
    if (route->picture != nullptr) return route->picture(call);
    const std::lock_guard lock(desk->mutex);
    json = route->view(call);
  }
  if (hello) {
    json["write_key"] = guard_.write_key();
    json["guest"] = session != kOwner;
    json["shared"] = shared_;
    if (session != kOwner) json["reader"] = "";  // that is who sits at the machine
  }
  return json_answer(json);
}

}  // namespace evet::review
