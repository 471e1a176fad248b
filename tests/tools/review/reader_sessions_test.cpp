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

TEST(ReaderSessions, ACodeIsFreeAgainWhenItsBrowserIsSilent) {
  constexpr std::int64_t kSilent = ReaderSessions::kSilentMs;
  ReaderSessions sessions;
  EXPECT_EQ(refused(sessions, "a", "TR", true, 0), kMay);
  EXPECT_EQ(refused(sessions, "a", "TR", false, 1000), kMay) << "reading is heard as well";
  EXPECT_EQ(refused(sessions, "b", "TR", false, kSilent), ErrorKind::conflict);
  EXPECT_EQ(refused(sessions, "b", "TR", true, kSilent), ErrorKind::conflict);
  EXPECT_EQ(refused(sessions, "b", "TR", true, kSilent + 1000), kMay);
  EXPECT_EQ(refused(sessions, "a", "TR", false, kSilent + 2000), ErrorKind::conflict);
  EXPECT_EQ(refused(sessions, kOwner, "KM", true, 0), kMay);
  EXPECT_EQ(refused(sessions, "c", "KM", false, 100 * kSilent), ErrorKind::conflict)
      << "the seat at the machine may be left for hours";
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
  EXPECT_EQ(try_say("/api/verdict", {{"capture", pond.fresh[0].value}, {"answer", "new"}}, "KM").status, 200);
  Catalogue catalogue = Catalogue::open(folder.path / "pond", system_env(), {.access = Access::read});
  for (const ListedEntry& one : catalogue.ledger({.kind = Verdict::kKind, .actor = "KM"}))
    EXPECT_GT(one.position, catalogue.ledger({.kind = Verdict::kKind, .actor = "TR"}).back().position);
}

}  // namespace
}  // namespace evet::review
