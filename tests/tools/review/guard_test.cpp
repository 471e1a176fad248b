#include "tools/review/guard.h"

#include <gtest/gtest.h>

#include <set>

namespace evet::review {
namespace {

// The machine, with a clock that the test sets.
class Clock : public Env {
 public:
  std::int64_t ms = 1'900'000'000'000;
  Instant now() override { return {ms, 0}; }
  void fill_random(std::span<std::byte> out) override { system_env().fill_random(out); }
  Bytes read_file(const std::filesystem::path&) override { return {}; }
  Bytes read_start(const std::filesystem::path&, size_t) override { return {}; }
  void write_file(const std::filesystem::path&, BytesView) override {}
  void sync_file(const std::filesystem::path&) override {}
  void sync_folder(const std::filesystem::path&) override {}
  void rename(const std::filesystem::path&, const std::filesystem::path&) override {}
  void rename_new(const std::filesystem::path&, const std::filesystem::path&) override {}
  void remove(const std::filesystem::path&) override {}
  void make_folders(const std::filesystem::path&) override {}
  std::vector<std::string> list_folder(const std::filesystem::path&) override { return {}; }
  bool exists(const std::filesystem::path&) override { return false; }
  FileFacts facts(const std::filesystem::path&) override { return {}; }
  bool is_writable(const std::filesystem::path&) override { return false; }
  bool on_network_drive(const std::filesystem::path&) override { return false; }
  std::string identity(const std::filesystem::path&) override { return {}; }
};

struct TheGuard : testing::Test {
  Clock clock;
  Guard guard{clock, "127.0.0.1", 8080};

