// The review page with 10,000 individuals and 30,000 photos: how long each of its answers takes, and whether
// the memory of the server stays flat. The patterns are drawn and repeat; only the number
// of entries matters here.
#include <httplib.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <map>
#include <string>
#include <thread>
#include <vector>

#include "tests/matcher/catalogue/try_out.h"
#include "tests/tools/review/drawn_pond.h"
#include "tools/review/page.h"
#include "tools/review/server.h"

namespace {

using namespace evet;
using Clock = std::chrono::steady_clock;

double ms_since(Clock::time_point start) {
  return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

double resident_mb() {
  std::ifstream statm("/proc/self/statm");
  long total = 0, resident = 0;
  statm >> total >> resident;
  return static_cast<double>(resident) * static_cast<double>(::sysconf(_SC_PAGESIZE)) / 1e6;
}

struct Asker {
  review::Page& page;
  std::string host;  // and port
  std::string cookie() const {
    return "evet_" + host.substr(host.find(':') + 1) + "=" + page.guard().token();
  }
  review::Response ask(const std::string& method, const std::string& target,
                       const std::string& body = {}) const {
    review::Request request{method,
                            target,
                            {{"host", host},
                             {"cookie", cookie()},
                             {"origin", "http://" + host},
                             {"content-type", "application/json"},
                             {"x-evet-guard", page.guard().write_key()},
                             {"x-evet-reader", "KM"}},
                            body};
    return page.handle(request);
  }
  nlohmann::json get(const std::string& target) const {
    return nlohmann::json::parse(ask("GET", target).body);
  }
};

void report(const char* what, std::vector<double> ms, double limit) {
  std::sort(ms.begin(), ms.end());
  std::printf("%-44s median %8.2f ms   worst %8.2f ms   wanted %.0f ms: %s\n", what, ms[ms.size() / 2],
              ms.back(), limit, ms[ms.size() / 2] <= limit ? "holds" : "DOES NOT HOLD");
  std::fflush(stdout);
}

// What the i-th request asks for: every route in turn, the seldom ones seldom.
std::string target_of(int i, const try_out::DrawnPond& pond, const std::vector<std::string>& photos) {
  const auto pick = [&](std::size_t n) { return static_cast<std::size_t>(i) * 7919 % n; };
  const auto& own = pond.captures[pick(pond.captures.size())];
  const std::string &mine = photos[pick(photos.size())], &theirs = photos[pick(photos.size() - 1)];
  switch (i % 12) {
    case 0:
      return "/api/night";
    case 1:
      return "/api/capture/" + own[1].value;
    case 2:
      return "/strip/" + mine;
    case 3:
      return "/strip/" + theirs + "?onto=" + mine;
    case 4:
      return "/mask/" + mine;
    case 5:
      return "/photo/" + mine;
    case 6:
      return "/api/evidence/" + mine + "/" + theirs;
    case 7:
      return "/api/individual/" + own[0].value;
    case 8:
      return "/api/individuals?from=" + std::to_string(pick(9000));
    case 9:
      return "/api/ledger?before=" + std::to_string(1 + pick(50000));
    case 10:
      return "/api/hello";
    default:
      return i % 1200 == 11  ? "/api/ledger?as_of=2026-12-31"
             : i % 600 == 23 ? "/api/population"
             : i % 300 == 35 ? "/api/second"
             : i % 300 == 47 ? "/api/agreement"
             : i % 300 == 59 ? "/api/disputes"
                             : "/app.js";
  }
}

// Every route, pictures included, over the socket: what the server keeps once it has served for a while.
void flat_memory(review::Server& server, review::Page& page, const Asker& asker,
                 const try_out::DrawnPond& pond, const std::map<CaptureId, std::string>& photo_of,
                 int requests) {
  std::thread serving([&] { server.run(page); });
  httplib::Client client("127.0.0.1", server.port());
  client.set_keep_alive(true);
  client.set_tcp_nodelay(true);
  client.set_read_timeout(120, 0);
  const httplib::Headers headers = {
      {"Host", asker.host}, {"Cookie", asker.cookie()}, {"X-Evet-Reader", "KM"}};
  std::vector<std::string> photos;
  for (const auto& [capture, photo] : photo_of) photos.push_back(photo);
  int failed = 0;
  double half = 0;
  for (int i = 0; i < requests; ++i) {
    const std::string target = target_of(i, pond, photos);
    const auto answer = client.Get(target, headers);
    if (!answer || answer->status != 200) {
      if (++failed <= 3) std::printf("%s was answered %d\n", target.c_str(), answer ? answer->status : 0);
    }
    if ((i + 1) % 1000 == 0) {
      const double mb = resident_mb();
      if (i + 1 <= requests / 2) half = mb;
      std::printf("resident after %5d requests over the socket, pictures included: %.1f MB\n", i + 1, mb);
      std::fflush(stdout);
    }
  }
  std::printf("grown by %.2f KB a request in the second half; %d requests failed\n",
              (resident_mb() - half) * 1000 / (requests - requests / 2), failed);
  server.stop();
  serving.join();
}

double timed(const Asker& asker, const std::string& target) {
  const auto from = Clock::now();
  asker.ask("GET", target);
  return ms_since(from);
}

// What a first paint waits for: the page's files, who we are, the night.
void first_paint(const Asker& asker) {
  std::vector<double> first;
  for (int i = 0; i < 11; ++i) {
    double sum = 0;
    for (const char* target : {"/", "/style.css", "/app.js", "/night.js", "/api/hello", "/api/night"})
      sum += timed(asker, target);
    first.push_back(sum);
  }
  report("first paint, the program's part", first, 500);
}

void wait_until_ranked(const Asker& asker) {
  while (asker.get("/api/night")["ranking"]["running"].get<bool>()) ::usleep(100'000);
}

// The page asks for the next capture, strips and ties ahead, before the verdict: then only pictures already in
// the browser are drawn. This is what it costs when nothing was asked for ahead; the first line of the next pair
// has the fold of the whole catalogue after the verdict in it.
void verdicts_and_next_pairs(const Asker& asker, const try_out::DrawnPond& pond,
                             std::map<CaptureId, std::string>& photo_of) {
  std::vector<double> pair, verdict, capture_ms, strip_ms, laid_ms, ties_ms;
  for (std::size_t i = 0; i + 1 < pond.again.size(); ++i) {
    const nlohmann::json position = asker.get("/api/hello")["position"];
    auto from = Clock::now();
    asker.ask("POST", "/api/verdict",
              nlohmann::json{{"capture", pond.again[i].value},
                             {"other", pond.captures[i][2].value},
                             {"answer", "same"},
                             {"after", position}}
                  .dump());
    verdict.push_back(ms_since(from));
    from = Clock::now();
    const nlohmann::json next = asker.get("/api/capture/" + pond.again[i + 1].value);
    capture_ms.push_back(ms_since(from));
    const std::string mine = next["photos"][0]["photo"];
    strip_ms.push_back(timed(asker, "/strip/" + mine));
    const std::string theirs = photo_of[pond.captures[i + 1][2]];
    laid_ms.push_back(timed(asker, "/strip/" + theirs + "?onto=" + mine));
    ties_ms.push_back(timed(asker, "/api/evidence/" + mine + "/" + theirs));
    pair.push_back(capture_ms.back() + strip_ms.back() + laid_ms.back() + ties_ms.back());
  }
  report("a verdict, on disk and folded", verdict, 100);
  report("the next pair, nothing asked for ahead", pair, 100);
  report("  what is known of the capture", capture_ms, 100);
  report("  its strip", strip_ms, 100);
  report("  the candidate's strip, laid onto it", laid_ms, 100);
  report("  the ties", ties_ms, 100);
}

void other_pages(const Asker& asker, const try_out::DrawnPond& pond) {
  for (const auto& [what, target] : std::map<std::string, std::string>{
           {"the night", "/api/night"},
           {"individuals, one screen", "/api/individuals?from=5000"},
           {"an individual", "/api/individual/" + pond.captures[77][0].value},
           {"the ledger", "/api/ledger"},
           {"the ledger, one rare kind", "/api/ledger?kind=merge"},
           {"a second reading", "/api/second"},
           {"the population", "/api/population"},
           {"the ledger as it stood on a day", "/api/ledger?as_of=2026-12-31"}}) {
    std::vector<double> ms;
    for (int i = 0; i < 5; ++i) ms.push_back(timed(asker, target));
    report(("page: " + what).c_str(), ms, 500);
  }
}

}  // namespace

int main(int argc, char** argv) {
  int individuals = 10000, requests = 10000;
  bool no_rank = false;
  CLI::App app{"Times the review page over a large catalogue."};
  app.add_option("--individuals", individuals, "of three captures each");
  app.add_flag("--no-rank", no_rank, "do not wait for the ranking, which takes its time beside the page");
  app.add_option("--requests", requests, "one after the other, for the memory that they leave behind");
  CLI11_PARSE(app, argc, argv);
  const try_out::Folder folder;
  auto start = Clock::now();
  const auto pond = try_out::draw_pond(
      folder.path / "pond",
      {.animals = individuals, .captures_each = 3, .patterns = 100, .again = 30, .fresh = 10, .unusable = 2});
  std::printf("%d individuals, %d photos, drawn in %.0f s\n", individuals, 3 * individuals + 42,
              ms_since(start) / 1000);

  start = Clock::now();
  review::Server server("127.0.0.1", 0);
  review::PageOptions options;
  options.port = server.port();
  review::Page page(folder.path / "pond", system_env(), options);
  std::printf("the program opens the catalogue in %.0f ms\n", ms_since(start));
  const Asker asker{page, "127.0.0.1:" + std::to_string(server.port())};
  first_paint(asker);
  if (!no_rank) wait_until_ranked(asker);
  std::printf("ranked in %.0f s after the start; %.0f MB resident\n", ms_since(start) / 1000, resident_mb());

  std::map<CaptureId, std::string> photo_of;
  for (const auto& own : pond.captures)
    if (&own - pond.captures.data() < 300)
      photo_of[own[2]] = asker.get("/api/capture/" + own[2].value)["photos"][0]["photo"];
  verdicts_and_next_pairs(asker, pond, photo_of);

  start = Clock::now();
  if (!no_rank) wait_until_ranked(asker);
  std::printf("ranked again %.0f s after the last of these verdicts; %.0f MB resident\n",
              ms_since(start) / 1000, resident_mb());
  other_pages(asker, pond);
  flat_memory(server, page, asker, pond, photo_of, requests);
  return 0;
}
