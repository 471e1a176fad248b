// A page over a drawn pond, asked as its own scripts ask it.
#pragma once
#include <gtest/gtest.h>

#include <thread>

#include "tests/matcher/catalogue/try_out.h"
#include "tests/tools/review/drawn_pond.h"
#include "tools/review/page.h"

namespace evet::review {

struct APage : testing::Test {
  try_out::Folder folder;
  try_out::DrawnPond pond;
  std::unique_ptr<Page> page;

  void open(const try_out::PondPlan& plan = {}) {
    pond = try_out::draw_pond(folder.path / "pond", plan);
    reopen();
  }
  // As after the program was killed and started again.
  void reopen() {
    page.reset();
    PageOptions options;
    options.port = 8080, options.second_share = 1;
    page = std::make_unique<Page>(folder.path / "pond", system_env(), options);
  }
  Request request(const std::string& method, const std::string& target, const std::string& reader) const {
    return {method,
            target,
            {{"host", "127.0.0.1:8080"},
             {"cookie", "evet_8080=" + page->guard().token()},
             {"origin", "http://127.0.0.1:8080"},
             {"sec-fetch-site", "same-origin"},
             {"content-type", "application/json"},
             {"x-evet-guard", page->guard().write_key()},
             {"x-evet-reader", reader}},
            {}};
  }
  Response ask(const std::string& target, const std::string& reader = "KM") const {
    return page->handle(request("GET", target, reader));
  }
  nlohmann::json get(const std::string& target, const std::string& reader = "KM") const {
    const Response response = ask(target, reader);
    EXPECT_EQ(response.status, 200) << target << " " << response.body;
    return nlohmann::json::parse(response.body);
  }
  Response try_say(const std::string& target, nlohmann::json body, const std::string& reader = "KM") const {
    if (!body.contains("after")) body["after"] = get("/api/hello")["position"];
    Request asked = request("POST", target, reader);
    asked.body = body.dump();
    return page->handle(asked);
  }
  nlohmann::json say(const std::string& target, const nlohmann::json& body,
                     const std::string& reader = "KM") const {
    const Response response = try_say(target, body, reader);
    EXPECT_EQ(response.status, 200) << target << " " << response.body;
    return nlohmann::json::parse(response.body);
  }
  nlohmann::json ranked_night() const {
    for (int i = 0; i < 1200; ++i) {
      nlohmann::json night = get("/api/night");
      if (!night["ranking"]["running"].get<bool>()) return night;
      std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    ADD_FAILURE() << "the night was not ranked within a minute";
    return {};
  }
};

}  // namespace evet::review
