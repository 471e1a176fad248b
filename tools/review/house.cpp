#include "tools/review/house.h"

#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet::review {

House::House(Env& env, HouseOptions options) : env_(env), options_(std::move(options)) {}

std::shared_ptr<Desk> House::desk() const {
  const std::lock_guard lock(mutex_);
  return desk_;
}

void House::open(const std::filesystem::path& folder) {
  auto desk = std::make_shared<Desk>(folder, env_, options_.threads);
  desk->reader = options_.reader;
  desk->second_share = options_.second_share;
  desk->catalogue.identities();  // read before the first request, not during it
  if (options_.homes) remember_catalogue(*options_.homes, folder, env_);
  const std::lock_guard lock(mutex_);
  desk_.swap(desk);
}

void House::make(const std::string& title, const Actor& actor) {
  if (!options_.homes)
    throw Error(ErrorKind::unsupported, in_words(messages::kANewCatalogue), messages::kPageMakesNone,
                messages::kMakeWithEvetNew);
  const std::filesystem::path folder = folder_for_title(*options_.homes, title, env_);
  make_folders_durably(env_, options_.homes->catalogues);
  Catalogue::create(folder, title, actor, env_);
  open(folder);
}

std::vector<KnownCatalogue> House::known() const {
  return options_.homes ? known_catalogues(*options_.homes, env_) : std::vector<KnownCatalogue>();
}

std::filesystem::path House::home() const {
  return options_.homes ? options_.homes->catalogues : std::filesystem::path();
}

nlohmann::json catalogues_view(Visit& visit) {
  const auto desk = visit.house.desk();
  nlohmann::json list = nlohmann::json::array();
  for (const KnownCatalogue& known : visit.house.known())
    list.push_back({{"id", known.id},
                    {"title", known.title},
                    {"folder", visit.local ? known.folder.string() : known.folder.filename().string()},
                    {"trouble", visit.local || known.trouble.empty() ? known.trouble
                                                                     : in_words(messages::kItCannotBeOpened)},
                    {"last_night", known.last_night},
                    {"evening_waits", known.evening_waits},
                    {"open", desk && std::filesystem::absolute(desk->catalogue.folder()).lexically_normal() ==
                                         known.folder}});
  return {{"catalogues", list},
          {"folder", visit.local ? visit.house.home().string() : std::string()},
          {"makes", !visit.house.home().empty()}};
}

nlohmann::json make_catalogue(Visit& visit) {
  const Actor actor = person(visit.reader);
  const std::string title = text_of(visit.body, "title", 200);
  visit.house.make(title, actor);
  return {{"made", title}};
}

nlohmann::json open_catalogue(Visit& visit) {
  const std::string id = text_of(visit.body, "id");
  for (const KnownCatalogue& known : visit.house.known())
    if (known.id == id) {
      visit.house.open(known.folder);
      return {{"opened", known.title}};
    }
  throw Error(ErrorKind::not_found, catalogue_item(in_quotes(id)), messages::kMachineKnowsOfNoneSuch,
              messages::kLookAtListAgain);
}

nlohmann::json end_program(Visit& visit) {
  person(visit.reader);
  if (visit.house.end) visit.house.end();
  return {{"ended", true}};
}

nlohmann::json hello_without_catalogue(const House& house) {
  return {{"title", ""},
          {"catalogue", ""},
          {"none", true},
          {"reader", house.reader()},
          {"position", 0},
          {"nights", nlohmann::json::array()},
          {"individuals", 0},
          {"disputes", 0},
          {"warnings", nlohmann::json::array()},
          {"cautions", cautions()}};
}

}  // namespace evet::review
