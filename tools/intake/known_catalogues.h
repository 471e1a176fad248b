// The catalogues known on this machine, for who opens no terminal: those in the user's folder of catalogues, and
// those that were made or opened elsewhere.
//
// EVET_HOME names one folder for both the catalogues and the list; without it catalogues are made in
// ~/evet and the list lies with the user's state (XDG Base Directory Specification 0.8:
// $XDG_STATE_HOME, else ~/.local/state).
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "matcher/base/env.h"

namespace evet {

struct CatalogueHomes {
  std::filesystem::path catalogues;  // where new ones are made
  std::filesystem::path list;        // the file that names those elsewhere
};
// Of this user. Errors: not_found when there is no home folder.
CatalogueHomes catalogue_homes();
// Beside that list, for OwnDatabases; empty when there is no home folder.
std::filesystem::path own_databases_list();

struct KnownCatalogue {
  std::string id;  // of its path: what the page calls it by
  std::filesystem::path folder;
  std::string title;
  std::string trouble;  // why it cannot be opened; empty when it can
  std::string last_night;
  bool evening_waits = false;  // photos were dropped that are not taken in yet
};

// Newest opened first, then by folder. What is gone is left out. Never throws for what it finds.
std::vector<KnownCatalogue> known_catalogues(const CatalogueHomes& homes, Env& env);

// Puts it first on the list. Not worth a failure: a list that cannot be written stays as it is.
void remember_catalogue(const std::filesystem::path& folder, Env& env);
void remember_catalogue(const CatalogueHomes& homes, const std::filesystem::path& folder, Env& env);

// A folder for a new catalogue of this title: "Alder Fen" -> "~/evet/alder-fen". Errors: bad_input where no name
// can be made of it, conflict where one is there.
std::filesystem::path folder_for_title(const CatalogueHomes& homes, const std::string& title, Env& env);

}  // namespace evet
