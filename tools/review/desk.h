// What the page's routes work on: the catalogue, the rankings, the pictures, and who is asking.
#pragma once
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

#include "matcher/base/env.h"
#include "matcher/catalogue/catalogue.h"
#include "tools/review/evening.h"
#include "tools/review/message.h"
#include "tools/review/pictures.h"
#include "tools/review/ranked_nights.h"

namespace evet::review {

struct Desk {
  Desk(const std::filesystem::path& folder, Env& machine, int at_a_time);
  // The evening that is being prepared; made when first asked for. Errors: those of DraftFolder.
  Evening& evening();

  Env& env;
  std::mutex mutex;  // one request at a time on the catalogue; pictures have their own
  Catalogue catalogue;
  std::string id;  // of the catalogue: its first entry
  RankedNights ranked;
  Pictures pictures;
  const int threads;
  struct {
    std::mutex mutex;                    // one at a time: it takes seconds of a processor
    std::optional<Catalogue> catalogue;  // of its own: nobody waits while its nights are ranked
    std::string made_of;  // what the answer was made of; another question, or a newer ledger, asks afresh
    nlohmann::json answer;
  } in_doubt;                 // the last estimate with the doubt about identities
  std::string reader;         // the code proposed to whoever opens the page; may be empty
  double second_share = 0.1;  // of settled pairs that are read a second time

 private:
  std::mutex evening_mutex_;
  std::unique_ptr<Evening> evening_;
};

// One request on its way through a route.
struct Call {
  Desk& desk;
  const Target& target;
  nlohmann::json body;       // an object; empty for GET
  std::string reader;        // from the header or, for GET, the same; may be empty for GET
  std::string_view bytes{};  // of a request whose body is no JSON
  bool local = false;  // asked from this machine: others are told neither exact places nor where files lie

  const std::string& part(std::size_t i) const { return target.path.at(i); }
  // Errors: bad_input naming the value.
  CaptureId capture_at(std::size_t i) const;
  std::string query(const std::string& name) const;  // empty when absent
};

// Values of a request's body. Errors: bad_input naming the field and what would be right.
std::string text_of(const nlohmann::json& body, const char* field, std::size_t at_most = 400);
bool flag_in(const nlohmann::json& body, const char* field);  // which must be there
CaptureId capture_of(const nlohmann::json& body, const char* field);
PhotoId photo_of(const nlohmann::json& body, const char* field);
EntryId entry_of(const nlohmann::json& body, const char* field);
std::int64_t position_of(const nlohmann::json& body);  // "after"
bool is_photo_id(const std::string& text);
std::vector<std::string> shown_in(
    const nlohmann::json& body);                    // "in_spite_of": codes; empty when it is missing
std::string reason_in(const nlohmann::json& body);  // "reason"; empty when it is missing
const CaptureState& known_capture(Call& call, const CaptureId& id);  // errors: not_found

std::int64_t newest_position(const Catalogue& catalogue);  // of the ledger; 0 for an empty one

// The person who speaks. Errors: bad_input when the code is missing or is not one.
Actor person(const std::string& reader);
bool is_reader_code(const std::string& text);

}  // namespace evet::review
