// The review page with 10,000 individuals and 30,000 photos: how long each of its answers takes, and whether
// the memory of the server stays flat. The patterns are drawn and repeat; only the number of entries matters
// here.
//
//   build/release/tests/review_bench [--individuals N] [--requests N] [--rank no]
#include <malloc.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <map>
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
  bool wait = true;  // for the ranking, which takes its time beside the page
  for (int i = 1; i + 1 < argc; i += 2) {
    if (std::string(argv[i]) == "--individuals") individuals = std::stoi(argv[i + 1]);
    if (std::string(argv[i]) == "--rank") wait = std::string(argv[i + 1]) != "no";
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
  for (int i = 0; wait && i < 6000 && asker.get("/api/night")["ranking"]["running"].get<bool>(); ++i)
    ::usleep(100'000);
  std::printf("ranked in %.0f s after the start; %.0f MB resident\n", ms_since(start) / 1000, resident_mb());

  std::map<CaptureId, std::string> photo_of;
  for (const auto& own : pond.captures)
    if (&own - pond.captures.data() < 30)
      photo_of[own[2]] = asker.get("/api/capture/" + own[2].value)["photos"][0]["photo"];
  std::vector<double> pair, verdict, capture_ms, strip_ms, laid_ms, ties_ms;
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
    capture_ms.push_back(ms_since(from));
    const std::string mine = next["photos"][0]["photo"];
    strip_ms.push_back(timed("/strip/" + mine));
    const std::string theirs = photo_of[pond.captures[i + 1][2]];
    laid_ms.push_back(timed("/strip/" + theirs + "?onto=" + mine));
    ties_ms.push_back(timed("/api/evidence/" + mine + "/" + theirs));
    pair.push_back(capture_ms.back() + strip_ms.back() + laid_ms.back() + ties_ms.back());
  }
  report("a verdict, on disk and folded", verdict, 100);
  // The page asks for the next capture, strips and ties ahead, before the verdict: then only pictures already
  // in the browser are drawn. This is what it costs when nothing was asked for ahead; the first line has the
  // fold of the whole catalogue after the verdict in it.
  report("the next pair, nothing asked for ahead", pair, 100);
  report("  what is known of the capture", capture_ms, 100);
  report("  its strip", strip_ms, 100);
  report("  the candidate's strip, laid onto it", laid_ms, 100);
  report("  the ties", ties_ms, 100);

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
