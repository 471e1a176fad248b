// Which catalogue lies open on the page, and which others this machine knows.
#pragma once
#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "tools/intake/known_catalogues.h"
#include "tools/review/desk.h"

namespace evet::review {

struct HouseOptions {
  int threads = 1;
  std::string reader{};
  double second_share = 0.1;
  std::optional<CatalogueHomes> homes{};  // absent: nothing is known, made or remembered
};

class House {
 public:
  House(Env& env, HouseOptions options);

  // The one that is open; null when none is. Whoever holds it may work on though another is opened.
  std::shared_ptr<Desk> desk() const;
  void open(const std::filesystem::path& folder);  // errors: those of Catalogue::open
  // Makes one in the user's folder of catalogues and opens it. Errors: those of
  // folder_for_title() and Catalogue::create().
  void make(const std::string& title, const Actor& actor);
  std::vector<KnownCatalogue> known() const;
  std::filesystem::path home() const;  // where new ones are made; empty where none are
  const std::string& reader() const { return options_.reader; }

  std::function<void()> end;  // ends the program; may be empty

 private:
  Env& env_;
  const HouseOptions options_;
  mutable std::mutex mutex_;
  std::shared_ptr<Desk> desk_;
};

// One request that needs no catalogue.
struct Visit {
  House& house;
  const nlohmann::json& body;
  std::string reader;
  bool local = false;  // as in Call
};

// {"catalogues": [{"id", "title", "folder", "trouble", "last_night", "evening_waits", "open"}], "folder", "command"}
nlohmann::json catalogues_view(Visit& visit);
nlohmann::json make_catalogue(Visit& visit);  // {"title"}
nlohmann::json open_catalogue(Visit& visit);  // {"id"}: one of those known
nlohmann::json end_program(Visit& visit);     // {}
// What hello says while no catalogue is open.
nlohmann::json hello_without_catalogue(const House& house);

}  // namespace evet::review
