#include "matcher/belly/network_provider.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <optional>

#include "matcher/belly/belly_gate.h"
#include "matcher/belly/belly_net.h"
#include "matcher/belly/head_end.h"
#include "matcher/belly/strip_hypotheses.h"

namespace evet {
namespace {

constexpr double kBellyShare = 0.8;  // of the second look's side
constexpr double kWideShare = 0.42;  // of the wide look's, which shows head and tail
constexpr double kFewestCells = 40;  // belly cells of the first look, below which there is nothing to look at
constexpr double kSureOfHead = 0.95;  // below it the second look is taken both ways up

// Where a belly lies in the photo and which way it points.
struct Place {
  cv::Point2d centre, down;  // photo pixels; unit vector from head to vent
  double extent = 0;         // along `down`, photo pixels
};

// Belly cells' mean probability, over the most convincing area of the least size a belly can have.
double conviction(const BodyCoordinates& k, int cells) {
  std::vector<float> p(k.p_belly.begin(), k.p_belly.end());
  std::nth_element(p.begin(), p.begin() + cells, p.end(), std::greater<>());
  double sum = 0;
  for (int i = 0; i < cells; ++i) sum += p[i];
  return sum / cells;
}

std::optional<Place> place_of(const BodyCoordinates& k, cv::Size photo) {
  const std::vector<StripHypothesis> found = strip_hypotheses(k, photo);
  if (found.empty()) return std::nullopt;
  const StripMap& map = found[0].fit.photo_from_strip;
  constexpr int kSteps = 16;
  cv::Point2d head, tail;
  for (int i = 0; i <= kSteps / 3; ++i) {
    head += map.at(static_cast<double>(i) / kSteps, 0);
    tail += map.at(1 - static_cast<double>(i) / kSteps, 0);
  }
  Place place;
  place.down = tail - head;
  const double norm = std::hypot(place.down.x, place.down.y);
  if (!(norm > 1)) return std::nullopt;
  place.down /= norm;
  const cv::Point2d right(place.down.y, -place.down.x);
  double low[2] = {1e300, 1e300}, high[2] = {-1e300, -1e300}, length = 0;
  for (int i = 0; i <= kSteps; ++i) {
    const cv::Point2d p = map.at(static_cast<double>(i) / kSteps, 0);
    if (i > 0) length += cv::norm(p - map.at((i - 1.0) / kSteps, 0));
    const double at[2] = {p.dot(right), p.dot(place.down)};
    for (int axis = 0; axis < 2; ++axis)
      low[axis] = std::min(low[axis], at[axis]), high[axis] = std::max(high[axis], at[axis]);
  }
  place.centre = right * ((low[0] + high[0]) / 2) + place.down * ((low[1] + high[1]) / 2);
  place.extent = std::max(high[1] - low[1], high[0] - low[0] + 0.25 * length);
  return place.extent > 8 ? std::optional(place) : std::nullopt;
}

cv::Matx23d photo_from_look(const Place& place, double belly_share) {
  const double scale = place.extent / (belly_share * kLookSide);
  const cv::Point2d y = place.down * scale, x(y.y, -y.x);
  const cv::Point2d corner = place.centre - (x + y) * (kLookSide / 2.0);
  return {x.x, y.x, corner.x, x.y, y.y, corner.y};
}

Place turned(const Place& place) {
  return {place.centre, -place.down, place.extent};
}

// The same frame seen in a mirror: x runs the other way.
cv::Matx23d mirrored(cv::Matx23d photo_from_look) {
  for (int row = 0; row < 2; ++row) {
    photo_from_look(row, 2) += photo_from_look(row, 0) * kLookSide;
    photo_from_look(row, 0) *= -1;
  }
  return photo_from_look;
}

// The mean of a look and of the same look in a mirror, where left and right of the skin change places.
BodyCoordinates mean_with_mirror(BodyCoordinates k, const BodyCoordinates& mirror) {
  const auto mean = [](cv::Mat1f& here, const cv::Mat1f& there) {
    cv::Mat1f turned;
    cv::flip(there, turned, 1);
    here = (here + turned) / 2;
  };
  mean(k.p_belly, mirror.p_belly);
  mean(k.p_clear, mirror.p_clear);
  if (!k.error.empty()) mean(k.error, mirror.error);
  const int last = k.uv.cols - 1;
  for (int y = 0; y < k.uv.rows; ++y)
    for (int x = 0; x <= last; ++x) {
      const cv::Vec2f there = mirror.uv(y, last - x);
      k.uv(y, x) = (k.uv(y, x) + cv::Vec2f(there[0], -there[1])) / 2;
    }
  k.p_animal = (k.p_animal + mirror.p_animal) / 2;
  k.p_small_kind = (k.p_small_kind + mirror.p_small_kind) / 2;
  return k;
}

// A place looked at close up and from further away, head up as the place has it.
struct Glance {
  cv::Matx23d frame;  // of the close look
  BodyCoordinates close;
  HeadEvidence close_evidence, wide_evidence;
};

template <class LookAt>
Glance glance(const Place& place, const LookAt& look_at) {
  Glance out;
  out.frame = photo_from_look(place, kBellyShare);
  out.close = look_at(out.frame);
  out.close_evidence = head_evidence(out.close, kBellyShare);
  out.wide_evidence = head_evidence(look_at(photo_from_look(place, kWideShare)), kWideShare);
  return out;
}

}  // namespace

cv::Mat3b take_look(const cv::Mat3b& photo, const cv::Matx23d& to_photo) {
  // Only what the look covers, averaged down so that bilinear sampling skips nothing.
  const double scale = std::hypot(to_photo(0, 0), to_photo(1, 0));
  cv::Rect2d cover;
  for (int corner = 0; corner < 4; ++corner) {
    const int right = corner % 2, down = corner / 2;
    const cv::Vec2d p = to_photo * cv::Vec3d(right * kLookSide, down * kLookSide, 1);
    const cv::Rect2d at(p[0], p[1], 1e-6, 1e-6);
    cover = corner == 0 ? at : cover | at;
  }
  const cv::Rect part = cv::Rect(cv::Point(cvFloor(cover.x) - 2, cvFloor(cover.y) - 2),
                                 cv::Point(cvCeil(cover.br().x) + 2, cvCeil(cover.br().y) + 2)) &
                        cv::Rect(0, 0, photo.cols, photo.rows);
  const cv::Vec3b grey(128, 128, 128);
  if (part.empty()) return cv::Mat3b(kLookSide, kLookSide, grey);
  cv::Mat3b source = photo(part);
  if (scale > 1)
    cv::resize(photo(part), source,
               {std::max(1, cvRound(part.width / scale)), std::max(1, cvRound(part.height / scale))}, 0, 0,
               cv::INTER_AREA);
  const double fx = static_cast<double>(source.cols) / part.width,
               fy = static_cast<double>(source.rows) / part.height;
  // warpAffine counts from pixel centres, frames from the outer corner.
  cv::Matx23d to_source = to_photo;
  to_source(0, 2) = (to_photo(0, 2) + 0.5 * (to_photo(0, 0) + to_photo(0, 1)) - part.x) * fx - 0.5;
  to_source(1, 2) = (to_photo(1, 2) + 0.5 * (to_photo(1, 0) + to_photo(1, 1)) - part.y) * fy - 0.5;
  for (int column = 0; column < 2; ++column) to_source(0, column) *= fx, to_source(1, column) *= fy;
  cv::Mat3b look;
  cv::warpAffine(source, look, to_source, {kLookSide, kLookSide}, cv::INTER_LINEAR | cv::WARP_INVERSE_MAP,
                 cv::BORDER_CONSTANT, cv::Scalar(grey));
  return look;
}

BodyCoordinates coordinates_from_looks(const Photo& photo, const Looker& looker, LookFacts* facts) {
  const auto look_at = [&](const cv::Matx23d& to_photo) {
    return looker(take_look(photo.bgr, to_photo), to_photo);
  };
  const double whole = static_cast<double>(std::max(photo.bgr.cols, photo.bgr.rows)) / kLookSide;
  BodyCoordinates first = look_at({whole, 0, (photo.bgr.cols - whole * kLookSide) / 2, 0, whole,
                                   (photo.bgr.rows - whole * kLookSide) / 2});
  first.confidence = conviction(first, 200);
  if (facts) *facts = {{first.confidence, 0, first.p_small_kind}, {}, {}, false};
  const std::optional<Place> place = cv::countNonZero(first.p_belly > 0.5f) >= kFewestCells
                                         ? place_of(first, photo.bgr.size())
                                         : std::nullopt;
  if (!place) {
    first.confidence = std::min(first.confidence, 0.05);
    return first;
  }

  Glance best = glance(*place, look_at);
  HeadEvidence close = best.close_evidence, wide = best.wide_evidence;
  if (1 / (1 + std::exp(-head_up_log_odds(close, wide))) < kSureOfHead) {
    const Glance down = glance(turned(*place), look_at);
    close = mean_of(close, -down.close_evidence), wide = mean_of(wide, -down.wide_evidence);
    if (head_up_log_odds(close, wide) < 0) best = down, close = -close, wide = -wide;
  }
  BodyCoordinates found = mean_with_mirror(std::move(best.close), look_at(mirrored(best.frame)));
  // Where the parts outvote the coordinates, these are read from the other end.
  if (head_evidence(found, kBellyShare).coordinates < 0) found = turned_end_for_end(found);
  found.p_head_right = 1 / (1 + std::exp(-head_up_log_odds(close, wide)));
  found.p_animal = std::max(first.p_animal, found.p_animal);
  // Both looks must be convinced: a leaf may pass for a belly far away, hardly twice.
  const GateFacts gate{first.confidence, conviction(found, 800), found.p_small_kind};
  found.confidence = p_large_belly(gate);
  found.steepness = std::max(close.coordinates, 0.0);
  if (facts) *facts = {gate, close, wide, true};
  return found;
}

BodyCoordinates coordinates_from_network(const Photo& photo) {
  if (packed_belly_weights().empty()) {
    BodyCoordinates none;
    none.source = "network";
    return none;
  }
  thread_local BellyNet net(belly_weights());  // a parsed copy of constant data; forward() needs one a thread
  return coordinates_from_looks(
      photo, [](const cv::Mat3b& look, const cv::Matx23d& to_photo) { return net.look(look, to_photo); });
}

}  // namespace evet
