#include "tools/render/scene.h"

#include <cmath>
#include <limits>
#include <opencv2/imgproc.hpp>
#include <optional>

#include "tools/render/background.h"
#include "tools/render/blur.h"
#include "tools/render/capture.h"
#include "tools/render/clutter.h"
#include "tools/render/develop.h"
#include "tools/render/framing.h"
#include "tools/render/light.h"
#include "tools/render/limbs.h"
#include "tools/render/mechanisms.h"
#include "tools/render/noise.h"
#include "tools/render/other_things.h"
#include "tools/render/skin.h"

namespace evet::render {

std::vector<std::string> mechanisms() {
  return mechanism_names();
}
std::vector<std::string> backgrounds() {
  return background_names();
}
std::vector<std::string> lights() {
  return light_names();
}

namespace {

// Streams of one capture, so that a change of one leaves the others as they were.
enum Stream : std::uint64_t {
  kPlan = 1,
  kFrame,
  kLight,
  kFloor,
  kLimbs,
  kFloorThings,
  kCoverThings,
  kGlare,
  kDevelop,
  kLook
};

bool shows_animal(Subject subject) {
  return subject != Subject::empty_tray && subject != Subject::leaf;
}
bool shows_belly(Subject subject) {
  return subject == Subject::belly || subject == Subject::blurred;
}

// One photograph while it is being made. All pictures share the frame of Truth.
class Studio {
 public:
  Studio(const Individual& animal, const CaptureSpec& spec)
      : spec_(spec),
        rng_(mix64(mix64(animal.seed, 0xca97),
                   spec.capture * 16ULL + static_cast<std::uint64_t>(spec.subject))),
        animal_(animal) {}
  RenderedPhoto shoot();

 private:
  void prepare();
  void lay_floor();
  void cast_shadow();
  void draw_animal();
  struct Cutout;
  Vec2 shadow_offset(float lift) const;
  Cutout cut_out(const Thing& thing) const;
  void lay(const Thing& thing, const Cutout& cutout);
  ClutterScene clutter_scene() const;
  void add_limbs();
  void cover();
  void add_reflections();
  void fill_truth();
  Vec3 illumination(int x, int y) const;
  float belly_brightness() const;

