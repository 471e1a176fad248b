#include "tools/render/framing.h"

namespace evet::render {

namespace {

struct Box {
  double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
  void take(cv::Point2d p) {
    left = std::min(left, p.x);
    right = std::max(right, p.x);
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
};

Box belly_box(const Body& body, const Camera& camera) {
  Box box;
  for (const Ring& ring : body.rings()) {
    if (ring.u < -0.001f || ring.u > 1.001f) continue;
    for (const float s : {-0.5f, -0.25f, 0.0f, 0.25f, 0.5f})
      box.take(camera.project(body.point(ring, s).position).px);
  }
  return box;
}

// Moves the crop by pixels of the undistorted picture.
void shift_by(Camera& camera, double dx, double dy) {
  camera.shift.x += dx / camera.focal_px;
  camera.shift.y += dy / camera.focal_px;
}

// The focal length that gives the midline its wanted length where it now lies.
void scale_to(Camera& camera, const Body& body, double wanted_px) {
  for (int i = 0; i < 3; ++i) {
    const double now = polyline_length(project_midline(body, camera));
    const double factor = wanted_px / std::max(1e-6, now);
    camera.focal_px *= factor;
    camera.shift *= 1 / factor;  // keeps the crop in pixels
  }
}

}  // namespace

std::vector<cv::Point2d> project_midline(const Body& body, const Camera& camera) {
  std::vector<cv::Point2d> points;
  for (int i = 0; i <= 64; ++i)
    points.push_back(camera.project(body.point(body.ring_at(i / 64.0), body.s_of_v(0)).position).px);
  return points;
}

double polyline_length(const std::vector<cv::Point2d>& points) {
  double sum = 0;
  for (std::size_t i = 1; i < points.size(); ++i) sum += cv::norm(points[i] - points[i - 1]);
  return sum;
}

namespace {

// One attempt to lay the animal into the frame; the last one counts whatever comes of it.
struct Attempt {
  Camera& camera;
  const Body& body;
  cv::Size size;
  double wanted, margin;
  Rng& own;
  bool last;

  // Anywhere that fits, nearer the middle more often.
  double place(double low, double high, double extent) const {
    const double free_low = margin - low, free_high = extent - margin - high;
    return free_low + (free_high - free_low) * (own.uniform() + own.uniform()) / 2;
  }
  bool whole(Box box) const;
  bool cut(const CapturePlan& plan, const Box& box) const;
};

bool Attempt::whole(Box box) const {
  if (!last &&
      (box.right - box.left > size.width - 2 * margin || box.bottom - box.top > size.height - 2 * margin))
    return false;
  // Twice, because the lens distorts differently at the new place.
  const double tx = place(box.left, box.right, size.width), ty = place(box.top, box.bottom, size.height);
  shift_by(camera, tx, ty);
  scale_to(camera, body, wanted);
  box = belly_box(body, camera);
  shift_by(camera, std::max(0.0, margin - box.left) - std::max(0.0, box.right - (size.width - margin)),
           std::max(0.0, margin - box.top) - std::max(0.0, box.bottom - (size.height - margin)));
  scale_to(camera, body, wanted);
  box = belly_box(body, camera);
  return last || !(box.left < 0 || box.top < 0 || box.right > size.width || box.bottom > size.height);
}

// The frame's nearest edge runs across the belly at `cut_u` from the end.
bool Attempt::cut(const CapturePlan& plan, const Box& box) const {
  const bool throat = plan.cut == CutEnd::throat;
  std::vector<cv::Point2d> line = project_midline(body, camera);
  if (throat) std::reverse(line.begin(), line.end());
  const auto kept = static_cast<std::size_t>(64 * (1 - plan.cut_u));
  const cv::Point2d end = line[kept], way = line.back() - line[kept - 8];
  double dx = 0, dy = 0;
  if (std::abs(way.x) * size.height > std::abs(way.y) * size.width) {
    dx = (way.x > 0 ? size.width : 0) - end.x;
    dy = place(box.top, box.bottom, size.height);
    if (!last && box.bottom - box.top > size.height) return false;
  } else {
    dy = (way.y > 0 ? size.height : 0) - end.y;
    dx = place(box.left, box.right, size.width);
    if (!last && box.right - box.left > size.width) return false;
  }
  shift_by(camera, dx, dy);
  scale_to(camera, body, wanted);
  line = project_midline(body, camera);
  const auto inside = [&](cv::Point2d p) {
    return p.x > 0 && p.y > 0 && p.x < size.width && p.y < size.height;
  };
  const bool right_end_cut = !inside(throat ? line.front() : line.back()),
             other_kept = inside(throat ? line.back() : line.front());
  int seen = 0;
  for (const cv::Point2d& p : line) seen += inside(p);
  return last || (right_end_cut && other_kept && seen >= 45);
}

}  // namespace

Framed frame_animal(const Individual& animal, const CapturePlan& plan, const DifficultyRanges& allowed,
                    cv::Size size, Rng rng) {
  Pose pose = plan.pose;
  Camera camera;
  camera.size = size;
  camera.tilt_rad = plan.tilt_deg * kRadPerDeg;
  camera.tilt_azimuth_rad = plan.tilt_azimuth_rad;
  camera.distance = plan.distance;
  camera.distortion = plan.distortion;
  double share = plan.length_share;
  for (int attempt = 0;; ++attempt) {
    Rng own = rng.fork(static_cast<std::uint64_t>(attempt));
    if (attempt > 0) pose.turn_deg = own.uniform(-allowed.most_turn_deg, allowed.most_turn_deg);
    // Nothing fits at this size: a little smaller, down to the least the difficulty allows.
    if (attempt % 12 == 11) share = std::max(allowed.length_share.low, share * 0.93);
    Body body(animal, pose, rng.fork(1000));
    const double wanted = share * camera.diagonal();
    camera.shift = {};
    camera.focal_px = wanted * camera.distance;
    scale_to(camera, body, wanted);
    const Attempt one{camera, body, size, wanted, 0.006 * camera.diagonal(), own, attempt > 200};
    const Box box = belly_box(body, camera);
    if (plan.cut == CutEnd::none ? one.whole(box) : one.cut(plan, box))
      return {std::move(body), camera, pose};
  }
}

}  // namespace evet::render
