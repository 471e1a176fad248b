// The individuals of a catalogue as a sheet of strips, like beside like: to be printed and leafed through.
//
// It names no place. As the night's report it is one page that needs nothing else, with strips of 30 mm on paper.
#pragma once
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "tools/report/night_report.h"

namespace evet {

struct CatalogueStrip {
  IndividualId id;
  std::string name;
  std::vector<std::string> aliases;
  std::string sex, first_night, last_night;
  std::size_t captures = 0;
  CaptureId capture;  // of the photo
  PhotoId photo;      // the newest that can be matched; empty where there is none
};

// Every individual, in the order of likeness (by_likeness.h) of its newest photo that can be matched.
std::vector<CatalogueStrip> strips_by_likeness(Catalogue& catalogue, int threads);

std::string strip_catalogue_html(Catalogue& catalogue, const std::vector<CatalogueStrip>& strips, Env& env);

}  // namespace evet
