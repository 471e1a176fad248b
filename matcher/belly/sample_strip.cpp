#include "matcher/belly/sample_strip.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "matcher/belly/glare.h"

namespace evet {
namespace {

// Photo positions of all canvas points: pixel (r, c) of `size` stands for u = (r + 0.5) / rows and so on.
cv::Mat2f positions(const StripMap& map, cv::Size size) {
  cv::Mat2f out(size);
  for (int r = 0; r < size.height; ++r) {
    const StripMap::Local b = StripMap::local((r + 0.5) / size.height);
    cv::Vec2d k[StripMap::kPowers] = {};
    for (int i = 0; i < 4; ++i)
      for (int j = 0; j < StripMap::kPowers; ++j) k[j] += b.value[i] * map.c[b.first + i][j];
    cv::Vec2f* row = out[r];
    for (int c = 0; c < size.width; ++c) {
      const double v = (c + 0.5) / size.width * 2 - 1;
      row[c] = k[0] + v * (k[1] + v * (k[2] + v * k[3]));
    }
  }
  return out;
}

// Photo pixels to one canvas pixel, the larger of both directions, typical of the strip.
double photo_px_per_canvas_px(const StripMap& map, cv::Size canvas) {
  double most = 0;
  double u = 0.1;
  for (int i = 0; i < 5; ++i, u += 0.2) {
    const cv::Matx22d j = map.jacobian(u, 0);
    most = std::max({most, std::hypot(j(0, 0), j(1, 0)) / canvas.height,
                     2 * std::hypot(j(0, 1), j(1, 1)) / canvas.width});
  }
  return most;
}

// What a cell of the canvas shows.
enum Cell : unsigned char { kSeen, kOutside, kCovered, kElsewhere };

// Coordinates averaged with the belly probability as weight: next to the outline they mean nothing.
struct GridSamples {
  cv::Mat1f weight, clear;
  cv::Mat2f uv;  // times the weight
};
GridSamples samples_at(const cv::Mat2f& photo_at, const BodyCoordinates& k) {
  const cv::Matx33d grid_from_photo =
      cv::Matx33d(k.photo_from_grid(0, 0), k.photo_from_grid(0, 1), k.photo_from_grid(0, 2),
                  k.photo_from_grid(1, 0), k.photo_from_grid(1, 1), k.photo_from_grid(1, 2), 0, 0, 1)
          .inv();
  cv::Mat2f grid_at(photo_at.size());
  for (int r = 0; r < photo_at.rows; ++r)
    for (int c = 0; c < photo_at.cols; ++c) {
      const cv::Vec3d g = grid_from_photo * cv::Vec3d(photo_at(r, c)[0], photo_at(r, c)[1], 1);
      grid_at(r, c) = {static_cast<float>(g[0] - 0.5), static_cast<float>(g[1] - 0.5)};
    }
  cv::Mat2f weighted(k.uv.size());
  cv::Mat1f solid(k.uv.size());
  for (int y = 0; y < k.uv.rows; ++y)
    for (int x = 0; x < k.uv.cols; ++x) {
      const cv::Vec2f here = k.uv(y, x);
      const bool known = k.p_belly(y, x) > 0.3f && std::isfinite(here[0]) && std::isfinite(here[1]);
      solid(y, x) = known ? k.p_belly(y, x) : 0;
      weighted(y, x) = known ? here * k.p_belly(y, x) : cv::Vec2f(0, 0);
    }
  GridSamples out;
  cv::remap(solid, out.weight, grid_at, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_CONSTANT);
  cv::remap(weighted, out.uv, grid_at, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_CONSTANT);
  cv::remap(k.p_clear, out.clear, grid_at, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_CONSTANT);
  return out;
}

// A quarter of the canvas is finer than any grid of coordinates.
cv::Mat1b cells(cv::Size photo, const StripMap& photo_from_strip, const BodyCoordinates& k,
                const SampleOptions& options) {
  const cv::Size coarse(kStripCols / 4, kStripRows / 4);
  const cv::Mat2f at = positions(photo_from_strip, coarse);
  const GridSamples samples = samples_at(at, k);
  cv::Mat1b out(coarse, uchar{kSeen});
  for (int r = 0; r < coarse.height; ++r)
    for (int c = 0; c < coarse.width; ++c) {
      const cv::Vec2f& p = at(r, c);
      const float w = samples.weight(r, c);
      const cv::Vec2f mapped = samples.uv(r, c) / std::max(w, 1e-6f);
      const double u = (r + 0.5) / coarse.height, v = (c + 0.5) / coarse.width * 2 - 1;
      if (p[0] < 1 || p[1] < 1 || p[0] > photo.width - 1 || p[1] > photo.height - 1)
        out(r, c) = kOutside;
      else if (w < 0.2f || std::abs(mapped[0] - u) > options.max_u_mismatch ||
               std::abs(mapped[1] - v) > options.max_v_mismatch)
        out(r, c) = kElsewhere;
      else if (samples.clear(r, c) < options.min_clear)
        out(r, c) = kCovered;
    }
  return out;
}

}  // namespace

cv::Mat3b straighten(const cv::Mat3b& photo, const StripMap& photo_from_strip, cv::Size canvas) {
  const double scale = photo_px_per_canvas_px(photo_from_strip, canvas);
  const int samples = std::clamp(static_cast<int>(std::ceil(scale)), 1, 3);  // per canvas pixel and direction
  cv::Mat2f at = positions(photo_from_strip, canvas * samples);

  // Only the part of the photo that is needed, averaged down where even the samples would skip pixels.
  const cv::Rect whole(0, 0, photo.cols, photo.rows);
  cv::Mat xy[2];
  cv::split(at, xy);
  double x0 = 0, x1 = 0, y0 = 0, y1 = 0;
  cv::minMaxLoc(xy[0], &x0, &x1);
  cv::minMaxLoc(xy[1], &y0, &y1);
  const cv::Point2d low(std::clamp(std::floor(x0) - 8, 0.0, photo.cols - 1.0),
                        std::clamp(std::floor(y0) - 8, 0.0, photo.rows - 1.0));
  const cv::Point2d high(std::clamp(std::ceil(x1) + 8, low.x + 1, static_cast<double>(photo.cols)),
                         std::clamp(std::ceil(y1) + 8, low.y + 1, static_cast<double>(photo.rows)));
  const cv::Rect part = cv::Rect(cv::Point(low), cv::Point(high)) & whole;
  cv::Mat3b source = photo(part);
  const double shrink = std::max(1.0, scale / samples);
  if (shrink > 1.25) {
    cv::Mat3b smaller;
    cv::resize(source, smaller,
               {std::max(1, cvRound(part.width / shrink)), std::max(1, cvRound(part.height / shrink))}, 0, 0,
               cv::INTER_AREA);
    source = smaller;
  }
  const float fx = static_cast<float>(source.cols) / part.width,
              fy = static_cast<float>(source.rows) / part.height;
  // Frames: remap counts from pixel centres, our positions from the outer corner.
  for (cv::Vec2f& p : at) p = {(p[0] - part.x) * fx - 0.5f, (p[1] - part.y) * fy - 0.5f};
  cv::Mat3b fine;
  cv::remap(source, fine, at, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_CONSTANT, cv::Scalar::all(0));
  if (samples == 1) return fine;
  cv::Mat3b out;
  cv::resize(fine, out, canvas, 0, 0, cv::INTER_AREA);
  return out;
}

cv::Mat1b seen_mask(cv::Size photo, const StripMap& photo_from_strip, const BodyCoordinates& coordinates,
                    const SampleOptions& options) {
  const cv::Mat1b seen = (cells(photo, photo_from_strip, coordinates, options) == kSeen) / 255;
  cv::Mat1f good, fine;
  seen.convertTo(good, CV_32F);
  cv::resize(good, fine, {kStripCols, kStripRows}, 0, 0, cv::INTER_LINEAR);
  return fine >= 0.5f;
}

UnseenShares unseen_shares(cv::Size photo, const StripMap& photo_from_strip,
                           const BodyCoordinates& coordinates, const Strip& strip,
                           const SampleOptions& options) {
  const cv::Mat1b shown = cells(photo, photo_from_strip, coordinates, options);
  const auto share = [&](Cell cell) {
    return static_cast<double>(cv::countNonZero(shown == cell)) / static_cast<double>(shown.total());
  };
  const double seen_but_for_glare = share(kSeen);
  const double seen =
      static_cast<double>(cv::countNonZero(strip.valid)) / static_cast<double>(strip.valid.total());
  return {share(kOutside), share(kCovered), share(kElsewhere), std::max(0.0, seen_but_for_glare - seen)};
}

Strip sample_strip(const Photo& photo, const StripMap& photo_from_strip, const BodyCoordinates& coordinates,
                   const SampleOptions& options) {
  Strip strip;
  strip.bgr = straighten(photo.bgr, photo_from_strip, {kStripCols, kStripRows});
  strip.valid = seen_mask(photo.bgr.size(), photo_from_strip, coordinates, options);
  strip.valid.setTo(0, glare_mask(strip.bgr));
  return strip;
}

}  // namespace evet
