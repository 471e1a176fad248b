// The review page with 10,000 individuals and 30,000 photos: how long each of its answers takes, and whether
// the memory of the server stays flat. The patterns are drawn and repeat; only the number of entries matters
// here.
//
//   build/release/tests/review_bench [--individuals N] [--requests N]
#include <malloc.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <string>
#include <vector>

#include "tests/matcher/catalogue/try_out.h"
#include "tests/tools/review/drawn_pond.h"
#include "tools/review/page.h"

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
  review::Response ask(const std::string& method, const std::string& target,
                       const std::string& body = {}) const {
    review::Request request{method,
                            target,
                            {{"host", "127.0.0.1:8080"},
                             {"cookie", "evet_8080=" + page.guard().token()},
                             {"origin", "http://127.0.0.1:8080"},
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

}  // namespace

int main(int argc, char** argv) {
  int individuals = 10000, requests = 10000;
  for (int i = 1; i + 1 < argc; i += 2) {
    if (std::string(argv[i]) == "--individuals") individuals = std::stoi(argv[i + 1]);
    if (std::string(argv[i]) == "--requests") requests = std::stoi(argv[i + 1]);
  }
  const try_out::Folder folder;
  auto start = Clock::now();
  const auto pond = try_out::draw_pond(
      folder.path / "pond",
      {.animals = individuals, .captures_each = 3, .patterns = 100, .again = 30, .fresh = 10, .unusable = 2});
  std::printf("%d individuals, %d photos, drawn in %.0f s\n", individuals, 3 * individuals + 42,
              ms_since(start) / 1000);

  start = Clock::now();
  review::PageOptions options;
  options.port = 8080;
  review::Page page(folder.path / "pond", system_env(), options);
  std::printf("the program opens the catalogue in %.0f ms\n", ms_since(start));
  const Asker asker{page};

  const auto timed = [&](const std::string& target) {
    const auto from = Clock::now();
    asker.ask("GET", target);
    return ms_since(from);
  };
  // What a first paint waits for: the page's files, who we are, the night.
  std::vector<double> first;
  for (int i = 0; i < 11; ++i) {
    double sum = 0;
    for (const char* target : {"/", "/style.css", "/app.js", "/night.js", "/api/hello", "/api/night"})
      sum += timed(target);
    first.push_back(sum);
  }
  report("first paint, the program's part", first, 500);
  for (int i = 0; i < 6000 && asker.get("/api/night")["ranking"]["running"].get<bool>(); ++i)
    ::usleep(100'000);
  std::printf("ranked in %.0f s after the start; %.0f MB resident\n", ms_since(start) / 1000, resident_mb());

  std::vector<double> pair, verdict;
  for (std::size_t i = 0; i + 1 < pond.again.size(); ++i) {
    auto from = Clock::now();
    asker.ask("POST", "/api/verdict",
              nlohmann::json{{"capture", pond.again[i].value},
                             {"other", pond.captures[i][2].value},
                             {"answer", "same"},
                             {"after", asker.get("/api/hello")["position"]}}
                  .dump());
    verdict.push_back(ms_since(from));
    from = Clock::now();
    const nlohmann::json next = asker.get("/api/capture/" + pond.again[i + 1].value);
    const std::string mine = next["photos"][0]["photo"];
    asker.ask("GET", "/strip/" + mine);
    if (!next["candidates"].empty()) {
      const std::string theirs = next["candidates"][0]["photo"];
      asker.ask("GET", "/strip/" + theirs + "?onto=" + mine);
      asker.ask("GET", "/api/evidence/" + mine + "/" + theirs);
    }
    pair.push_back(ms_since(from));
  }
  report("a verdict, on disk and folded", verdict, 100);
  report("the next pair: capture, both strips, ties", pair, 100);

  std::vector<double> memory;
  for (int i = 0; i < requests; ++i) {
    const auto& own = pond.captures[static_cast<std::size_t>(i * 7919 % individuals)];
    const std::string targets[] = {"/api/night", "/api/capture/" + own[1].value,
                                   "/api/individual/" + own[0].value,
                                   "/api/individuals?from=" + std::to_string(i % individuals), "/api/ledger"};
    asker.ask("GET", targets[i % 5]);
    if (i % (requests / 10) == requests / 10 - 1) memory.push_back(resident_mb());
  }
  std::printf("resident MB over %d requests:", requests);
  for (const double mb : memory) std::printf(" %.0f", mb);
  std::printf("\n");
  return 0;
}
