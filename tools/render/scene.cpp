#include "tools/render/scene.h"

#include <cmath>
#include <stdexcept>

#include "tools/render/develop.h"
#include "tools/render/mechanisms.h"
#include "tools/render/other_things.h"
#include "tools/render/studio.h"

namespace evet::render {

std::vector<std::string> foreign_mechanisms() {
  return foreign_mechanism_names();
}
std::vector<std::string> foreign_backgrounds() {
  return foreign_background_names();
}
std::vector<std::string> foreign_lights() {
  return foreign_light_names();
}

void Conditions::check() const {
  if (wild && foreign)
    throw std::invalid_argument(
        "conditions are wild, for fitting, or foreign, kept back for scores; they cannot be both");
}

namespace {

// Builds beyond any newt's: the finders should lean on no one shape.
void draw_wild_build(Individual& animal, Rng& look) {
  animal.half_width *= look.uniformf(0.75, 1.4);
  // Narrow: a turned animal shows a flank and yet its whole belly.
  animal.belly_share = look.uniformf(0.24, 0.5);
  animal.head_length *= look.uniformf(0.75, 1.2);
  animal.head_width *= look.uniformf(0.8, 1.2);
  animal.tail_width *= look.uniformf(0.7, 1.6);
  animal.tail_length *= look.uniformf(0.5, 1.2);
  animal.limb_thickness *= look.uniformf(0.6, 1.5);
}

void draw_wild_colours(SkinColours& c, Rng& look) {
  c.ground = hsv(look.uniform(0, 360), look.uniform(0, 1), look.uniform(0.5, 1));
  c.ground_patch = mix(c.ground, hsv(look.uniform(0, 360), look.uniform(0, 1), look.uniform(0.5, 1)), 0.4f);
  const Vec3 ink = hsv(look.uniform(0, 360), look.uniform(0, 1), look.uniform(0.03, 0.5));
  const float grey = 0.3f * ink.x + 0.6f * ink.y + 0.1f * ink.z,
              ground = 0.3f * c.ground.x + 0.6f * c.ground.y + 0.1f * c.ground.z;
  c.dark = ink * std::min(1.0f, 0.45f * ground / std::max(1e-4f, grey));
  c.flank = hsv(look.uniform(0, 360), look.uniform(0, 0.8), look.uniform(0.05, 0.7));
  c.throat = hsv(look.uniform(0, 360), look.uniform(0, 0.8), look.uniform(0.2, 1));
}

void draw_back(SkinLook& skin, Rng& look) {
  SkinColours& c = skin.colours;
  skin.is_back = true;
  // Black, brown, olive or green, with or without a light stripe.
  if (look.chance(0.6))
    c.flank =
        hsv(look.uniform(18, look.chance(0.3) ? 110 : 60), look.uniform(0.1, 0.5), look.uniform(0.06, 0.42));
  if (look.chance(0.6)) skin.orange_edge = look.uniformf(0.33, 0.48);
  if (look.chance(0.2)) skin.stripe = look.uniformf(0.012, 0.05);
}

void draw_small_newt(SkinLook& skin, Individual& animal, Rng& look) {
  SkinColours& c = skin.colours;
  skin.small_newt = true;
  // Plain, finely dotted, or with sparse round spots; the ground cream to orange, over all or as a band.
  if (look.chance(0.65)) {
    skin.dot_strength = look.uniformf(0.4, 0.95);
    skin.dot_pitch = look.uniformf(13, 30);
    skin.dot_size = look.uniformf(0.1, 0.22);
  }
  if (look.chance(0.5)) skin.band = look.uniformf(0.3, 0.85);
  c.ground = hsv(look.uniform(20, 58), look.uniform(0.15, 0.85), look.uniform(0.7, 0.98));
  c.ground_patch = mix(c.ground, hsv(50, 0.2, 0.9), 0.6f);
  c.flank = hsv(look.uniform(35, 60), look.uniform(0.25, 0.5), look.uniform(0.35, 0.6));
  c.throat = mix(c.ground, {0.8f, 0.75f, 0.65f}, look.uniformf(0.1, 0.8));
  animal.half_width *= look.uniformf(0.6, 0.85);
  animal.throat_darkness *= look.uniformf(0.05, 0.5);
  animal.limb_thickness *= 0.8f;
}

}  // namespace

void Studio::prepare() {
  plan_ = draw_capture(spec_, rng_.fork(kPlan));
  Rng look = rng_.fork(kLook);
  light_ = plan_.foreign                    ? draw_foreign_light(plan_.light, rng_.fork(kLight))
           : plan_.wild && look.chance(0.6) ? draw_wild_light(rng_.fork(kLight))
                                            : draw_light(plan_.light, rng_.fork(kLight));
  look_.colours = animal_.colours;
  SkinColours& c = look_.colours;
  const float drift = static_cast<float>(std::clamp(animal_.hue_drift_per_year * spec_.years, -8.0, 8.0));
  // A hue a little redder or paler with the years and the season.
  c.ground = {c.ground.x, c.ground.y * (1 - 0.02f * drift), c.ground.z * (1 - 0.03f * drift)};
  c.ground = c.ground * look.uniformf(0.92, 1.05);
  c.dark = c.dark * look.uniformf(0.85, 1.25);
  if (plan_.wild && look.chance(0.5)) draw_wild_build(animal_, look);
  if (plan_.wild && look.chance(0.55)) draw_wild_colours(c, look);
  if (plan_.wild && look.chance(0.3)) look_.throat_as_belly = look.uniformf(0.5, 1);
  if (spec_.subject == Subject::back) draw_back(look_, look);
  if (spec_.subject == Subject::small_newt) draw_small_newt(look_, animal_, look);
  background_ = plan_.foreign ? draw_foreign_background(plan_.background, rng_.fork(kFloor))
                : plan_.wild && look.chance(0.7)
                    ? draw_wild_background(c.ground, rng_.fork(kFloor))
                    : draw_background(plan_.background, c.ground, rng_.fork(kFloor));
  const DifficultyRanges& allowed = plan_.wild ? wild_ranges() : ranges(spec_.conditions.difficulty);
  if (!shows_animal(spec_.subject)) plan_.cut = CutEnd::none;
  framed_.emplace(frame_animal(animal_, plan_, allowed, spec_.size, rng_.fork(kFrame)));
}

RenderedPhoto Studio::shoot() {
  prepare();
  const Camera& camera = framed_->camera;
  skin_.emplace(animal_, look_, spec_.years, static_cast<float>(1 / camera.px_per_unit()));
  add_limbs();
  fill_truth();
  lay_floor();
  const ClutterScene scene = clutter_scene();
  std::vector<Thing> things =
      plan_.foreign ? draw_foreign_floor_clutter(scene, plan_.clutter, rng_.fork(kFloorThings))
                    : draw_floor_clutter(scene, plan_.clutter, plan_.wild, rng_.fork(kFloorThings));
  if (spec_.subject == Subject::leaf) things.push_back(other_thing(scene, rng_.fork(kLook).fork(3)));
  for (const Thing& thing : things) lay(thing, cut_out(thing));
  cast_shadow();
  draw_animal();
  cover();
  add_reflections();

  Rng rng = rng_.fork(kDevelop);
  Development how = draw_development(plan_, light_, spec_.size, rng.fork(1));
  // Metering: between the whole picture's mean and the animal's, with an error.
  const cv::Scalar mean = cv::mean(picture_);
  const double all = std::max(0.004, 0.3 * mean[0] + 0.6 * mean[1] + 0.1 * mean[2]),
               animal = belly_brightness();
  const double spread = plan_.wild ? 0.9 : 0.2 + 0.35 * plan_.white_balance;
  const double for_animal = animal > 0 ? rng.uniform(0.24, 0.42) / std::max(0.01, animal) : 0.25 / all,
               for_all = 0.22 / all;
  how.exposure = std::sqrt(for_animal * std::clamp(for_all, for_animal * 0.35, for_animal * 2.2)) *
                 std::exp(rng.uniform(-spread, spread * 0.7));

  Truth& t = photo_.truth;
  t.clear = cv::Mat1b(spec_.size, std::uint8_t{0});
  // Where the mirrored light alone comes near white, the skin is not read.
  const float limit = static_cast<float>(0.42 / how.exposure);
  int belly_area = 0, hidden = 0;
  for (int y = 0; y < spec_.size.height; ++y)
    for (int x = 0; x < spec_.size.width; ++x) {
      if (!t.belly(y, x)) continue;
      ++belly_area;
      hidden += covered_(y, x) != 0;
      if (!covered_(y, x) && glare_(y, x) < limit && spec_.subject == Subject::belly) t.clear(y, x) = 255;
    }
  t.covered_share = belly_area > 0 ? static_cast<double>(hidden) / belly_area : 0;
  photo_.bgr = develop(picture_, how, rng.fork(2));
  return std::move(photo_);
}

RenderedPhoto render(const Individual& animal, const CaptureSpec& spec) {
  return Studio(animal, spec).shoot();
}

}  // namespace evet::render
