// A page that is served already is found by who starts the program again, and by nobody else.
#include "tools/review/running.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <thread>

#include "tests/matcher/catalogue/try_out.h"
#include "tools/review/server.h"

namespace evet::review {
namespace {

namespace fs = std::filesystem;
using testing::StartsWith;

struct APageThatRuns : testing::Test {
  try_out::Folder folder;
  CatalogueHomes homes{folder.path / "home", folder.path / "state" / "catalogues.json"};
  Server server{"127.0.0.1", 0};
  std::unique_ptr<Page> page;
  std::thread serving;

  void SetUp() override {
    PageOptions options;
    options.port = server.port();
    page = std::make_unique<Page>(fs::path(), system_env(), options);
    serving = std::thread([this] { server.run(*page); });
  }
  void TearDown() override {
    server.stop();
    serving.join();
  }
  fs::path note() const { return folder.path / "state" / "page" / "address"; }
  void write(const std::string& text) const {
    fs::create_directories(note().parent_path());
    std::ofstream(note()) << text;
  }
};

TEST_F(APageThatRuns, IsFoundByASecondStartWithAnAddressThatLetsInOnce) {
  EXPECT_FALSE(window_of_running_page(homes, system_env())) << "nobody has noted it yet";
  {
    const RunningNote noted(homes, system_env(), page->url());
    EXPECT_EQ(fs::status(note().parent_path()).permissions(), fs::perms::owner_all)
        << "the address lets in: it is for this user alone";
    const auto window = window_of_running_page(homes, system_env());
    ASSERT_TRUE(window);
    EXPECT_THAT(*window, StartsWith("http://127.0.0.1:" + std::to_string(server.port()) + "/?t="));
    EXPECT_EQ(window->find(page->guard().token()), std::string::npos)
        << "a program's arguments can be read by every user";
    Request enter{"GET",
                  window->substr(window->find("/?t=")),
                  {{"host", "127.0.0.1:" + std::to_string(server.port())}},
                  {}};
    EXPECT_EQ(page->handle(enter).status, 303);
    EXPECT_EQ(page->handle(enter).status, 200) << "the door: it lets in once";
  }
  EXPECT_FALSE(fs::exists(note())) << "ended, it is not noted any more";
}

TEST_F(APageThatRuns, ANoteThatIsNotItsOwnLeadsNowhere) {
  const std::string origin = "http://127.0.0.1:" + std::to_string(server.port());
  for (const std::string& text : std::vector<std::string>{
           "", "nonsense", origin, origin + "/?t=" + std::string(48, 'a'), "http://127.0.0.1:1/?t=a",
           "http://127.0.0.1:99999999/?t=a", "file:///etc/passwd", std::string(5000, 'x')}) {
    write(text);
    EXPECT_FALSE(window_of_running_page(homes, system_env())) << text.substr(0, 80);
  }
}

TEST_F(APageThatRuns, APageBegunLaterKeepsItsNote) {
  auto first = std::make_unique<RunningNote>(homes, system_env(), "http://127.0.0.1:1/?t=a");
  const RunningNote second(homes, system_env(), page->url());
  first.reset();
  EXPECT_TRUE(window_of_running_page(homes, system_env()));
}

TEST_F(APageThatRuns, AGuestOpensNoWindowAtTheMachine) {
  Request asked{"POST",
                "/api/window",
                {{"host", "127.0.0.1:" + std::to_string(server.port())},
                 {"origin", "http://127.0.0.1:" + std::to_string(server.port())},
                 {"content-type", "application/json"},
                 {"x-evet-guard", page->guard().write_key()}},
                "{}"};
  EXPECT_EQ(page->handle(asked).status, 401);
}

}  // namespace
}  // namespace evet::review
