#include "tools/render/capture.h"

#include <algorithm>

#include "tools/render/background.h"
#include "tools/render/choose.h"
#include "tools/render/light.h"

namespace evet::render {

namespace {

const DifficultyRanges kGentle = {
    {0, 20},     {0, 5},      {0.33, 0.52},     0.10,        20,          0.05,     0.0,      0.0,
    {0.02, 0.4}, {0.0, 0.35}, {0.0003, 0.0009}, {0, 0.0004}, {0.0, 0.25}, {0, 0.2}, {0, 0.2}, {86, 96}};
const DifficultyRanges kMiddle = {
    {2, 50},     {0, 15},      {0.28, 0.60},     0.25,        180,         0.10,       0.15,        0.0,
    {0.02, 1.2}, {0.15, 0.75}, {0.0004, 0.0018}, {0, 0.0016}, {0.1, 0.55}, {0.1, 0.6}, {0.1, 0.55}, {72, 95}};
const DifficultyRanges kHardest = {
    {15, 90},    {4, 28},    {0.25, 0.70},     0.50,        180,        0.15,       0.25,       0.2,
    {0.02, 3.0}, {0.4, 1.3}, {0.0006, 0.0032}, {0, 0.0035}, {0.3, 1.0}, {0.3, 1.0}, {0.3, 1.0}, {50, 93}};
const DifficultyRanges kWild = {
    {0, 95},    {0, 30},    {0.20, 0.85},     0.55,       180,        0.2,    0.35,     0.2,
    {0.0, 5.0}, {0.0, 1.5}, {0.0003, 0.0035}, {0, 0.004}, {0.0, 1.1}, {0, 1}, {0, 1.2}, {40, 97}};

}  // namespace

const DifficultyRanges& ranges(Difficulty difficulty) {
  switch (difficulty) {
    case Difficulty::gentle:
      return kGentle;
    case Difficulty::middle:
      return kMiddle;
    case Difficulty::hardest:
      break;
  }
  return kHardest;
}

const DifficultyRanges& wild_ranges() {
  return kWild;
}

double draw_years_between(Difficulty difficulty, std::uint64_t seed) {
  Rng rng(mix64(seed, 0x7ea25));
  return ranges(difficulty).years.draw(rng);
}

namespace {

Pose draw_pose(const DifficultyRanges& r, bool gentle, Rng pose) {
  Pose p;
  p.bend_deg = r.bend_deg.draw(pose);
  p.bend_shape =
      gentle ? (pose.chance(0.7) ? BendShape::c : BendShape::s) : static_cast<BendShape>(pose.below(3));
  p.roll = pose.uniform(-r.most_roll, r.most_roll);
  p.turn_deg = pose.uniform(-r.most_turn_deg, r.most_turn_deg);
  p.width_change = pose.uniform(-r.most_width_change, r.most_width_change);
  p.gravid_shape = pose.uniform();
  p.flatness = pose.uniform(2.0, 2.9);
  p.height = pose.uniform(0.55, 0.9);
  const double loose = gentle ? 0.4 : 1;
  p.head_turn_deg = pose.uniform(-28, 28) * loose;
  p.tail_turn_deg = pose.uniform(-75, 75) * loose;
  p.tail_wave_deg = pose.uniform(-60, 60) * loose;
  p.tail_on_side = pose.uniform();
  return p;
}

void draw_camera(CapturePlan& plan, const DifficultyRanges& r, bool gentle, Rng camera) {
  plan.length_share = r.length_share.draw(camera);
  plan.tilt_deg = r.tilt_deg.draw(camera);
  plan.tilt_azimuth_rad = camera.uniform(0, 2 * kPi);
  plan.distance = camera.uniform(3.2, 9);
  plan.distortion = camera.uniform(-0.05, 0.03) * (gentle ? 0.4 : 1);
  if (camera.chance(r.cut_chance)) {
    plan.cut = camera.chance(0.5) ? CutEnd::throat : CutEnd::vent;
    plan.cut_u = camera.uniform(0.04, 0.16);
  }
}

// What lies on the animal and what the camera makes of the picture.
void draw_faults(CapturePlan& plan, const DifficultyRanges& r, Subject subject, Rng more) {
  plan.most_covered = r.most_covered;
  if (r.most_covered > 0 && more.chance(r.most_covered > 0.2 ? 0.6 : 0.35))
    plan.limbs_across = more.between(1, 3);
  plan.glare = r.glare.draw(more);
  // Squares: most pictures are nearer the sharp end.
  plan.blur = mix(static_cast<float>(r.blur.low), static_cast<float>(r.blur.high),
                  static_cast<float>(more.uniform() * more.uniform()));
  plan.motion = more.chance(0.5) ? 0
                                 : mix(static_cast<float>(r.motion.low), static_cast<float>(r.motion.high),
                                       static_cast<float>(more.uniform() * more.uniform()));
  plan.noise = r.noise.draw(more);
  plan.clutter = r.clutter.draw(more);
  plan.white_balance = r.white_balance.draw(more);
  plan.jpeg_quality = r.jpeg_quality.draw(more);
  if (subject == Subject::blurred) {
    plan.blur = more.uniform(0.012, 0.03);
    plan.motion = more.chance(0.5) ? more.uniform(0.01, 0.05) : 0;
  }
}

}  // namespace

CapturePlan draw_capture(const CaptureSpec& spec, Rng rng) {
  const Conditions& conditions = spec.conditions;
  conditions.check();
  const DifficultyRanges& r = conditions.wild ? kWild : ranges(conditions.difficulty);
  const bool gentle = !conditions.wild && conditions.difficulty == Difficulty::gentle;
  CapturePlan plan;
  plan.wild = conditions.wild;
  plan.foreign = conditions.foreign;
  const bool foreign = conditions.foreign;
  plan.background =
      choose_name(foreign ? foreign_background_names() : background_names(), conditions.only_backgrounds,
                  conditions.without_backgrounds, rng.fork(1), foreign ? "foreign background" : "background");
  plan.light = choose_name(foreign ? foreign_light_names() : light_names(), conditions.only_lights,
                           conditions.without_lights, rng.fork(2), foreign ? "foreign light" : "light");
  plan.pose = draw_pose(r, gentle, rng.fork(3));
  draw_camera(plan, r, gentle, rng.fork(4));
  draw_faults(plan, r, spec.subject, rng.fork(5));
  return plan;
}

}  // namespace evet::render
