#include "tools/review/server.h"

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <thread>

#include "matcher/base/error.h"
#include "tests/matcher/catalogue/try_out.h"
#include "tests/tools/review/drawn_pond.h"

namespace evet::review {
namespace {

struct AServer : testing::Test {
  try_out::Folder folder;
  Server server{"127.0.0.1", 0};
  std::unique_ptr<Page> page;
  std::thread running;

  void SetUp() override {
    try_out::draw_pond(folder.path / "pond", {.animals = 1, .again = 0, .fresh = 0, .unusable = 0});
    PageOptions options;
    options.port = server.port();
    page = std::make_unique<Page>(folder.path / "pond", system_env(), options);
    running = std::thread([&] { server.run(*page); });
  }
  void TearDown() override {
    server.stop();
    running.join();
  }
  // The whole answer to these very bytes.
  std::string raw(const std::string& bytes, bool wait = true) const {
    const int socket = ::socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in to{};
    to.sin_family = AF_INET, to.sin_port = htons(static_cast<std::uint16_t>(server.port()));
    ::inet_pton(AF_INET, "127.0.0.1", &to.sin_addr);
    timeval limit{10, 0};
    ::setsockopt(socket, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
    for (int i = 0; i < 100 && ::connect(socket, reinterpret_cast<sockaddr*>(&to), sizeof to) != 0; ++i)
      ::usleep(20'000);
    ::send(socket, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    std::string answer;
    char buffer[4096];
    for (ssize_t n; wait && (n = ::recv(socket, buffer, sizeof buffer, 0)) > 0;)
      answer.append(buffer, static_cast<size_t>(n));
    ::close(socket);
    return answer;
  }
  std::string host() const { return "127.0.0.1:" + std::to_string(server.port()); }
  std::string head(const std::string& line, const std::string& more = {}) const {
    return line + " HTTP/1.1\r\nHost: " + host() + "\r\nConnection: close\r\nCookie: evet_" +
           std::to_string(server.port()) + "=" + page->guard().token() + "\r\n" + more + "\r\n";
  }
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
  EXPECT_THROW(Server("127.0.0.1", server.port()), Error);
}

}  // namespace
}  // namespace evet::review
