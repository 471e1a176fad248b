// What the fuzzer of the routes has found worth keeping, asked again: tests/data/review_requests.
#include "tests/tools/review/fuzzed_request.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "tools/review/routes.h"

namespace evet {
namespace {

TEST(FuzzedRequests, AreAllAnsweredFitly) {
  try_out::FuzzedPage page;
  int asked = 0, taken = 0;
  for (const auto& file : std::filesystem::directory_iterator(EVET_TEST_DATA "/review_requests")) {
    std::ifstream in(file.path(), std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    const review::Response response = page.answer(bytes);
    EXPECT_TRUE(page.fit(response)) << file.path() << ": " << response.status << " " << response.body;
    ++asked, taken += response.status == 200 ? 1 : 0;
  }
  EXPECT_GE(asked, 40);
  EXPECT_GE(taken, 10) << "some of them get as far as the views";
}

// A route that comes in without a request to start from is one that the fuzzer may never reach.
TEST(FuzzedRequests, ThereIsOneOfEveryRoute) {
  std::set<const review::Route*> asked;
  for (const auto& file : std::filesystem::directory_iterator(EVET_TEST_DATA "/review_requests")) {
    std::ifstream in(file.path(), std::ios::binary);
    std::string method, target;
    in.get();  // how it is asked
    std::getline(in, method, ' '), std::getline(in, target);
    std::replace(target.begin(), target.end(), '~', 'x');  // it stands for an identifier that there is
    if (const auto parsed = review::parse_target(target)) asked.insert(review::find_route(method, *parsed));
  }
  for (const review::Route& route : review::all_routes())
    EXPECT_TRUE(asked.contains(&route)) << route.method << " " << route.path;
}

}  // namespace
}  // namespace evet