  CaptureSpec spec_;
  Rng rng_;
  Individual animal_;
  CapturePlan plan_;
  Light light_;
  Background background_;
  SkinLook look_;
  std::optional<Framed> framed_;
  std::optional<Raster> body_, limbs_;
  std::optional<Skin> skin_;
  cv::Mat3f picture_;  // linear light
  cv::Mat1f glare_;    // mirrored light in it
  cv::Mat1b covered_;  // by anything over the animal
  bool belly_seen_ = false;
  RenderedPhoto photo_;
};

void Studio::prepare() {
  plan_ = draw_capture(spec_, rng_.fork(kPlan));
  Rng look = rng_.fork(kLook);
  light_ = plan_.wild && look.chance(0.6) ? draw_wild_light(rng_.fork(kLight))
                                          : draw_light(plan_.light, rng_.fork(kLight));
  look_.colours = animal_.colours;
  SkinColours& c = look_.colours;
  const float drift = static_cast<float>(std::clamp(animal_.hue_drift_per_year * spec_.years, -8.0, 8.0));
  // A hue a little redder or paler with the years and the season.
  c.ground = {c.ground.x, c.ground.y * (1 - 0.02f * drift), c.ground.z * (1 - 0.03f * drift)};
  c.ground = c.ground * look.uniformf(0.92, 1.05);
  c.dark = c.dark * look.uniformf(0.85, 1.25);
  if (plan_.wild && look.chance(0.55)) {
    c.ground = hsv(look.uniform(0, 360), look.uniform(0, 1), look.uniform(0.5, 1));
    c.ground_patch = mix(c.ground, hsv(look.uniform(0, 360), look.uniform(0, 1), look.uniform(0.5, 1)), 0.4f);
    const Vec3 ink = hsv(look.uniform(0, 360), look.uniform(0, 1), look.uniform(0.03, 0.5));
    const float grey = 0.3f * ink.x + 0.6f * ink.y + 0.1f * ink.z,
                ground = 0.3f * c.ground.x + 0.6f * c.ground.y + 0.1f * c.ground.z;
    c.dark = ink * std::min(1.0f, 0.45f * ground / std::max(1e-4f, grey));
    c.flank = hsv(look.uniform(0, 360), look.uniform(0, 0.8), look.uniform(0.05, 0.7));
    c.throat = hsv(look.uniform(0, 360), look.uniform(0, 0.8), look.uniform(0.2, 1));
  }
  if (spec_.subject == Subject::back) {
    look_.is_back = true;
    // Black, brown, olive or green, with or without a light stripe.
    if (look.chance(0.6))
      c.flank = hsv(look.uniform(18, look.chance(0.3) ? 110 : 60), look.uniform(0.1, 0.5),
                    look.uniform(0.06, 0.42));
    if (look.chance(0.6)) look_.orange_edge = look.uniformf(0.33, 0.48);
    if (look.chance(0.2)) look_.stripe = look.uniformf(0.012, 0.05);
  }
  if (spec_.subject == Subject::small_newt) {
    look_.small_newt = true;
    // Plain, finely dotted, or with sparse round spots; the ground cream to orange, over all or as a band.
    if (look.chance(0.65)) {
      look_.dot_strength = look.uniformf(0.4, 0.95);
      look_.dot_pitch = look.uniformf(13, 30);
      look_.dot_size = look.uniformf(0.1, 0.22);
    }
    if (look.chance(0.5)) look_.band = look.uniformf(0.3, 0.85);
    c.ground = hsv(look.uniform(20, 58), look.uniform(0.15, 0.85), look.uniform(0.7, 0.98));
    c.ground_patch = mix(c.ground, hsv(50, 0.2, 0.9), 0.6f);
    c.flank = hsv(look.uniform(35, 60), look.uniform(0.25, 0.5), look.uniform(0.35, 0.6));
    c.throat = mix(c.ground, {0.8f, 0.75f, 0.65f}, look.uniformf(0.1, 0.8));
    animal_.half_width *= look.uniformf(0.6, 0.85);
    animal_.throat_darkness *= look.uniformf(0.05, 0.5);
    animal_.limb_thickness *= 0.8f;
  }
  background_ = plan_.wild && look.chance(0.7)
                    ? draw_wild_background(c.ground, rng_.fork(kFloor))
                    : draw_background(plan_.background, c.ground, rng_.fork(kFloor));
  const DifficultyRanges& allowed = plan_.wild ? wild_ranges() : ranges(spec_.conditions.difficulty);
  if (!shows_animal(spec_.subject)) plan_.cut = CutEnd::none;
  framed_.emplace(frame_animal(animal_, plan_, allowed, spec_.size, rng_.fork(kFrame)));
}

Vec3 Studio::illumination(int x, int y) const {
  const float half = static_cast<float>(framed_->camera.diagonal() / 2);
  const Vec2 place{(static_cast<float>(x) + 0.5f - 0.5f * static_cast<float>(spec_.size.width)) / half,
                   (static_cast<float>(y) + 0.5f - 0.5f * static_cast<float>(spec_.size.height)) / half};
  const float beam = light_.beam(place);
  return light_.ambient * (0.4f + 0.6f * beam) + light_.key * (beam * light_.direction.z);
}

void Studio::add_limbs() {
  const Camera& camera = framed_->camera;
  covered_ = cv::Mat1b(spec_.size, std::uint8_t{0});
  if (!shows_animal(spec_.subject)) {
    body_.emplace(cv::Rect());
    limbs_.emplace(cv::Rect());
    return;
  }
  const Surface trunk = body_surface(framed_->body, camera);
  body_.emplace(window_of({trunk}, spec_.size));
  body_->surface(trunk);
  const auto skin_at = [&](int x, int y) -> const Fragment* {
    if (!body_->window().contains({x, y}) || body_->at(x, y).part == Part::none) return nullptr;
    return &body_->at(x, y);
  };
  const auto on_belly = [&](const Fragment& f) {
    return f.u >= 0 && f.u <= 1 && std::abs(framed_->body.v_of_s(f.s)) <= 1;
  };
  int area = 0;
  for (int y = body_->window().y; y < body_->window().br().y; ++y)
    for (int x = body_->window().x; x < body_->window().br().x; ++x)
      area += skin_at(x, y) && on_belly(*skin_at(x, y));
  // As many folded over the belly as the allowance bears; the others pass beneath it.
  for (int across = plan_.limbs_across; across >= 0; --across) {
    const Limbs limbs = draw_limbs(animal_, framed_->body, camera, across, rng_.fork(kLimbs));
    limbs_.emplace(window_of(limbs.surfaces, spec_.size));
    for (const Surface& s : limbs.surfaces) limbs_->surface(s);
    covered_.setTo(0);
    int hidden = 0;
    const cv::Rect w = limbs_->window();
    for (int y = w.y; y < w.br().y; ++y)
      for (int x = w.x; x < w.br().x; ++x) {
        Fragment& limb = limbs_->at(x, y);
        const Fragment* skin = skin_at(x, y);
        if (limb.part == Part::none || skin == nullptr) continue;
        const bool belly = on_belly(*skin), folded = limbs.folded[static_cast<std::size_t>(limb.u / 8)];
        if (limb.depth >= skin->depth || (belly && !folded)) {
          limb = Fragment{};
          continue;
        }
        covered_(y, x) = 255;
        hidden += belly;
      }
    if (hidden <= plan_.most_covered * area) break;
  }
}

void Studio::lay_floor() {
  const cv::Size size = spec_.size;
  picture_.create(size);
  glare_ = cv::Mat1f(size, 0.0f);
  const Camera& camera = framed_->camera;
  const float footprint = static_cast<float>(1 / camera.px_per_unit());
  // Places on the floor and the light there vary slowly: exact on a grid of 16 px, bilinear between.
  constexpr int kStep = 16;
  const int cols = size.width / kStep + 2, rows = size.height / kStep + 2;
  std::vector<Vec2> places(static_cast<std::size_t>(rows * cols));
  std::vector<Vec3> lights(places.size());
  for (int j = 0; j < rows; ++j)
    for (int i = 0; i < cols; ++i) {
      const auto k = static_cast<std::size_t>(j * cols + i);
      places[k] = camera.on_plane({i * kStep + 0.5, j * kStep + 0.5});
      lights[k] = illumination(i * kStep, j * kStep);
    }
  for (int y = 0; y < size.height; ++y) {
    const int j = y / kStep;
    const float fy = static_cast<float>(y - j * kStep) / kStep;
    float* out = picture_.ptr<float>(y);
    for (int i = 0; i + 1 < cols; ++i) {
      const auto k = static_cast<std::size_t>(j * cols + i), below = k + static_cast<std::size_t>(cols);
      const Vec2 left = places[k] + (places[below] - places[k]) * fy,
                 right = places[k + 1] + (places[below + 1] - places[k + 1]) * fy;
      const Vec3 lit_left = mix(lights[k], lights[below], fy),
                 lit_right = mix(lights[k + 1], lights[below + 1], fy);
      for (int x = i * kStep; x < std::min(size.width, (i + 1) * kStep); ++x) {
        const float fx = static_cast<float>(x - i * kStep) / kStep;
        const Vec3 colour =
            background_.albedo(left + (right - left) * fx, footprint) * mix(lit_left, lit_right, fx);
        out[3 * x] = std::max(0.0f, colour.x);
        out[3 * x + 1] = std::max(0.0f, colour.y);
        out[3 * x + 2] = std::max(0.0f, colour.z);
      }
    }
  }
}

void Studio::cast_shadow() {
  const Camera& camera = framed_->camera;
  const double unit = camera.px_per_unit();
  // At a quarter of the size when large: shadows are smooth.
  const int reduce = std::clamp(static_cast<int>(unit * light_.shadow_softness / 4), 1, 8);
  const cv::Size small(spec_.size.width / reduce + 1, spec_.size.height / reduce + 1);
  cv::Mat1f cast(small, 0.0f), contact;
  for (const auto* raster : {&*body_, &*limbs_}) {
    const cv::Rect w = raster->window();
    for (int y = w.y; y < w.y + w.height; ++y)
      for (int x = w.x; x < w.x + w.width; ++x)
        if (raster->at(x, y).part != Part::none) cast(y / reduce, x / reduce) = 1;
  }
  contact = cast.clone();
  gaussian_blur(contact, 0.035 * unit / reduce);
  gaussian_blur(cast, std::max(0.5, light_.shadow_softness * unit / reduce));
  const float height = animal_.half_width * static_cast<float>(framed_->pose.height);
  const float z = std::max(0.35f, light_.direction.z);
  const int dx = static_cast<int>(std::lround(-light_.direction.x / z * height * unit / reduce)),
            dy = static_cast<int>(std::lround(-light_.direction.y / z * height * unit / reduce));
  for (int y = 0; y < spec_.size.height; ++y)
    for (int x = 0; x < spec_.size.width; ++x) {
      const int sx = std::clamp(x / reduce - dx, 0, small.width - 1),
                sy = std::clamp(y / reduce - dy, 0, small.height - 1);
      const float keep =
          (1 - light_.shadow_strength * 0.8f * cast(sy, sx)) * (1 - 0.5f * contact(y / reduce, x / reduce));
      if (keep < 0.999f) picture_(y, x) *= keep;
    }
}

void Studio::draw_animal() {
  const Camera& camera = framed_->camera;
  const Vec3 eye = camera.position();
  const float half = static_cast<float>(camera.diagonal() / 2);
  Rng rng = rng_.fork(kGlare);
  // Some animals have been dabbed dry or lie in the shade of a hand.
  const float wetness =
      static_cast<float>(0.05 + 0.5 * plan_.glare) * (rng.chance(0.4) ? rng.uniformf(0.15, 0.6) : 1.0f);
  const float roughness = rng.uniformf(0, 1.2),
              drops = plan_.glare > 0.3 ? rng.uniformf(0, 0.5) * static_cast<float>(plan_.glare) : 0.0f;
  const std::uint32_t seed = rng.next32();
  const cv::Rect window = body_->window() | limbs_->window();
  for (int y = window.y; y < window.y + window.height; ++y)
    for (int x = window.x; x < window.x + window.width; ++x) {
      const Fragment none;
      const cv::Point here(x, y);
      const Fragment& skin = body_->window().contains(here) ? body_->at(x, y) : none;
      const Fragment& limb = limbs_->window().contains(here) ? limbs_->at(x, y) : none;
      const Fragment& f = limb.depth < skin.depth ? limb : skin;
      if (f.part == Part::none) continue;
      const float v = framed_->body.v_of_s(f.s);
      const Skin::Sample sample = skin_->at(f, v);
      const Vec3 smooth_normal = normalised(f.normal);
      const Vec3 normal = normalised(f.normal + Vec3{sample.bump_x, sample.bump_y, 0});
      const Vec2 place{(static_cast<float>(x) + 0.5f - 0.5f * static_cast<float>(spec_.size.width)) / half,
                       (static_cast<float>(y) + 0.5f - 0.5f * static_cast<float>(spec_.size.height)) / half};
      const float beam = light_.beam(place);
      const float lambert = std::max(0.0f, dot(normal, light_.direction));
      // Skin scatters a little light round the edge of shadow.
      const float wrapped = std::max(lambert, 0.25f * (dot(smooth_normal, light_.direction) + 0.6f));
      Vec3 light = light_.ambient * ((0.4f + 0.6f * beam) * (0.55f + 0.45f * smooth_normal.z)) +
                   light_.key * (beam * wrapped);
      light = light * (0.75f + 0.25f * clamp01(f.position.z / (animal_.half_width * 0.8f)));
      const Vec3 to_eye = normalised(eye - f.position);
      float shine =
          mirror_lobe(light_, normal, to_eye, roughness) * light_.highlight * wetness * sample.wet * beam;
      if (drops > 0 && f.part != Part::limb) {
        // Drops of water on the skin: a small bright point, a darker rim.
        const CellNoise drop = cell_noise(f.position.x * 16, f.position.y * 16, seed);
        const float r = 0.08f + 0.22f * hash_unit(drop.id, 2);
        if (hash_unit(drop.id, 1) < drops && drop.nearest < r) {
          light = light * (0.82f + 0.3f * drop.nearest / r);
          const float point = clamp01(1 - drop.nearest / (0.3f * r));
          shine += 1.5f * point * point * light_.highlight * beam;
        }
      }
      const Vec3 mirrored = light_.key * shine;
      const Vec3 colour = sample.albedo * light + mirrored;
      picture_(y, x) = {colour.x, colour.y, colour.z};
      glare_(y, x) = 0.3f * mirrored.x + 0.6f * mirrored.y + 0.1f * mirrored.z;
    }
}

// A thing's opacity and colours in a window that may reach beyond the frame by the length of its shadow.
struct Studio::Cutout {
  cv::Rect window;
  cv::Mat1f alpha;
  cv::Mat3f colours;
};

Vec2 Studio::shadow_offset(float lift) const {
  const float reach =
      lift / std::max(0.35f, light_.direction.z) * static_cast<float>(framed_->camera.px_per_unit());
  return {-light_.direction.x * reach, -light_.direction.y * reach};
}

Studio::Cutout Studio::cut_out(const Thing& thing) const {
  const float reach = thing.reach * thing.unit_px, unit = static_cast<float>(framed_->camera.px_per_unit());
  const Vec2 offset = shadow_offset(thing.lift);
  const int pad = static_cast<int>(std::abs(offset.x) + std::abs(offset.y) +
                                   2 * std::min(light_.shadow_softness, 0.06f) * unit) +
                  2;
  const cv::Rect around(static_cast<int>(thing.centre.x - reach) - pad,
                        static_cast<int>(thing.centre.y - reach) - pad, static_cast<int>(2 * reach) + 2 * pad,
                        static_cast<int>(2 * reach) + 2 * pad);
  Cutout cutout;
  cutout.window = around & cv::Rect(-pad, -pad, spec_.size.width + 2 * pad, spec_.size.height + 2 * pad);
  if (cutout.window.empty()) return cutout;
  const cv::Rect& w = cutout.window;
  cutout.alpha = cv::Mat1f(w.size(), 0.0f);
  cutout.colours.create(w.size());
  const float cosine = std::cos(thing.angle) / thing.unit_px, sine = std::sin(thing.angle) / thing.unit_px;
  for (int y = 0; y < w.height; ++y)
    for (int x = 0; x < w.width; ++x) {
      const float dx = static_cast<float>(x + w.x) + 0.5f - thing.centre.x,
                  dy = static_cast<float>(y + w.y) + 0.5f - thing.centre.y;
      const Vec2 own{cosine * dx + sine * dy, cosine * dy - sine * dx};
      if (std::abs(own.x) > thing.reach || std::abs(own.y) > std::min(thing.reach, thing.reach_across))
        continue;
      Vec3 colour;
      const float a = thing.look(own, colour);
      if (a <= 0) continue;
      cutout.alpha(y, x) = a;
      cutout.colours(y, x) = {colour.x, colour.y, colour.z};
    }
  return cutout;
}

void Studio::lay(const Thing& thing, const Cutout& cutout) {
  if (cutout.window.empty()) return;
  const cv::Rect& w = cutout.window;
  cv::Mat1f shadow = cutout.alpha.clone();
  gaussian_blur(shadow,
                std::max(0.6, std::min(light_.shadow_softness, 0.06f) * framed_->camera.px_per_unit()));
  const Vec2 offset = shadow_offset(thing.lift);
  const int ox = static_cast<int>(std::lround(offset.x)), oy = static_cast<int>(std::lround(offset.y));
  const cv::Rect seen = w & cv::Rect({0, 0}, spec_.size);
  for (int y = seen.y; y < seen.y + seen.height; ++y)
    for (int x = seen.x; x < seen.x + seen.width; ++x) {
      const float a = cutout.alpha(y - w.y, x - w.x);
      const int sx = x - w.x - ox, sy = y - w.y - oy;
      if (sx >= 0 && sy >= 0 && sx < w.width && sy < w.height) {
        const float keep = 1 - 0.7f * light_.shadow_strength * shadow(sy, sx) * (1 - a);
        if (keep < 0.999f) picture_(y, x) *= keep;
      }
      if (a <= 0) continue;
      const Vec3 lit = illumination(x, y);
      const cv::Vec3f& c = cutout.colours(y - w.y, x - w.x);
      picture_(y, x) = picture_(y, x) * (1 - a) + cv::Vec3f(c[0] * lit.x, c[1] * lit.y, c[2] * lit.z) * a;
      glare_(y, x) *= 1 - a;
    }
}

ClutterScene Studio::clutter_scene() const {
  ClutterScene scene;
  scene.frame = {static_cast<float>(spec_.size.width), static_cast<float>(spec_.size.height)};
  scene.px_per_unit = static_cast<float>(framed_->camera.px_per_unit());
  scene.half_width_px = animal_.half_width * scene.px_per_unit;
  scene.belly_ground = look_.colours.ground;
  if (shows_animal(spec_.subject))
    for (const cv::Point2d& p : project_midline(framed_->body, framed_->camera))
      scene.midline.push_back({static_cast<float>(p.x), static_cast<float>(p.y)});
  return scene;
}

void Studio::cover() {
  if (plan_.most_covered <= 0 || !shows_animal(spec_.subject)) return;
  const cv::Mat1b& belly = photo_.truth.belly;
  const int allowed = static_cast<int>(plan_.most_covered * cv::countNonZero(belly));
  int hidden = cv::countNonZero(covered_ & belly);
  for (const Thing& thing :
       draw_covering_clutter(clutter_scene(), plan_.clutter, plan_.wild, rng_.fork(kCoverThings))) {
    const Cutout cutout = cut_out(thing);
    const cv::Rect seen = cutout.window & cv::Rect({0, 0}, spec_.size);
    cv::Mat1b over(seen.size(), std::uint8_t{0});
    int more = 0;
    for (int y = 0; y < seen.height; ++y)
      for (int x = 0; x < seen.width; ++x)
        if (cutout.alpha(y + seen.y - cutout.window.y, x + seen.x - cutout.window.x) > 0.3f) {
          over(y, x) = 255;
          more += belly(y + seen.y, x + seen.x) && !covered_(y + seen.y, x + seen.x);
        }
    if (belly_seen_ && hidden + more > allowed) continue;
    hidden += more;
    if (!seen.empty()) covered_(seen).setTo(255, over);
    lay(thing, cutout);
  }
}

void Studio::add_reflections() {
  // Images of the lamp, its ring or a window in the water over everything, or in the box's floor.
  Rng rng = rng_.fork(kGlare).fork(1);
  if (!rng.chance(0.03 + 0.4 * plan_.glare * std::max(0.3f, background_.gloss))) return;
  const float unit = static_cast<float>(framed_->camera.px_per_unit());
  const int count = rng.between(1, 1 + static_cast<int>(2.5 * plan_.glare));
  const float tilt = rng.uniformf(0, kPi);
  for (int i = 0; i < count; ++i) {
    const Vec2 centre{rng.uniformf(0, 1) * static_cast<float>(spec_.size.width),
                      rng.uniformf(0, 1) * static_cast<float>(spec_.size.height)};
    const int kind = light_.ring ? 1 : rng.below(4);  // 0, 3 lamp, 1 ring, 2 window
    const float radius = unit * (kind == 2 ? rng.uniformf(0.15, 0.6) : rng.uniformf(0.02, 0.12));
    const float stretch = kind == 2 ? rng.uniformf(0.3, 1) : rng.uniformf(0.6, 1);
    const Turn turn(tilt + rng.uniformf(-0.2, 0.2));
    const float strength = (kind == 2 ? rng.uniformf(0.08, 0.4) : rng.uniformf(0.4, 1.6)) *
                           (0.4f + static_cast<float>(plan_.glare));
    const float edge = kind == 2 ? rng.uniformf(0.05, 0.3) : rng.uniformf(0.3, 0.9),
                warp = rng.uniformf(0, 0.18);
    const std::uint32_t seed = rng.next32();
    const float reach = radius * 2.2f;
    for (int y = std::max(0, static_cast<int>(centre.y - reach));
         y < std::min(spec_.size.height, static_cast<int>(centre.y + reach)); ++y)
      for (int x = std::max(0, static_cast<int>(centre.x - reach));
           x < std::min(spec_.size.width, static_cast<int>(centre.x + reach)); ++x) {
        Vec2 q = turn(Vec2{static_cast<float>(x), static_cast<float>(y)} - centre) * (1 / radius);
        q.y /= stretch;
        float d = kind == 2 ? std::max(std::abs(q.x), std::abs(q.y)) : length(q);
        if (d > 2.2f) continue;
        if (kind != 2) d *= 1 + warp * value_noise(q.x, q.y, seed);
        if (kind == 1) d = std::abs(d - 0.85f) * 7;
        const float add = strength * smooth_step(1 + edge, 1 - edge, d);
        if (add <= 0) continue;
        picture_(y, x) += cv::Vec3f(light_.key.x, light_.key.y, light_.key.z) * add;
        glare_(y, x) += add;
      }
  }
}

void Studio::fill_truth() {
  Truth& t = photo_.truth;
  const cv::Size size = spec_.size;
  const float nan = std::numeric_limits<float>::quiet_NaN();
  t.animal = cv::Mat1b(size, std::uint8_t{0});
  t.belly = cv::Mat1b(size, std::uint8_t{0});
  t.dark = cv::Mat1b(size, std::uint8_t{0});
  t.uv = cv::Mat2f(size, cv::Vec2f(nan, nan));
  for (const auto* raster : {&*body_, &*limbs_}) {
    const cv::Rect w = raster->window();
    for (int y = w.y; y < w.y + w.height; ++y)
      for (int x = w.x; x < w.x + w.width; ++x) {
        const Fragment& f = raster->at(x, y);
        if (f.part == Part::none) continue;
        t.animal(y, x) = 255;
        if (f.part == Part::limb || !shows_belly(spec_.subject) || f.u < 0 || f.u > 1) continue;
        const float v = framed_->body.v_of_s(f.s);
        t.uv(y, x) = {f.u, v};
        if (std::abs(v) > 1) continue;
        t.belly(y, x) = 255;
        if (skin_->is_dark(f.u, v)) t.dark(y, x) = 255;
      }
  }
  if (shows_belly(spec_.subject)) {
    belly_seen_ = cv::countNonZero(t.belly) > 0;
    t.midline = project_midline(framed_->body, framed_->camera);
    t.length_px = polyline_length(t.midline);
    t.bend_deg = framed_->pose.bend_deg;
    t.roll = framed_->pose.roll;
    for (const cv::Point2d& p : {t.midline.front(), t.midline.back()})
      t.cut_off = t.cut_off || p.x < 0 || p.y < 0 || p.x > size.width || p.y > size.height;
  }
  t.years = spec_.years;
  t.turn_deg = framed_->pose.turn_deg;
  t.tilt_deg = plan_.tilt_deg;
  t.width_change = plan_.pose.width_change;
  t.mechanism = animal_.mechanism;
  t.background = background_.name;
  t.light = light_.name;
}

float Studio::belly_brightness() const {
  double sum = 0;
  int n = 0;
  for (int y = 0; y < spec_.size.height; y += 3)
    for (int x = 0; x < spec_.size.width; x += 3)
      if (photo_.truth.animal(y, x)) {
        const cv::Vec3f& p = picture_(y, x);
        sum += std::min(1.5f, 0.3f * p[0] + 0.6f * p[1] + 0.1f * p[2]);
        ++n;
      }
  return n > 0 ? static_cast<float>(sum / n) : 0;
}

RenderedPhoto Studio::shoot() {
  prepare();
  const Camera& camera = framed_->camera;
  skin_.emplace(animal_, look_, spec_.years, static_cast<float>(1 / camera.px_per_unit()));
  add_limbs();
  fill_truth();
  lay_floor();
  const ClutterScene scene = clutter_scene();
  std::vector<Thing> things = draw_floor_clutter(scene, plan_.clutter, plan_.wild, rng_.fork(kFloorThings));
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

}  // namespace

RenderedPhoto render(const Individual& animal, const CaptureSpec& spec) {
  return Studio(animal, spec).shoot();
}

RenderedPhoto render(const CaptureSpec& spec) {
  return render(make_individual(spec.world_seed, spec.individual, spec.conditions), spec);
}

cv::Mat1b skin_pattern(std::uint64_t world_seed, std::uint32_t individual, double years, cv::Size canvas,
                       const Conditions& conditions) {
  const cv::Mat1f field = make_individual(world_seed, individual, conditions).pattern.at_years(years);
  cv::Mat1b dark(canvas);
  for (int r = 0; r < dark.rows; ++r)
    for (int c = 0; c < dark.cols; ++c) {
      const float u = (static_cast<float>(r) + 0.5f) / static_cast<float>(dark.rows),
                  v = (static_cast<float>(c) + 0.5f) / static_cast<float>(dark.cols) * 2 - 1;
      dark(r, c) = sample_field(field, u, v) < 0 ? 255 : 0;
    }
  return dark;
}

}  // namespace evet::render
