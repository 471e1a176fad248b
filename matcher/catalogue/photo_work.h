// What the corridor makes of a photo in the catalogue: its pattern and its strip, from the cache, or made
// again from the stored bytes and the midline that counts (a drawn one, if the newest examination has one).
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "matcher/pattern/examine.h"

namespace evet {

// The version of the code and weights that make patterns, and the midline where one was drawn: what is made
// by another is stale.
std::string maker_of(const std::vector<cv::Point2d>& midline);

// The options under which the catalogue examines its photos.
ExamineOptions examine_options(const std::vector<cv::Point2d>& midline);
Examination examination_of(const Examined& examined, const std::vector<cv::Point2d>& midline);

struct PhotoRef {
  PhotoId photo;
  CaptureId capture;
};

// Keeps pattern and strip picture of a photo just examined; nothing when it has none.
void keep_in_cache(Catalogue& catalogue, const PhotoId& photo, const std::vector<cv::Point2d>& midline,
                   const Examined& examined);

// Photos that could not be looked at, and why: gone, damaged, or of a kind that no camera writes.
using LeftOut = std::map<PhotoId, std::string>;

// One a photo, in order; empty where no usable belly is found. What the cache lacks is made on `threads`
// threads and kept. A photo that cannot be looked at is left out, told in the log and noted in `left_out`: it
// is one photo that cannot be matched, and stops no other.
std::vector<std::optional<Pattern>> patterns_of(Catalogue& catalogue, const std::vector<PhotoRef>& photos,
                                                int threads, LeftOut* left_out = nullptr);

// The straightened belly as a JPEG, kStripRows x kStripCols, head up; empty when no belly is found or the
// photo cannot be looked at.
Bytes strip_jpeg_of(Catalogue& catalogue, const PhotoRef& photo);

}  // namespace evet
