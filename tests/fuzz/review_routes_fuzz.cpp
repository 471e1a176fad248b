// Any bytes as a request to the review page: the first byte says whether it comes with the page's
// credentials, then "METHOD TARGET\n", header lines, an empty line, the body. No answer may be a crash or a
// 500, and none may tell a path of the machine.
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <string>

#include "tests/matcher/catalogue/try_out.h"
#include "tests/tools/review/drawn_pond.h"
#include "tools/review/page.h"

namespace {

using namespace evet;

struct Target {
  try_out::Folder folder;
  std::unique_ptr<review::Page> page;
  Target() {
    try_out::draw_pond(folder.path / "pond", {.animals = 2, .again = 1, .fresh = 1, .unusable = 1});
    review::PageOptions options;
    options.port = 8080;
    page = std::make_unique<review::Page>(folder.path / "pond", system_env(), options);
  }
};

std::string line_of(std::string& text) {
  const std::size_t end = std::min(text.find('\n'), text.size());
  std::string line = text.substr(0, end);
  text.erase(0, std::min(end + 1, text.size()));
  return line;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static Target target;
  if (size == 0) return 0;
  std::string text(reinterpret_cast<const char*>(data + 1), size - 1);
  review::Request request;
  const std::string first = line_of(text);
  const std::size_t space = std::min(first.find(' '), first.size());
  request.method = first.substr(0, space);
  request.target = first.substr(std::min(space + 1, first.size()));
  while (!text.empty()) {
    const std::string line = line_of(text);
    if (line.empty()) break;
    const std::size_t colon = std::min(line.find(':'), line.size());
    request.headers[line.substr(0, colon)] = line.substr(std::min(colon + 1, line.size()));
  }
  request.body = text;
  if ((data[0] & 1) != 0) {
    request.headers["host"] = "127.0.0.1:8080";
    request.headers["origin"] = "http://127.0.0.1:8080";
    request.headers["content-type"] = "application/json";
    request.headers["cookie"] = "evet_8080=" + target.page->guard().token();
    request.headers["x-evet-guard"] = target.page->guard().write_key();
    if ((data[0] & 2) != 0) request.headers["x-evet-reader"] = "FZ";
  }
  const review::Response response = target.page->handle(request);
  if (response.status == 500 || response.body.find(target.folder.path.string()) != std::string::npos)
    std::abort();
  return 0;
}
