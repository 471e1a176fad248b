#include "tools/train/laying_facts.h"

#include <algorithm>
#include <cmath>
#include <ostream>

namespace evet::train {
namespace {

// Median distance, in belly lengths, from where the map lays a place of the skin to where it is; `turned`:
// with the other end as the head.
double landing_error(const StripMap& map, const render::Truth& truth, bool turned) {
  std::vector<double> errors;
  for (int y = 0; y < truth.uv.rows; y += 5)
    for (int x = 0; x < truth.uv.cols; x += 5) {
      if (!truth.clear(y, x)) continue;
      cv::Vec2f uv = truth.uv(y, x);
      if (!(uv[0] >= 0 && uv[0] <= 1 && std::abs(uv[1]) <= 0.95f)) continue;
      if (turned) uv = {1 - uv[0], -uv[1]};
      errors.push_back(cv::norm(map.at(uv[0], uv[1]) - cv::Point2d(x + 0.5, y + 0.5)) / truth.length_px);
    }
  if (errors.empty()) return 1;
  const auto middle = errors.begin() + static_cast<std::ptrdiff_t>(errors.size() / 2);
  std::nth_element(errors.begin(), middle, errors.end());
  return std::min(*middle, 9.0);
}

void write(std::ostream& out, const HeadEvidence& e) {
  out << ',' << e.coordinates << ',' << e.head << ',' << e.tail << ',' << e.fore_limbs << ',' << e.hind_limbs;
}

}  // namespace

LayingFacts laying_facts(const render::CaptureSpec& spec, const Looker& looker) {
  LayingFacts out;
  out.spec = spec;
  const render::RenderedPhoto rendered = render::render(spec);
  Photo photo;
  photo.bgr = rendered.bgr;
  const BodyCoordinates found = coordinates_from_looks(photo, looker, &out.looks);
  out.p_head_right = found.p_head_right;
  out.belly_share = static_cast<double>(cv::countNonZero(rendered.truth.belly)) /
                    static_cast<double>(rendered.truth.belly.total());
  if (!out.looks.looked_closer) return out;
  for (StripHypothesis& laid : strip_hypotheses(found, photo.bgr.size())) {
    LaidFacts facts;
    const StripMap& map = laid.fit.photo_from_strip;
    const double straight = landing_error(map, rendered.truth, false),
                 turned = landing_error(map, rendered.truth, true);
    facts.landing = std::min(straight, turned);
    facts.head_right = straight <= turned;
    facts.laid = std::move(laid);
    out.laid.push_back(std::move(facts));
  }
  return out;
}

void write_header(std::ostream& out) {
  out << "world_kind,world,individual,difficulty,subject,belly_share,looked_closer,first_look,second_look,"
         "small_kind,"
         "p_head_right";
  for (const char* look : {"close", "wide"})
    for (const char* what : {"coordinates", "head", "tail", "fore_limbs", "hind_limbs"})
      out << ',' << look << '_' << what;
  out << ",along,rank,landing,head_right,mask_covered,strip_on_belly,field_agrees,half_width,narrowest,"
         "widest,bend_deg,"
         "length_over_extent,inlier_share,error_u,error_v,folded_share,preference\n";
}

void write_rows(std::ostream& out, const LayingFacts& f) {
  const auto photo = [&] {
    out << static_cast<int>(f.spec.world) << ',' << f.spec.world_seed << ',' << f.spec.individual << ','
        << (f.spec.conditions.wild ? 3 : static_cast<int>(f.spec.conditions.difficulty)) << ','
        << static_cast<int>(f.spec.subject) << ',' << f.belly_share << ',' << f.looks.looked_closer << ','
        << f.looks.gate.first_look << ',' << f.looks.gate.second_look << ',' << f.looks.gate.p_small_kind
        << ',' << f.p_head_right;
    write(out, f.looks.close);
    write(out, f.looks.wide);
  };
  if (f.laid.empty()) {
    photo();
    out << ",-1,0,9,0,0,0,0,0,0,0,0,0,0,0,0,0,0\n";
  }
  for (size_t rank = 0; rank < f.laid.size(); ++rank) {
    const auto& [laid, landing, head_right] = f.laid[rank];
    const StripSupport& s = laid.support;
    photo();
    out << ',' << static_cast<int>(laid.along) << ',' << rank << ',' << landing << ',' << head_right << ','
        << s.mask_covered << ',' << s.strip_on_belly << ',' << s.field_agrees << ',' << s.half_width << ','
        << s.narrowest << ',' << s.widest << ',' << s.bend_deg << ',' << s.length_over_extent << ','
        << laid.fit.inlier_share << ',' << laid.fit.error_u << ',' << laid.fit.error_v << ','
        << laid.fit.folded_share << ',' << laid.preference << '\n';
  }
}

}  // namespace evet::train