  Request read(const std::string& target = "/api/hello") const {
    return {"GET", target, {{"host", "127.0.0.1:8080"}, {"cookie", "evet_8080=" + guard.token()}}, {}};
  }
  Request write() const {
    Request request = read("/api/verdict");
    request.method = "POST";
    request.body = "{}";
    request.headers["origin"] = "http://127.0.0.1:8080";
    request.headers["sec-fetch-site"] = "same-origin";
    request.headers["content-type"] = "application/json";
    request.headers["x-evet-guard"] = guard.write_key();
    return request;
  }
  // 0: it may pass.
  int status(const Request& request) {
    const auto stopped = guard.stop(request, parse_target(request.target));
    return stopped ? stopped->status : 0;
  }
};

TEST_F(TheGuard, LetsThePageItselfReadAndWrite) {
  EXPECT_EQ(status(read()), 0);
  EXPECT_EQ(status(write()), 0);
}

TEST_F(TheGuard, GivesAFreshTokenOf24BytesAtEveryLaunch) {
  std::set<std::string> tokens;
  for (int i = 0; i < 20; ++i) tokens.insert(Guard(clock, "127.0.0.1", 8080).token());
  EXPECT_EQ(tokens.size(), 20u);
  EXPECT_EQ(guard.token().size(), 48u);
  EXPECT_EQ(guard.url(), "http://127.0.0.1:8080/?t=" + guard.token());
}

TEST_F(TheGuard, TurnsTheAddressesTokenIntoACookieAndTakesItOutOfTheAddress) {
  Request request{"GET", "/?t=" + guard.token(), {{"host", "localhost:8080"}}, {}};
  const auto stopped = guard.stop(request, parse_target(request.target));
  ASSERT_TRUE(stopped);
  EXPECT_EQ(stopped->status, 303);
  EXPECT_EQ(stopped->headers.at("Location"), "/");
  const std::string cookie = stopped->headers.at("Set-Cookie");
  EXPECT_NE(cookie.find("evet_8080=" + guard.token()), std::string::npos);
  EXPECT_NE(cookie.find("HttpOnly"), std::string::npos);
  EXPECT_NE(cookie.find("SameSite=Strict"), std::string::npos);
  EXPECT_EQ(cookie.find("Domain"), std::string::npos);
  request.headers["cookie"] = "evet_8080=" + guard.token();
  EXPECT_EQ(status(request), 303);  // known already: only the address is tidied
}

TEST_F(TheGuard, RefusesAWrongMissingOrForeignToken) {
  Request request = read();
  request.headers["cookie"] = "evet_8080=" + std::string(48, 'a');
  EXPECT_EQ(status(request), 401);
  request.headers["cookie"] = "evet_8081=" + guard.token();
  EXPECT_EQ(status(request), 401);
  request.headers["cookie"] = "other=1; evet_8080=" + guard.token().substr(1);
  EXPECT_EQ(status(request), 401);
  request.headers["cookie"] = "other=1; evet_8080=" + guard.token();
  EXPECT_EQ(status(request), 0);
  request.headers.erase("cookie");
  EXPECT_EQ(status(request), 401);
  request.target = "/?t=" + std::string(48, 'a');
  EXPECT_EQ(status(request), 0) << "the door itself may be seen";
  EXPECT_FALSE(guard.knows(request));
}

TEST_F(TheGuard, RefusesNamesThatAreNotOurs) {
  for (const char* host :
       {"evil.example:8080", "127.0.0.1", "127.0.0.1:80", "127.0.0.1.evil.example:8080", "evil.example", "",
        ":8080", "[::2]:8080", "127.0.0.2:8080", "localhost:8080:8080"}) {
    Request request = read();
    request.headers["host"] = host;
    EXPECT_EQ(status(request), 421) << host;
  }
  for (const char* host : {"127.0.0.1:8080", "localhost:8080", "[::1]:8080"}) {
    Request request = read();
    request.headers["host"] = host;
    EXPECT_EQ(status(request), 0) << host;
  }
}

TEST_F(TheGuard, RefusesWhatAnotherSiteOrAnotherPortOfThisMachineSends) {
  Request request = read();
  for (const char* site : {"cross-site", "same-site"}) {
    request.headers["sec-fetch-site"] = site;
    EXPECT_EQ(status(request), 403) << site;
  }
  request.headers["sec-fetch-site"] = "none";  // typed into the address bar
  EXPECT_EQ(status(request), 0);

  Request said = write();
  for (const char* origin :
       {"http://evil.example", "http://127.0.0.1:8081", "https://127.0.0.1:8080", "null"}) {
    said.headers["origin"] = origin;
    EXPECT_EQ(status(said), 403) << origin;
  }
  said = write();
  said.headers.erase("origin");
  EXPECT_EQ(status(said), 0) << "the browser says that it is the same origin";
  said.headers.erase("sec-fetch-site");
  EXPECT_EQ(status(said), 403) << "nothing says where it comes from";
}

TEST_F(TheGuard, RefusesAWriteWithoutTheHeaderThatOnlyThePageKnows) {
  Request said = write();
  said.headers["x-evet-guard"] = guard.token();
  EXPECT_EQ(status(said), 403);
  said.headers.erase("x-evet-guard");
  EXPECT_EQ(status(said), 403);
  said = write();
  said.headers["content-type"] = "text/plain";  // what a foreign form could send
  EXPECT_EQ(status(said), 415);
}

TEST_F(TheGuard, RefusesOtherMethodsAndAddresses) {
  for (const char* method : {"PUT", "DELETE", "OPTIONS", "PATCH", "TRACE", "CONNECT", ""}) {
    Request request = read();
    request.method = method;
    EXPECT_EQ(status(request), 405) << method;
  }
  for (const char* target :
       {"/../etc/passwd", "/strip/..%2f..%2fetc", "//api/hello", "/api/hello/", "api/hello", "",
        "/api/./hello", "/a\\b", "/%61pi/hello", "/api/hello?x=%zz", "/api/hello?x=%ff"})
    EXPECT_EQ(status(read(target)), 400) << target;
  EXPECT_EQ(status(read("/" + std::string(kMaxTarget, 'a'))), 400);
}

TEST_F(TheGuard, RefusesBodiesThatAreTooLargeOrOfUnknownSize) {
  Request said = write();
  said.body = std::string(kMaxBody, ' ');
  EXPECT_EQ(status(said), 0);
  said.body += ' ';
  EXPECT_EQ(status(said), 413);
  Request shape = write();
  EXPECT_FALSE(Guard::bad_shape(shape));
  shape.headers["transfer-encoding"] = "chunked";
  EXPECT_EQ(Guard::bad_shape(shape)->status, 411);
  shape = write();
  shape.headers["content-encoding"] = "gzip";
  EXPECT_EQ(Guard::bad_shape(shape)->status, 415);
  shape = write();
  shape.headers["content-type"] = "multipart/form-data; boundary=x";
  EXPECT_EQ(Guard::bad_shape(shape)->status, 415);
}

TEST_F(TheGuard, SealsEveryAnswer) {
  Response response;
  Guard::seal(response);
  const std::string csp = response.headers.at("Content-Security-Policy");
  EXPECT_TRUE(csp.starts_with("default-src 'none'; ")) << csp;
  EXPECT_EQ(csp.find("unsafe"), std::string::npos);
  EXPECT_EQ(csp.find("http"), std::string::npos);
  EXPECT_EQ(csp.find('*'), std::string::npos);
  EXPECT_EQ(response.headers.at("X-Content-Type-Options"), "nosniff");
  EXPECT_EQ(response.headers.at("Cache-Control"), "no-store");
  EXPECT_EQ(response.headers.at("Referrer-Policy"), "no-referrer");
}

TEST_F(TheGuard, OpensToOthersByPassphraseOnlyAndNotToGuesses) {
  Guard shared(clock, "192.0.2.7", 8080, "wet hands, clean gloves");
  Request enter{"POST",
                "/enter",
                {{"host", "192.0.2.7:8080"}, {"origin", "http://192.0.2.7:8080"}},
                "wet hands, clean gloves"};
  const auto target = parse_target("/enter");
  EXPECT_EQ(shared.stop(enter, target)->status, 303);
  enter.body = "dry hands";
  for (int i = 0; i < 5; ++i) EXPECT_EQ(shared.stop(enter, target)->status, 401);
  EXPECT_EQ(shared.stop(enter, target)->status, 429);
  enter.body = "wet hands, clean gloves";
  EXPECT_EQ(shared.stop(enter, target)->status, 429) << "even the right one has to wait";
  clock.ms += 30'001;
  EXPECT_EQ(shared.stop(enter, target)->status, 303);
  enter.headers["origin"] = "http://evil.example";
  EXPECT_EQ(shared.stop(enter, target)->status, 403);
  // Who guesses locks out nobody else, and cannot by coming from everywhere fill the memory.
  enter.headers["origin"] = "http://192.0.2.7:8080";
  enter.peer = "198.51.100.1", enter.body = "dry hands";
  for (int i = 0; i < 5; ++i) EXPECT_EQ(shared.stop(enter, target)->status, 401);
  EXPECT_EQ(shared.stop(enter, target)->status, 429);
  enter.peer = "192.0.2.8", enter.body = "wet hands, clean gloves";
  EXPECT_EQ(shared.stop(enter, target)->status, 303) << "the owner, at another address";
  enter.body = "dry hands";
  for (int i = 0; i < 2000; ++i) {
    enter.peer = "2001:db8::" + std::to_string(i);
    const int status = shared.stop(enter, target)->status;
    EXPECT_TRUE(status == (i < 900 ? 401 : 429) || (i >= 900 && i < 1000)) << i << " " << status;
  }
  clock.ms += 30'001;
  EXPECT_EQ(shared.stop(enter, target)->status, 401);
  // Without a passphrase there is no such door.
  Request knock{"POST", "/enter", {{"host", "127.0.0.1:8080"}, {"origin", "http://127.0.0.1:8080"}}, ""};
  EXPECT_EQ(status(knock), 401);
}

}  // namespace
}  // namespace evet::review
