// The evening that is being prepared at the page: photos as they come, each judged beside the page while the
// animal is still in the tray, the sheet that grows, and the night being taken in.
//
// With catalogue objects and locks of its own, so that neither a photo on its way nor one being examined holds
// up a reader. What is on the disk is DraftFolder's; what is lost with the program is only a photo half sent.
#pragma once
#include <condition_variable>
#include <filesystem>
#include <list>
#include <map>
#include <mutex>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <thread>

#include "matcher/catalogue/search_catalogue.h"
#include "tools/intake/draft_check.h"
#include "tools/intake/draft_folder.h"
#include "tools/intake/intake_outcome.h"
#include "tools/review/pictures.h"
#include "tools/review/watched_folder.h"

namespace evet::review {

inline constexpr std::size_t kPieceBytes = 60 * 1024;     // of a photo on its way, at most, in one request
inline constexpr std::size_t kMostOnTheWay = 256U << 20;  // of all that are half sent

// One piece of a photo on its way.
struct Piece {
  std::string upload;            // chosen by the sender
  std::string name;              // of the file, as the sender has it
  std::size_t at = 0, size = 0;  // where the piece begins, and how long the photo is
  std::int64_t modified_ms = 0;
};

// Who a photo probably shows.
struct Likely {
  std::string individual;  // its name; empty when the catalogue knows nobody
  std::string capture;     // its oldest, for the link
  std::string best_photo;
  double probability = 0, new_probability = 1;
  std::string advice;
};

class Evening {
 public:
  // Errors: those of DraftFolder.
  Evening(const std::filesystem::path& catalogue, Env& env, int threads);
  ~Evening();
  Evening(const Evening&) = delete;
  Evening& operator=(const Evening&) = delete;

  // {"have": bytes so far}, or of the last piece {"photo", "again"}. A piece that does not fit what has come so
  // far is not taken, and "have" says where to go on. Errors: too_large; those of look_at_photo; storage.
  nlohmann::json take_piece(const Piece& piece, std::string_view bytes);
  // Errors: conflict while the night is being taken in; those of the act.
  void change(const std::function<void(Draft&)>& act);
  // Makes the folder "incoming/drop" of the catalogue: photos that are put there are taken from it. Errors: storage.
  void watch();
  void remove(const std::vector<std::string>& photos);
  // Draft, proposals, faults and how far the work has come; where it all lies only for who asks from here.
  nlohmann::json json(Catalogue& catalogue, const std::string& reader, bool local);
  std::string sheet(Catalogue& catalogue, const std::string& reader);
  // Begins to take the night in. Errors: bad_input while a cell is wrong, conflict while it is being taken in.
  // `in_spite`: why what speaks against it counts for nothing, as `evet intake --in-spite`; may be empty.
  void take_night(Catalogue& catalogue, const Actor& actor, const std::string& in_spite);
  // JPEG of a photo of the draft, upright. Errors: not_found.
  std::string picture(const PhotoId& photo, int long_side_px);

 private:
  struct OnTheWay {
    std::string upload, name;
    std::size_t size = 0;
    std::string bytes;
  };
  struct Taking {
    bool running = false;
    std::string stage, failed;
    std::size_t done = 0, all = 0;
    nlohmann::json outcome;
  };
  Arrival take_whole(BytesView bytes, const std::string& name, std::int64_t modified_ms);
  void judge_all();
  std::optional<DraftPhoto> next_to_judge();
  void judge(Catalogue& catalogue, const DraftPhoto& photo);
  void find_likely(Catalogue& catalogue, const DraftPhoto& photo, const Pattern& pattern);
  void take(const IntakeRequest& request);
  void refuse_while_taking() const;
  nlohmann::json draft_json(const Proposed& proposed) const;

  const std::filesystem::path catalogue_;
  Env& env_;
  const int threads_;
  mutable std::mutex mutex_;  // of what follows
  DraftFolder folder_;
  std::list<OnTheWay> on_the_way_;  // the newest first
  std::map<PhotoId, Likely> likely_;
  std::map<PhotoId, bool> tried_;  // to find who it is, since the program was started
  Taking taking_;
  struct {
    std::string made_of;
    DraftCheck answer;
  } check_;
  bool stop_ = false;
  std::condition_variable woken_;

  std::mutex pictures_mutex_;
  LruCache pictures_{32U << 20};

  // Of the thread that judges alone.
  std::optional<CatalogueGallery> gallery_;
  std::int64_t gallery_position_ = -1;
  PatternCache kept_;
  std::thread judging_, taker_;
  WatchedFolder watched_;  // the last: it calls what stands above
};

}  // namespace evet::review
