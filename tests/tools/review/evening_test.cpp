// An evening from nothing to a night taken in, as the page asks for it; and every way in which it can go wrong.
#include "tools/review/evening.h"

#include <gmock/gmock.h>

#include <fstream>

#include "matcher/catalogue/objection.h"
#include "tests/tools/review/page_fixture.h"

namespace evet::review {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

const fs::path kPhotos = fs::path(EVET_TEST_DATA) / "night" / "photos";

std::string encoded(const std::string& text) {
  std::string out;
  for (const unsigned char c : text) {
    char hex[4];
    std::snprintf(hex, sizeof hex, "%%%02x", c);
    out += hex;
  }
  return out;
}

struct AnEveningOnThePage : APage {
  fs::path home = folder.path / "home";

  void start() {
    page.reset();
    PageOptions options;
    options.port = 8080;
    options.homes = CatalogueHomes{home, home / "catalogues.json"};
    page = std::make_unique<Page>(fs::path(), system_env(), options);
  }
  void SetUp() override {
    start();
    EXPECT_EQ(get("/api/hello")["none"], true);
    say("/api/catalogues/make", {{"title", "Alder Fen"}});
  }
  Response piece(const std::string& name, std::string_view bytes, std::size_t at, std::size_t size,
                 const std::string& upload = "u1") const {
    Request asked = request("POST",
                            "/api/evening/piece?upload=" + upload + "&name=" + encoded(name) +
                                "&at=" + std::to_string(at) + "&size=" + std::to_string(size) + "&modified=5",
                            "KM");
    asked.headers["content-type"] = "application/octet-stream";
    asked.body = bytes;
    return page->handle(asked);
  }
  static std::string bytes_of(const std::string& name) {
    std::ostringstream text;
    text << std::ifstream(kPhotos / name, std::ios::binary).rdbuf();
    return text.str();
  }
  nlohmann::json send(const std::string& name, const std::string& bytes,
                      const std::string& upload = "u1") const {
    nlohmann::json said;
    for (std::size_t at = 0; at < bytes.size(); at += kPieceBytes) {
      const Response response =
          piece(name, std::string_view(bytes).substr(at, kPieceBytes), at, bytes.size(), upload);
      EXPECT_EQ(response.status, 200) << response.body;
      said = nlohmann::json::parse(response.body);
    }
    return said;
  }
  nlohmann::json until(const std::function<bool(const nlohmann::json&)>& holds) const {
    for (int i = 0; i < 1200; ++i) {
      nlohmann::json evening = get("/api/evening");
      if (holds(evening)) return evening;
      std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    ADD_FAILURE() << "it did not come true within a minute: " << get("/api/evening").dump(1);
    return get("/api/evening");
  }
};

bool all_judged(const nlohmann::json& evening) {
  return evening["judged"] == evening["photos_here"];
}
bool not_taking(const nlohmann::json& evening) {
  return evening["taking"]["running"] == false;
}

TEST_F(AnEveningOnThePage, FromNothingToANightTakenIn) {
  for (const char* name : {"A0000-0.jpg", "A0001-0.jpg", "tray.jpg"}) send(name, bytes_of(name));
  nlohmann::json evening = until(all_judged);
  ASSERT_EQ(evening["photos"].size(), 3u);
  EXPECT_EQ(evening["photos"][0]["usable"], true);
  EXPECT_EQ(evening["photos"][2]["usable"], false);
  EXPECT_FALSE(evening["photos"][2]["notes"].empty()) << "it says what to do";
  // Two animals whose photos were taken within seconds are parted by hand.
  say("/api/evening/move", {{"photos", {"A0001-0.jpg"}}, {"to", ""}});
  evening = get("/api/evening");
  ASSERT_EQ(evening["captures"].size(), 3u) << evening["captures"].dump(1);
  // Nothing is known yet: the site and the licence are missing, each told once.
  ASSERT_EQ(evening["check"]["faults"].size(), 2u) << evening["check"].dump(1);
  EXPECT_EQ(evening["check"]["faults"][0]["capture"], "");
  EXPECT_EQ(try_say("/api/evening/take", nlohmann::json::object()).status, 422);

  say("/api/evening/cells",
      {{"cells",
        {{{"capture", ""}, {"column", "site"}, {"text", "Alder Fen"}},
         {{"capture", ""}, {"column", "licence"}, {"text", "L-7"}},
         {{"capture", ""}, {"column", "night"}, {"text", "2024-05-14"}},
         {{"capture", evening["captures"][0]["key"]}, {"column", "sex"}, {"text", "f"}}}}});
  EXPECT_TRUE(get("/api/evening")["check"]["faults"].empty());
  say("/api/evening/take", nlohmann::json::object());
  evening = until(not_taking);
  EXPECT_EQ(evening["taking"]["failed"], "");
  EXPECT_EQ(evening["taking"]["outcome"]["captures"], evening["taking"]["outcome"]["photos"]);
  EXPECT_EQ(evening["taking"]["outcome"]["photos"], 3);
  EXPECT_TRUE(evening["photos"].empty());
  EXPECT_EQ(get("/api/night/2024-05-14")["glance"]["captures"], 3);
  EXPECT_EQ(get("/api/hello")["nights"][0]["night"], "2024-05-14");
  EXPECT_TRUE(fs::exists(home / "alder-fen" / "incoming" / "sheets" / "2024-05-14.csv"));

  // The next evening: the same animal, and the page says who it probably is.
  const nlohmann::json night = get("/api/night/2024-05-14");
  for (const auto& one : night["queue"])
    say("/api/verdict", {{"capture", one["capture"]}, {"answer", "new"}});
  send("A0000-1.jpg", bytes_of("A0000-1.jpg"));
  evening = until([](const nlohmann::json& one) { return !one["photos"][0]["likely"].is_null(); });
  EXPECT_GT(evening["photos"][0]["likely"]["probability"], 0.9) << evening["photos"].dump(1);
  EXPECT_EQ(evening["common"]["site"]["text"], "Alder Fen") << "last night's place";
  EXPECT_EQ(evening["common"]["site"]["proposed"], true);
  EXPECT_EQ(evening["common"]["observer"]["text"], "KM");
}

TEST_F(AnEveningOnThePage, GoesOnAfterTheProgramWasKilled) {
  send("A0000-0.jpg", bytes_of("A0000-0.jpg"));
  const std::string second = bytes_of("A0001-0.jpg");
  piece("A0001-0.jpg", std::string_view(second).substr(0, kPieceBytes), 0, second.size());
  start();
  EXPECT_EQ(get("/api/hello")["none"], true);
  const nlohmann::json known = get("/api/catalogues")["catalogues"];
  ASSERT_EQ(known.size(), 1u);
  EXPECT_EQ(known[0]["title"], "Alder Fen");
  EXPECT_EQ(known[0]["evening_waits"], true);
  say("/api/catalogues/open", {{"id", known[0]["id"]}});
  EXPECT_EQ(get("/api/evening")["photos"].size(), 1u);
  // The half that had come went with the program: the sender is told where to go on.
  const Response rest =
      piece("A0001-0.jpg", std::string_view(second).substr(kPieceBytes), kPieceBytes, second.size());
  EXPECT_EQ(nlohmann::json::parse(rest.body)["have"], 0);
  EXPECT_EQ(send("A0001-0.jpg", second)["photo"], "A0001-0.jpg");
}

TEST_F(AnEveningOnThePage, ThePhotoThatComesTwiceIsThereOnce) {
  const std::string bytes = bytes_of("A0000-0.jpg");
  send("IMG 1.jpg", bytes);
  const nlohmann::json again = send("copy.jpg", bytes, "u2");
  EXPECT_EQ(again["again"], true);
  EXPECT_EQ(again["photo"], "IMG 1.jpg");
  EXPECT_EQ(get("/api/evening")["photos"].size(), 1u);
}

TEST_F(AnEveningOnThePage, TwoPhotosOnTheirWayAtOnceDoNotMix) {
  const std::string a = bytes_of("A0000-0.jpg"), b = bytes_of("A0001-0.jpg");
  piece("x.jpg", std::string_view(a).substr(0, kPieceBytes), 0, a.size(), "u1");
  piece("x.jpg", std::string_view(b).substr(0, kPieceBytes), 0, b.size(), "u2");
  piece("x.jpg", std::string_view(a).substr(kPieceBytes), kPieceBytes, a.size(), "u1");
  piece("x.jpg", std::string_view(b).substr(kPieceBytes), kPieceBytes, b.size(), "u2");
  EXPECT_EQ(get("/api/evening")["photos"].size(), 2u);
}

TEST_F(AnEveningOnThePage, AWrongFileIsNamedAndNothingIsKept) {
  const Response text = piece("notes.jpg", "not a picture", 0, 13);
  EXPECT_EQ(text.status, 415) << text.body;
  EXPECT_THAT(text.body, HasSubstr("notes.jpg"));
  const std::string cut = bytes_of("A0000-0.jpg").substr(0, 50'000);
  const Response half = piece("cut.jpg", cut, 0, cut.size());
  EXPECT_EQ(half.status, 422);
  EXPECT_THAT(half.body, HasSubstr("cut.jpg"));
  EXPECT_EQ(piece("big.jpg", "x", 0, kMostPhotoBytes + 1).status, 413);
  EXPECT_EQ(piece("empty.jpg", "", 0, 0).status, 422);
  EXPECT_EQ(piece("..", "x", 0, 1).status, 422);
  EXPECT_TRUE(get("/api/evening")["photos"].empty());
  EXPECT_FALSE(fs::exists(home / "alder-fen" / "incoming" / "photos"));
}

TEST_F(AnEveningOnThePage, PiecesThatDoNotFitAreNotTaken) {
  const std::string bytes = bytes_of("A0000-0.jpg");
  const auto have = [&](std::size_t at, std::size_t from, std::size_t size) {
    return nlohmann::json::parse(
        piece("a.jpg", std::string_view(bytes).substr(from, size), at, bytes.size()).body)["have"];
  };
  EXPECT_EQ(have(100, 100, 10), 0);
  EXPECT_EQ(have(0, 0, 50), 50);
  EXPECT_EQ(have(40, 40, 50), 50);
  EXPECT_EQ(have(50, 50, 50), 100);
  EXPECT_EQ(have(0, 0, 20), 20) << "begun anew";
}

TEST_F(AnEveningOnThePage, ActsAreHeldToTheirBounds) {
  send("A0000-0.jpg", bytes_of("A0000-0.jpg"));
  for (const auto& [path, body] : std::vector<std::pair<std::string, nlohmann::json>>{
           {"cells", {{"cells", {{{"capture", ""}, {"column", "colour"}, {"text", "red"}}}}}},
           {"cells", {{"cells", "all"}}},
           {"cells", {{"cells", {7}}}},
           {"move", {{"photos", {"A0000-0.jpg"}}, {"to", "k99"}}},
           {"move", {{"photos", {"nobody.jpg"}}, {"to", ""}}},
           {"move", {{"photos", nlohmann::json::array()}, {"to", ""}}},
           {"gap", {{"seconds", -1}}},
           {"gap", {{"seconds", "long"}}},
           {"leave_out", {{"photos", {"A0000-0.jpg"}}, {"out", "yes"}}},
           {"remove", {{"photos", {"A0000-0.jpg"}}}},
           {"nothing", {{"nothing", true}}}}) {
    const Response refused = try_say("/api/evening/" + path, body);
    EXPECT_GE(refused.status, 400) << path << body;
    EXPECT_LT(refused.status, 500) << path << body << refused.body;
  }
  EXPECT_EQ(get("/api/evening")["captures"].size(), 1u);
  EXPECT_EQ(ask("/evening/thumb/" + std::string(64, '0')).status, 404);
  EXPECT_EQ(ask("/evening/thumb/x").status, 422);
  const Response thumb = ask("/evening/thumb/" + get("/api/evening")["photos"][0]["id"].get<std::string>());
  EXPECT_EQ(thumb.type, "image/jpeg");
}

TEST_F(AnEveningOnThePage, ANightWithoutACatchIsTakenIn) {
  say("/api/evening/nothing", {{"nothing", true}});
  for (const auto& [column, text] : std::vector<std::pair<std::string, std::string>>{
           {"site", "Alder Fen"}, {"licence", "L-7"}, {"night", "2024-05-20"}})
    say("/api/evening/cells", {{"cells", {{{"capture", ""}, {"column", column}, {"text", text}}}}});
  say("/api/evening/take", nlohmann::json::object());
  const nlohmann::json evening = until(not_taking);
  EXPECT_EQ(evening["taking"]["failed"], "");
  EXPECT_EQ(evening["taking"]["outcome"]["nothing_caught"], "2024-05-20");
}

TEST_F(AnEveningOnThePage, APlaceSpeltNearlyAsAKnownOneIsTakenInOnlyWithAReason) {
  const auto write = [&](const std::string& column, const std::string& text) {
    say("/api/evening/cells", {{"cells", {{{"capture", ""}, {"column", column}, {"text", text}}}}});
  };
  say("/api/evening/nothing", {{"nothing", true}});
  write("site", "Alder Fen"), write("licence", "L-7"), write("night", "2024-05-20");
  say("/api/evening/take", nlohmann::json::object());
  until(not_taking);
  say("/api/evening/nothing", {{"nothing", true}});
  write("night", "2024-05-21"), write("site", "Aldre Fen"), write("licence", "L-7");
  const nlohmann::json asks = get("/api/evening")["check"]["asks"];
  ASSERT_EQ(asks.size(), 1u);
  EXPECT_EQ(asks[0]["column"], "site");
  const Response refused = try_say("/api/evening/take", nlohmann::json::object());
  EXPECT_EQ(refused.status, 409);
  EXPECT_THAT(refused.body, HasSubstr("spelt nearly as 'Alder Fen'"));
  say("/api/evening/take", {{"in_spite", "another fen, two miles north"}});
  EXPECT_EQ(until(not_taking)["taking"]["failed"], "");
  Catalogue catalogue = Catalogue::open(home / "alder-fen", system_env(), {.access = Access::read});
  const std::vector<Overruled> told = overruled(catalogue);
  ASSERT_EQ(told.size(), 1u);
  EXPECT_EQ(told[0].code, "near_place");
  EXPECT_EQ(told[0].reason, "another fen, two miles north");
}

TEST_F(AnEveningOnThePage, AWindowOfAnotherCatalogueDoesNotWriteIntoThisOne) {
  const std::string first = get("/api/hello")["catalogue"];
  say("/api/catalogues/make", {{"title", "Long Mere"}});
  Request asked = request("POST", "/api/evening/nothing", "KM");
  asked.headers["x-evet-catalogue"] = first;
  asked.body = R"({"nothing": true})";
  EXPECT_EQ(page->handle(asked).status, 409);
  asked.headers["x-evet-catalogue"] = get("/api/hello")["catalogue"];
  EXPECT_EQ(page->handle(asked).status, 200);
  EXPECT_EQ(get("/api/catalogues")["catalogues"].size(), 2u);
}

TEST_F(AnEveningOnThePage, ANameThatIsTakenOrNoneIsRefused) {
  EXPECT_EQ(try_say("/api/catalogues/make", {{"title", "alder fen"}}).status, 409);
  EXPECT_EQ(try_say("/api/catalogues/make", {{"title", "../.."}}).status, 422);
  EXPECT_EQ(try_say("/api/catalogues/make", {{"title", ""}}).status, 422);
  EXPECT_EQ(try_say("/api/catalogues/open", {{"id", "../../etc"}}).status, 404);
}

TEST_F(AnEveningOnThePage, OnlyThePageSendsPhotos) {
  Request asked = request("POST", "/api/evening/piece?upload=u&name=a.jpg&at=0&size=4&modified=0", "KM");
  asked.body = "abcd";
  EXPECT_EQ(page->handle(asked).status, 415) << "said to be JSON";
  asked.headers["content-type"] = "application/octet-stream";
  asked.headers.erase("x-evet-guard");
  EXPECT_EQ(page->handle(asked).status, 403);
  Request other = request("POST", "/api/evening/nothing", "KM");
  other.headers["content-type"] = "application/octet-stream";
  EXPECT_EQ(page->handle(other).status, 415);
}

TEST_F(AnEveningOnThePage, WithoutACatalogueTheRestOfThePageSaysSo) {
  start();
  for (const char* path : {"/api/night", "/api/evening", "/api/individuals", "/api/ledger"})
    EXPECT_EQ(ask(path).status, 409) << path;
}

}  // namespace
}  // namespace evet::review
