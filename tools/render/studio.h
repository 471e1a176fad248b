// One photograph while it is being made: only scene.cpp and studio_*.cpp look in here.
#pragma once
#include <optional>

#include "tools/render/background.h"
#include "tools/render/capture.h"
#include "tools/render/clutter.h"
#include "tools/render/framing.h"
#include "tools/render/light.h"
#include "tools/render/raster.h"
#include "tools/render/skin.h"

namespace evet::render {

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

inline bool shows_animal(Subject subject) {
  return subject != Subject::empty_tray && subject != Subject::leaf;
}
inline bool shows_belly(Subject subject) {
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
  // A thing's opacity and colours in a window that may reach beyond the frame by the length of its shadow.
  struct Cutout {
    cv::Rect window;
    cv::Mat1f alpha;
    cv::Mat3f colours;
  };
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

}  // namespace evet::render
