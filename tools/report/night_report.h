// The report of one night: what was caught, what it turned out to be, and how far that can be trusted.
//
// A plain value in, one self-contained HTML page out: pictures and styles are embedded, nothing is fetched,
// it prints, and it can be given to a licensing authority. Exact places of protected animals, names of people and
// whatever could give a place away belong in the authority's version alone: see for_public.h.
//
// Whoever fills the value takes everything from the ledger; the page adds no figure of its own but sums and
// shares. All text may hold anything and is escaped. Dates are "2031-05-14".
#pragma once
#include <opencv2/core.hpp>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "matcher/catalogue/night_facts.h"
#include "models/base/estimate_value.h"
#include "tools/report/settled_by.h"

namespace evet {

// A straightened belly, head up, as in matcher/belly/strip.h.
struct ReportStrip {
  cv::Mat3b bgr;      // may be empty: the page then says that there is no picture
  cv::Mat1b valid;    // same size, or empty for "all seen"; what was not seen plainly is hatched
  std::string photo;  // as named in the sheet
  std::string night;
};

// One spot on both strips, in body coordinates: u 0 (throat) .. 1 (vent), v -1 (left edge) .. 1 (right edge).
struct SpotTie {
  float u_now = 0, v_now = 0;
  float u_before = 0, v_before = 0;
};

// A known individual that a capture may be.
struct ReportCandidate {
  std::string individual;  // its label
  double probability = 0;
  int matched_spots = 0;
  ReportStrip before;         // the photo that carries the evidence
  std::vector<SpotTie> ties;  // may be empty
};

// What every capture has, whatever became of it.
struct ReportCapture {
  std::string name;  // the sheet's `capture`, or the photo's name
  std::string trap;  // may be empty
  std::string sex;   // "female", "male", "unknown" or empty
  std::string stage;
  std::optional<double> svl_mm;
  ReportStrip strip;  // the best photo of the night
  ReportDecided decided;
  std::string reason;   // of a person who did, in their words; not for everybody
  std::string caution;  // a sentence that must be read with it ("in dispute: ..."); may be empty
};

struct ReportRecapture {
  ReportCapture capture;
  ReportCandidate match;
  std::string first_night;            // of the individual
  std::string last_night;             // before this one
  int earlier_captures = 0;           // of the individual, before this one
  std::optional<double> last_svl_mm;  // on last_night
};

struct ReportNew {
  ReportCapture capture;
  std::string label;  // given to the new individual; may be empty
  double probability = 1;
};

struct ReportLook {
  ReportCapture capture;
  std::vector<ReportCandidate> candidates;  // best first
  double new_probability = 0;
  std::vector<std::string> why{};  // a person should look: sentences
};

// A capture of which no photo could be used.
struct ReportUnusable {
  ReportCapture capture;  // no strip
};

// A photo that could not be used, whether or not another photo of the capture could.
struct ReportFailedPhoto {
  std::string photo;
  std::string capture;               // may be empty
  std::vector<std::string> reasons;  // sentences, each with what to do
};

// A row of the sheet that was refused when the rest was taken in.
struct ReportRefusedRow {
  std::string where;  // "line 7"
  std::string sentence;
};

// How the catalogue grew: after each night, counted from the first.
struct DiscoveryPoint {
  std::string night;
  int captures = 0;     // so far, settled ones
  int individuals = 0;  // so far
};

// A capture as the sheet and the ledger have it: a row of the table of all captures.
struct ReportRow {
  std::string capture, trap, sex, stage;
  std::optional<double> svl_mm, total_mm, mass_g;
  bool released = true;
  std::string outcome;  // "N-012, caught again", "N-031, new", "not settled", "no usable photo"
  SettledBy by;         // who identified it
  std::string licence;
  std::optional<double> latitude, longitude;  // WGS 84, degrees; in the authority's version alone
  std::string notes;
};

// Something that spoke against what was recorded, and that was overruled with a reason.
struct ReportOverride {
  std::string capture;   // may be empty: it was the sheet, or a merge
  std::string sentence;  // what spoke against it
  std::string reason, by, on;
  bool stands = true;
};

// Whom the page is for.
enum class Audience { authority, everybody };

// The naive figure and the one that allows for wrong identities stand side by side, always.
struct ReportEstimate {
  std::string what;   // "Large newts in the pond, 2031-04-02 to 2031-05-14"
  std::string model;  // in words: "Schnabel's estimator over six nights"
  models::Estimate naive;
  std::optional<models::Estimate> corrected;
  std::string correction;  // how identities were allowed for, or why there is no corrected figure: a sentence
};

struct NightReport {
  Audience audience = Audience::authority;
  std::string catalogue;   // its title
  std::string site, pond;  // both empty in the version for everybody
  std::string place;       // generalised ("within a 10 km square of the Vale of Ash"); may be empty
  std::string night;
  std::vector<std::string> observers, licences;
  NightFacts facts;  // method, effort, weather, licence holder
  int captures_on_sheet = 0;
  int photos_on_sheet = 0;
  std::string sheet;  // its file name

  std::vector<ReportRow> rows;  // every capture, in the order of the sheet
  std::vector<ReportRecapture> recaptures;
  std::vector<ReportNew> newcomers;
  std::vector<ReportLook> looks;  // in the order in which looking gains most
  std::vector<ReportUnusable> unusable;
  std::vector<ReportFailedPhoto> failed_photos;
  std::vector<ReportRefusedRow> refused_rows;
  std::vector<std::string>
      picture_questions;  // one picture of which the sheets do not agree, a sentence each
  std::vector<ReportOverride> overrides;

  std::vector<DiscoveryPoint> discovery;  // up to and with this night
  std::vector<ReportEstimate> estimates;
  std::string no_estimate;  // why there is none, a sentence; read only when `estimates` is empty

  std::string ledger_head;  // hash of the newest entry: which state of the catalogue this page shows
  int ledger_entries = 0;
  std::string made_at;  // ISO 8601 with offset
  std::string program;  // "evet 0.1.0"
  std::vector<std::pair<std::string, std::string>>
      how;  // further facts: what, and which ("Calibration", "...")

  // Throws Error (conflict) when the lists do not add up to captures_on_sheet, or a probability is none.
  void check() const;
};

// Same value, same bytes. Errors: those of check().
std::string night_report_html(const NightReport& report);

}  // namespace evet
