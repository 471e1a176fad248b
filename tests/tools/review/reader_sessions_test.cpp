// A reader's code is its session's: no header makes a guest of the page speak in another's name.
#include "tools/review/reader_sessions.h"

#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "tests/tools/review/page_fixture.h"
#include "tools/review/guard.h"

namespace evet::review {
namespace {

ErrorKind refused(ReaderSessions& sessions, const std::string& session, const std::string& reader,
                  bool writes, std::int64_t now_ms = 0) {
  try {
    sessions.check(session, reader, writes, now_ms);
  } catch (const Error& error) {
    return error.kind();
  }
  return ErrorKind::usage;  // not refused
}
constexpr ErrorKind kMay = ErrorKind::usage;

TEST(ReaderSessions, TheSeatAtTheMachineIsPassedOn) {
  ReaderSessions sessions;
  for (const char* reader : {"KM", "TR", "KM"}) EXPECT_EQ(refused(sessions, kOwner, reader, true), kMay);
}

TEST(ReaderSessions, AGuestKeepsToTheCodeThatItFirstWroteUnder) {
  ReaderSessions sessions;
  EXPECT_EQ(refused(sessions, "a", "TR", false), kMay);
  EXPECT_EQ(refused(sessions, "a", "TX", false), kMay) << "a slip while nothing was said yet";
  EXPECT_EQ(refused(sessions, "a", "TR", true), kMay);
  EXPECT_EQ(refused(sessions, "a", "TR", true), kMay);
  EXPECT_EQ(refused(sessions, "a", "KM", true), ErrorKind::conflict);
  EXPECT_EQ(refused(sessions, "a", "KM", false), ErrorKind::conflict)
      << "what KM has judged is not TR's to see";
  EXPECT_EQ(refused(sessions, "a", "", false), kMay);
}

TEST(ReaderSessions, NoGuestSpeaksUnderTheCodeOfAnother) {
  ReaderSessions sessions;
  EXPECT_EQ(refused(sessions, kOwner, "KM", true), kMay);
  EXPECT_EQ(refused(sessions, "a", "KM", true), ErrorKind::conflict);
  EXPECT_EQ(refused(sessions, "a", "TR", true), kMay);
  EXPECT_EQ(refused(sessions, "b", "TR", true), ErrorKind::conflict);
  EXPECT_EQ(refused(sessions, kOwner, "TR", true), kMay) << "the seat at the machine goes before";
  EXPECT_EQ(refused(sessions, "a", "TR", true), ErrorKind::conflict);
}

constexpr std::int64_t kHourMs = 3'600'000;

// However long its browser is silent, a code goes to another only when who sits at the machine says yes.
TEST(ReaderSessions, NobodyTakesASilentReadersCodeUnnoticed) {
  ReaderSessions sessions;
  EXPECT_EQ(refused(sessions, "a", "TR", true, 0), kMay);
  EXPECT_EQ(refused(sessions, "b", "TR", false, 9 * kHourMs), ErrorKind::conflict);
  EXPECT_EQ(refused(sessions, "b", "TR", true, 9 * kHourMs), ErrorKind::conflict);
  ASSERT_EQ(sessions.guests().size(), 2u);
  const Guest asks = sessions.guests()[1];
  EXPECT_EQ(asks.stands, Guest::Stands::asks);
  EXPECT_EQ(asks.reader, "TR");
  EXPECT_EQ(asks.heard_ms, 9 * kHourMs);

  sessions.answer(asks.number, false, 9 * kHourMs);
  EXPECT_EQ(refused(sessions, "b", "TR", true, 10 * kHourMs), ErrorKind::conflict);
  EXPECT_EQ(sessions.guests()[1].stands, Guest::Stands::sent_away) << "and asks no more";
  EXPECT_EQ(refused(sessions, "b", "OB", true, 10 * kHourMs), kMay) << "under a code of its own";
  EXPECT_EQ(refused(sessions, "a", "TR", true, 10 * kHourMs), kMay);
}

TEST(ReaderSessions, WhoLostTheCookieReadsOnAfterAYes) {
  ReaderSessions sessions;
  EXPECT_EQ(refused(sessions, "a", "TR", true), kMay);
  EXPECT_EQ(refused(sessions, "b", "TR", false), ErrorKind::conflict);
  sessions.answer(2, true, 0);
  EXPECT_EQ(refused(sessions, "b", "TR", true), kMay);
  EXPECT_EQ(refused(sessions, "a", "TR", true), ErrorKind::conflict)
      << "the browser that had it asks in turn";
  EXPECT_EQ(sessions.guests()[0].stands, Guest::Stands::asks);
  EXPECT_THROW(sessions.answer(7, true, 0), Error);
}

// Whoever is the first to use a code is seen, and can be sent away.
TEST(ReaderSessions, EveryGuestIsListedAndCanBeSentAway) {
  ReaderSessions sessions("KM");
  EXPECT_EQ(refused(sessions, "a", "KM", true), ErrorKind::conflict) << "the machine's own from the start";
  EXPECT_TRUE(sessions.guests().empty()) << "and nobody is asked about it";
  EXPECT_EQ(refused(sessions, "a", "TR", false), kMay);
  EXPECT_TRUE(sessions.guests().empty()) << "has only looked on";
  sessions.check("a", "TR", true, 1000, "192.168.4.7");
  ASSERT_EQ(sessions.guests().size(), 1u);
  EXPECT_EQ(sessions.guests()[0].from, "192.168.4.7");
  sessions.answer(1, false, 2000);
  EXPECT_EQ(refused(sessions, "a", "TR", true, 3000), ErrorKind::conflict);
  EXPECT_EQ(refused(sessions, "b", "TR", true, 3000), kMay) << "the code is free for who it is";
  sessions.answer(1, true, 4000);
  EXPECT_EQ(refused(sessions, "a", "TR", true, 5000), kMay) << "sent away by mistake, let in again";
}

TEST_F(APage, AGuestWithThePassphraseReadsUnderOneCode) {
  open();
  PageOptions options;
  options.port = 8080, options.passphrase = "wet hands, clean gloves", options.reader = "KM";
  page = std::make_unique<Page>(folder.path / "pond", system_env(), options);
  Request enter = request("POST", "/enter", "");
  enter.headers.erase("cookie");
  enter.body = options.passphrase;
  const Response door = page->handle(enter);
  ASSERT_EQ(door.status, 303);
  const std::string set = door.headers.at("Set-Cookie");
  EXPECT_EQ(set.find(page->guard().token()), std::string::npos) << "a session of its own";
  const auto as_guest = [&](const std::string& reader, const std::string& answer) {
    Request said = request("POST", "/api/verdict", reader);
    said.headers["cookie"] = set.substr(0, set.find(';'));
    said.body = nlohmann::json{{"capture", pond.fresh[0].value}, {"answer", answer}, {"after", 0}}.dump();
    return page->handle(said);
  };
  EXPECT_NE(set.find("Max-Age="), std::string::npos) << "a phone's browser is closed between two animals";
  Request hello = request("GET", "/api/hello", "");
  EXPECT_EQ(nlohmann::json::parse(page->handle(hello).body)["reader"], "KM");
  hello.headers["cookie"] = set.substr(0, set.find(';'));
  EXPECT_EQ(nlohmann::json::parse(page->handle(hello).body)["reader"], "")
      << "the one at the machine is not the guest";
  EXPECT_EQ(as_guest("TR", "new").status, 200);
  const Response refused = as_guest("KM", "new");
  EXPECT_EQ(refused.status, 409);
  EXPECT_EQ(nlohmann::json::parse(refused.body)["error"]["code"], "browser_wrote_as_reader") << refused.body;
  Request list = request("GET", "/api/guests", "KM");
  EXPECT_EQ(nlohmann::json::parse(page->handle(list).body)["guests"][0]["reader"], "TR")
      << "seen at the machine";
  list.headers["cookie"] = set.substr(0, set.find(';'));
  EXPECT_EQ(page->handle(list).status, 409) << "and answered there alone";
  EXPECT_EQ(try_say("/api/guests", {{"guest", 99}, {"yes", true}}).status, 404);
  EXPECT_EQ(try_say("/api/guests", {{"guest", "1"}, {"yes", true}}).status, 422);
  EXPECT_EQ(try_say("/api/guests", {{"guest", 1}}).status, 422);
  EXPECT_EQ(try_say("/api/verdict", {{"capture", pond.fresh[0].value}, {"answer", "new"}}, "KM").status, 200);
  Catalogue catalogue = Catalogue::open(folder.path / "pond", system_env(), {.access = Access::read});
  for (const ListedEntry& one : catalogue.ledger({.kind = Verdict::kKind, .actor = "KM"}))
    EXPECT_GT(one.position, catalogue.ledger({.kind = Verdict::kKind, .actor = "TR"}).back().position);
}

}  // namespace
}  // namespace evet::review
