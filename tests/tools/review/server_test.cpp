#include "tools/review/server.h"

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <malloc.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <thread>

#include "matcher/base/error.h"
#include "tests/matcher/catalogue/try_out.h"
#include "tests/tools/review/drawn_pond.h"
#include "tools/review/front.h"

namespace evet::review {
namespace {

// A page behind its socket, and what goes over it byte by byte.
struct AServer : testing::Test {
  try_out::Folder folder;
  std::string address = "127.0.0.1";
  std::unique_ptr<Server> server;
  std::unique_ptr<Page> page;
  std::thread running;

  void SetUp() override { start({.animals = 1, .again = 0, .fresh = 0, .unusable = 0}); }
  void TearDown() override { stop(); }
  void start(const try_out::PondPlan& plan, PageOptions options = {}) {
    stop();
    server = std::make_unique<Server>(address, 0);
    std::filesystem::remove_all(folder.path / "pond");
    pond = try_out::draw_pond(folder.path / "pond", plan);
    options.host = address, options.port = server->port();
    page = std::make_unique<Page>(folder.path / "pond", system_env(), options);
    running = std::thread([&] { server->run(*page); });
  }
  void stop() {
    if (!running.joinable()) return;
    server->stop();
    running.join();
  }
  int connected() const {
    const bool six = address.find(':') != std::string::npos;
    const int socket = ::socket(six ? AF_INET6 : AF_INET, SOCK_STREAM, 0);
    sockaddr_in to{};
    to.sin_family = AF_INET, to.sin_port = htons(static_cast<std::uint16_t>(server->port()));
    sockaddr_in6 to6{};
    to6.sin6_family = AF_INET6, to6.sin6_port = to.sin_port;
    if (six)
      ::inet_pton(AF_INET6, address.c_str(), &to6.sin6_addr);
    else
      ::inet_pton(AF_INET, address.c_str(), &to.sin_addr);
    timeval limit{60, 0};
    ::setsockopt(socket, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
    const auto connect = [&] {
      return six ? ::connect(socket, reinterpret_cast<sockaddr*>(&to6), sizeof to6)
                 : ::connect(socket, reinterpret_cast<sockaddr*>(&to), sizeof to);
    };
    for (int i = 0; i < 3000 && connect() != 0; ++i) ::usleep(20'000);
    return socket;
  }
  // The whole answer to these very bytes.
  std::string raw(const std::string& bytes, bool wait = true) const {
    const int socket = connected();
    ::send(socket, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    std::string answer;
    char buffer[4096];
    for (ssize_t n; wait && (n = ::recv(socket, buffer, sizeof buffer, 0)) > 0;)
      answer.append(buffer, static_cast<size_t>(n));
    ::close(socket);
    return answer;
  }
  std::string host() const {
    const std::string name = address.find(':') == std::string::npos ? address : "[" + address + "]";
    return name + ":" + std::to_string(server->port());
  }
  std::string cookie() const {
    return "Cookie: evet_" + std::to_string(server->port()) + "=" + page->guard().token() + "\r\n";
  }
  std::string head(const std::string& line, const std::string& more = {}) const {
    return line + " HTTP/1.1\r\nHost: " + host() + "\r\nConnection: close\r\n" + cookie() + more + "\r\n";
  }
  std::string post(const std::string& path, const std::string& body, const std::string& origin,
                   const std::string& more) const {
    return "POST " + path + " HTTP/1.1\r\nHost: " + host() + "\r\nConnection: close\r\nOrigin: " + origin +
           "\r\nContent-Type: application/json\r\nContent-Length: " + std::to_string(body.size()) + "\r\n" +
           more + "\r\n" + body;
  }
  try_out::DrawnPond pond;
};

bool answered(const std::string& answer, int status) {
  return answer.starts_with("HTTP/1.1 " + std::to_string(status));
}

TEST_F(AServer, ServesOnLoopbackWithSealedAnswers) {
  const std::string answer = raw(head("GET /api/hello"));
  EXPECT_TRUE(answered(answer, 200)) << answer;
  for (const char* header : {"Content-Security-Policy: default-src 'none'", "X-Content-Type-Options: nosniff",
                             "Cache-Control: no-store"})
    EXPECT_NE(answer.find(header), std::string::npos) << header;
  const std::string unknown =
      raw("HEAD /api/hello HTTP/1.1\r\nHost: " + host() + "\r\nConnection: close\r\n\r\n");
  EXPECT_TRUE(answered(unknown, 401)) << unknown;
  EXPECT_EQ(unknown.find("X-Frame-Options"), unknown.rfind("X-Frame-Options")) << "sealed once";
  EXPECT_TRUE(answered(raw("GET / HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n"), 421));
  EXPECT_TRUE(answered(raw(head("GET /api/hello", "Host: evil.example\r\n")), 421)) << "two hosts are none";
}

TEST_F(AServer, RefusesBodiesBeforeReadingThem) {
  EXPECT_TRUE(answered(
      raw(head("POST /api/verdict", "Transfer-Encoding: chunked\r\n") + "5\r\nhello\r\n0\r\n\r\n"), 411));
  EXPECT_TRUE(answered(
      raw(head("POST /api/verdict", "Content-Encoding: gzip\r\nContent-Length: 2\r\n") + "{}"), 415));
  const std::string answer =
      raw(head("POST /api/verdict", "Content-Length: 100000000\r\n") + std::string(1000, 'x'));
  EXPECT_TRUE(answered(answer, 413)) << answer;
  EXPECT_NE(answer.find("nosniff"), std::string::npos) << "what httplib refuses by itself is sealed too";
}

TEST_F(AServer, LetsNoPathReachTheFileSystem) {
  for (const char* path :
       {"/../../../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/photos/", "/catalogue.sqlite",
        "/strip/../catalogue.sqlite", "/./catalogue.sqlite", "//etc/passwd", "/photo/%00"}) {
    const std::string answer = raw(head(std::string("GET ") + path));
    EXPECT_TRUE(answered(answer, 400) || answered(answer, 404) || answered(answer, 422)) << path << answer;
    EXPECT_EQ(answer.find("root:"), std::string::npos);
    EXPECT_EQ(answer.find(folder.path.string()), std::string::npos) << "nor is a path told";
  }
}

TEST_F(AServer, SurvivesWhatIsNoRequest) {
  for (const std::string& bytes :
       {std::string("\r\n\r\n"), std::string("GET\r\n\r\n"), std::string(100'000, 'A'),
        std::string("GET / HTTP/9.9\r\n\r\n"),
        std::string("POST /api/verdict HTTP/1.1\r\nContent-Length: -5\r\n\r\n"), std::string("\0\0\0\0", 4)})
    raw(bytes, false);
  EXPECT_TRUE(answered(raw(head("GET /api/hello")), 200));
}

TEST_F(AServer, DoesNotShareItsPort) {
  EXPECT_THROW(Server("127.0.0.1", server->port()), Error);
}

// Thirty-two slow connections kept the page from everybody, and headers or a body without an end were read
// until the memory was full.
TEST_F(AServer, StandsSlowConnectionsAndAFloodBeforeTheToken) {
  start({.animals = 6, .again = 2, .fresh = 1, .unusable = 1});
  const auto resident_kb = [] {
    std::ifstream status("/proc/self/status");
    for (std::string line; std::getline(status, line);)
      if (line.starts_with("VmRSS:")) return std::stol(line.substr(6));
    return -1L;
  };
  ASSERT_TRUE(answered(raw(head("GET /api/night")), 200));
  const long before = resident_kb();
  std::vector<int> slow;
  for (int i = 0; i < 200; ++i) {
    slow.push_back(connected());
    const std::string begun =
        i % 2 == 0 ? "GET / HTTP/1.1\r\nX-Slow: " : "POST /enter HTTP/1.1\r\nContent-Length: 60000\r\n\r\n";
    ::send(slow.back(), begun.data(), begun.size(), MSG_NOSIGNAL);
  }
  std::atomic<bool> over{false};
  std::vector<std::thread> floods;
  for (const std::string start :
       {"GET / HTTP/1.1\r\nX-Endless: ", "GET / HTTP/1.1\r\n", "POST /enter HTTP/1.1\r\nHost: x\r\n\r\n"})
    floods.emplace_back([&, start] {
      const std::string more =
          start.ends_with(": ") ? std::string(4096, 'x') : "X-More: " + std::string(4000, 'x') + "\r\n";
      while (!over) {
        const int socket = connected();
        ::send(socket, start.data(), start.size(), MSG_NOSIGNAL);
        for (int i = 0; i < 500 && ::send(socket, more.data(), more.size(), MSG_NOSIGNAL) > 0; ++i) {
        }
        ::close(socket);
      }
    });
  double slowest_s = 0;
  for (int i = 0; i < 20; ++i) {
    const auto asked = std::chrono::steady_clock::now();
    EXPECT_TRUE(answered(raw(head("GET /api/night")), 200));
    slowest_s =
        std::max(slowest_s, std::chrono::duration<double>(std::chrono::steady_clock::now() - asked).count());
  }
  over = true;
  for (std::thread& flood : floods) flood.join();
  EXPECT_LT(slowest_s, 0.5);
  EXPECT_LT(resident_kb() - before, 60'000) << "kilobytes";
  for (const int socket : slow) ::close(socket);
}

TEST_F(AServer, SaysWhatItDoesNotRead) {
  EXPECT_TRUE(answered(raw("GET / HTTP/1.1\r\nX-Long: " + std::string(20'000, 'x')), 431));
  EXPECT_TRUE(answered(raw("POST /enter HTTP/1.1\r\nHost: " + host() + "\r\n\r\n"), 411));
  EXPECT_TRUE(answered(raw("GET /api/hello HTTP/1.1\r\nHost: " + host() + "\r\n" + cookie() +
                           "Connection: close\r\n\r\nleft over"),
                       200));
}

// Two requests in one piece, and one in many.
TEST_F(AServer, TakesRequestsInWhateverPiecesTheyCome) {
  const std::string one = "GET /api/hello HTTP/1.1\r\nHost: " + host() + "\r\n" + cookie();
  const std::string both = raw(one + "\r\n" + one + "Connection: close\r\n\r\n");
  EXPECT_TRUE(answered(both, 200));
  EXPECT_NE(both.find("HTTP/1.1 200", 10), std::string::npos);
  const int socket = connected();
  for (const char byte : one + "Connection: close\r\n\r\n") ::send(socket, &byte, 1, MSG_NOSIGNAL);
  std::array<char, 64> answer{};
  EXPECT_GT(::recv(socket, answer.data(), answer.size(), MSG_WAITALL), 12);
  EXPECT_TRUE(answered(answer.data(), 200));
  ::close(socket);
}

TEST(RequestEnd, IsKnownFromTheBytesSoFar) {
  const FrontLimits limits{.head_bytes = 200, .body_bytes = 50};
  const auto end = [&](const std::string& bytes) {
    const RequestEnd found = request_end(bytes, limits);
    return std::pair(static_cast<int>(found.state), found.bytes);
  };
  using State = decltype(RequestEnd::unfinished);
  const auto is = [](State state, size_t bytes) { return std::pair(static_cast<int>(state), bytes); };
  EXPECT_EQ(end("GET / HTTP/1.1\r\n"), is(RequestEnd::unfinished, 0));
  EXPECT_EQ(end("GET / HTTP/1.1\r\n\r\nmore"), is(RequestEnd::whole, 18));
  EXPECT_EQ(end("POST / HTTP/1.1\r\ncontent-LENGTH:  4 \r\n\r\nbod"), is(RequestEnd::unfinished, 0));
  EXPECT_EQ(end("POST / HTTP/1.1\r\ncontent-LENGTH:  4 \r\n\r\nbody+"), is(RequestEnd::whole, 44));
  for (const char* length : {"51", "-5", "1x", "", "99999999999999999999", "4\r\nContent-Length: 4"})
    EXPECT_EQ(end(std::string("POST / HTTP/1.1\r\nContent-Length: ") + length + "\r\n\r\nbody").first,
              static_cast<int>(RequestEnd::head_only))
        << length;
  EXPECT_EQ(end("POST / HTTP/1.1\r\nTransfer-Encoding: chunked\r\n\r\n").first,
            static_cast<int>(RequestEnd::head_only));
  EXPECT_EQ(end(std::string(201, 'x')), is(RequestEnd::too_large, 0));
  EXPECT_EQ(end("GET / HTTP/1.1\r\nX: " + std::string(200, 'x') + "\r\n\r\n"), is(RequestEnd::too_large, 0));
}

// An address that is not the usual one stands in for a home network: nothing but a passphrase or the printed
// token opens the door there, and another name, origin or site is still refused.
void is_guarded_on_its_network(AServer& at) {
  PageOptions options;
  options.passphrase = "wet hands, clean gloves";
  at.start({.animals = 1, .again = 0, .fresh = 1, .unusable = 0}, options);
  const std::string here = "http://" + at.host();
  EXPECT_TRUE(answered(at.raw(at.head("GET /api/hello")), 200));
  EXPECT_TRUE(answered(
      at.raw("GET /api/hello HTTP/1.1\r\nHost: " + at.host() + "\r\nConnection: close\r\n\r\n"), 401));
  EXPECT_TRUE(
      answered(at.raw("GET /api/hello HTTP/1.1\r\nHost: pond.example:" + std::to_string(at.server->port()) +
                      "\r\nConnection: close\r\n" + at.cookie() + "\r\n"),
               421));
  EXPECT_TRUE(answered(at.raw(at.post("/enter", "dry hands", here, "")), 401));
  EXPECT_TRUE(answered(at.raw(at.post("/enter", "wet hands, clean gloves", "http://pond.example", "")), 403));
  const std::string opened = at.raw(at.post("/enter", "wet hands, clean gloves", here, ""));
  EXPECT_TRUE(answered(opened, 303)) << opened;
  EXPECT_NE(opened.find("Set-Cookie: evet_"), std::string::npos);

  const std::string verdict =
      nlohmann::json{{"capture", at.pond.fresh[0].value}, {"answer", "new"}, {"after", 0}}.dump();
  const std::string key = "X-Evet-Guard: " + at.page->guard().write_key() + "\r\n" + at.cookie();
  EXPECT_TRUE(
      answered(at.raw(at.post("/api/verdict", verdict, here, at.cookie() + "X-Evet-Reader: KM\r\n")), 403));
  EXPECT_TRUE(answered(
      at.raw(at.post("/api/verdict", verdict, "http://pond.example", key + "X-Evet-Reader: KM\r\n")), 403));
  // Two readers say the same of one capture: neither writes over the other.
  for (const char* reader : {"KM", "TR"})
    EXPECT_TRUE(answered(
        at.raw(at.post("/api/verdict", verdict, here, key + "X-Evet-Reader: " + reader + "\r\n")), 200));
  EXPECT_EQ(Catalogue::open(at.folder.path / "pond", system_env())
                .ledger({.kind = "verdict", .capture = at.pond.fresh[0]})
                .size(),
            2u);
}

TEST_F(AServer, IsGuardedOnAnotherAddress) {
  address = "127.0.0.2";
  is_guarded_on_its_network(*this);
}

TEST_F(AServer, IsGuardedOnAnAddressOfTheNewerKind) {
  const int six = ::socket(AF_INET6, SOCK_STREAM, 0);
  sockaddr_in6 to{};
  to.sin6_family = AF_INET6, to.sin6_addr = in6addr_loopback;
  const bool there = six >= 0 && ::bind(six, reinterpret_cast<sockaddr*>(&to), sizeof to) == 0;
  ::close(six);
  if (!there) GTEST_SKIP() << "this machine has no [::1]";
  address = "::1";
  is_guarded_on_its_network(*this);
}

// tools/bench.sh review does the same with 10,000 requests and 30,000 photos.
TEST_F(AServer, KeepsItsMemoryFlat) {
  start({.animals = 6, .again = 2, .fresh = 1, .unusable = 1});
  const auto& own = pond.captures;
  std::vector<std::string> targets = {"/",
                                      "/app.js",
                                      "/api/hello",
                                      "/api/night",
                                      "/api/second",
                                      "/api/agreement",
                                      "/api/disputes",
                                      "/api/individuals",
                                      "/api/population",
                                      "/api/ledger",
                                      "/api/ledger?as_of=2031-01-01",
                                      "/api/nothing",
                                      "/api/capture/x"};
  for (const auto& captures : own) {
    targets.push_back("/api/capture/" + captures[1].value);
    targets.push_back("/api/individual/" + captures[0].value);
    const CaptureState capture =
        *Catalogue::open(folder.path / "pond", system_env()).identities().capture(captures[1]);
    const std::string photo = capture.photos[0].photo.value;
    for (const char* picture : {"/strip/", "/mask/", "/photo/"}) targets.push_back(picture + photo);
  }
  const int socket = connected();
  std::string answer(1 << 20, 0);
  const auto ask = [&](const std::string& target) {
    const std::string asked =
        "GET " + target + " HTTP/1.1\r\nHost: " + host() + "\r\nX-Evet-Reader: KM\r\n" + cookie() + "\r\n";
    ::send(socket, asked.data(), asked.size(), MSG_NOSIGNAL);
    size_t got = 0, wanted = std::string::npos;
    while (got < wanted) {
      if (got == answer.size()) answer.resize(2 * answer.size());
      const ssize_t n = ::recv(socket, answer.data() + got, answer.size() - got, 0);
      if (n <= 0) return false;
      got += static_cast<size_t>(n);
      const size_t end = answer.find("\r\n\r\n"), length = answer.find("Content-Length: ");
      if (wanted == std::string::npos && end < got && length < end)
        wanted = end + 4 + std::stoul(answer.substr(length + 16, 12));
    }
    return true;
  };
  const auto resident_kb = [] {
    std::ifstream status("/proc/self/status");
    for (std::string line; std::getline(status, line);)
      if (line.starts_with("VmRSS:")) return std::stol(line.substr(6));
    return -1L;
  };
  const auto round = [&](int requests) {
    for (int i = 0; i < requests; ++i)
      if (!ask(targets[static_cast<size_t>(i) % targets.size()])) return false;
    ::malloc_trim(0);
    return true;
  };
  ASSERT_TRUE(round(400)) << "until everything that is kept has been kept";
  const long before = resident_kb();
  ASSERT_TRUE(round(1200));
  const long after = resident_kb();
  ::close(socket);
  ASSERT_GT(before, 0);
  EXPECT_LT(after - before, 6000) << "5 KB a request would show: " << before << " KB before, " << after
                                  << " KB after";
}

}  // namespace
}  // namespace evet::review
