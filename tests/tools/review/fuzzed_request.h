// Any bytes as a request to the review page: the first byte says whether it comes with the page's
// credentials, then "METHOD TARGET\n", header lines, an empty line, the body. The fuzzer and the ordinary
// tests read the same.
#pragma once
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "tests/matcher/catalogue/try_out.h"
#include "tests/tools/review/drawn_pond.h"
#include "tools/review/page.h"

namespace evet::try_out {

class FuzzedPage {
 public:
  FuzzedPage() { begin(); }

  review::Response answer(std::string_view data) {
    // Libfuzzer learns the folder's name from fit(); a sentence that quotes the request's
    // own text tells nothing.
    if (data.empty() || data.find(folder_.path.string()) != std::string_view::npos) return {};
    const unsigned how = static_cast<unsigned char>(data.front());
    std::string text = with_ids(data.substr(1));
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
    if ((how & 1) != 0) {
      request.headers["host"] = "127.0.0.1:8080";
      request.headers["origin"] = "http://127.0.0.1:8080";
      request.headers["content-type"] = "application/json";
      request.headers["cookie"] = "evet_8080=" + page_->guard().token();
      request.headers["x-evet-guard"] = page_->guard().write_key();
      if ((how & 2) != 0) request.headers["x-evet-reader"] = "FZ";
    }
    const review::Response response = page_->handle(request);
    // What was said stays said: now and then the pond is drawn afresh, or the ledger would grow without end.
    if (request.method == "POST" && response.status == 200 && ++said_ % 200 == 0) begin();
    return response;
  }
  // No answer may be a crash or a 500, and none may tell a path of the machine.
  bool fit(const review::Response& response) const {
    return response.status < 500 && response.body.find(folder_.path.string()) == std::string::npos;
  }

 private:
  void begin() {
    page_.reset();
    std::filesystem::remove_all(folder_.path / "pond");
    const DrawnPond pond =
        draw_pond(folder_.path / "pond", {.animals = 2, .again = 1, .fresh = 1, .unusable = 1});
    review::PageOptions options;
    options.port = 8080, options.second_share = 1;
    page_ = std::make_unique<review::Page>(folder_.path / "pond", system_env(), options);
    Catalogue catalogue = Catalogue::open(folder_.path / "pond", system_env());
    ids_ = {pond.captures[0][0].value, pond.captures[0][1].value, pond.again[0].value, pond.fresh[0].value};
    for (const CaptureId& id : {pond.captures[0][0], pond.again[0], pond.unusable[0]})
      ids_.push_back(catalogue.identities().capture(id)->photos[0].photo.value);
    for (const ListedEntry& one : catalogue.ledger({.kind = "verdict", .limit = 3}))
      ids_.push_back(one.entry.id.value);
  }
  // "~0" to "~9" stand for identifiers that there are, which no fuzzer would ever hit
  // upon: captures, photos, verdicts.
  std::string with_ids(std::string_view text) const {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
      const bool known = text[i] == '~' && i + 1 < text.size() && text[i + 1] >= '0' &&
                         static_cast<std::size_t>(text[i + 1] - '0') < ids_.size();
      if (known)
        out += ids_[static_cast<std::size_t>(text[++i] - '0')];
      else
        out += text[i];
    }
    return out;
  }
  static std::string line_of(std::string& text) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string line = text.substr(0, end);
    text.erase(0, std::min(end + 1, text.size()));
    return line;
  }
  Folder folder_;
  std::unique_ptr<review::Page> page_;
  std::vector<std::string> ids_;
  int said_ = 0;
};

}  // namespace evet::try_out
