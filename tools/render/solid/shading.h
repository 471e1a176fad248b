// What light reaches the eye along a ray.
#pragma once
#include <opencv2/core.hpp>
#include <optional>

#include "tools/render/solid/ground.h"
#include "tools/render/solid/lighting.h"
#include "tools/render/solid/stage.h"

namespace evet::render::solid {

// A clear pane between the animal and the camera, with what lies on it.
struct ClearPane {
  float height = 0;
  float drops = 0, drop_pitch = 0.1F, haze = 0, mirror = 1, bubbles = 0;
  std::uint32_t seed = 0;
};
// A net held over everything.
struct Net {
  float height = 0.3F, pitch = 0.1F, thread = 0.08F, turn = 0;  // thread: width to pitch
  Colour colour = Colour::Ones();
  bool on_thread(const Point& at) const;
};

// Numbers in [0, 1) for one sample of a pixel: quick, and the same whatever was drawn for other pixels (the
// permuted congruential generator of O'Neill 2014).
class Spread {
 public:
  Spread(int x, int y, int sample, std::uint32_t seed)
      : state_(Dice::blended(static_cast<std::uint64_t>(x) << 32 | static_cast<std::uint32_t>(y),
                             static_cast<std::uint64_t>(sample) << 32 | seed)) {}
  float next() {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    const auto word = static_cast<std::uint32_t>(((state_ >> 18) ^ state_) >> 27);
    const auto turn = static_cast<unsigned>(state_ >> 59);
    return static_cast<float>((word >> turn | word << ((32 - turn) & 31U)) >> 8) * 0x1p-24F;
  }

 private:
  std::uint64_t state_;
};

struct Seen {
  Colour light = Colour::Zero();
  float mirrored = 0;  // brightness of what is mirrored in wet skin or a pane
};

class Scenery {
 public:
  Stage trunk, limbs, things;
  Ground ground;
  Lighting lighting;
  std::optional<ClearPane> pane;
  std::optional<Net> net;

  void measure_openness(int rays, const Dice& dice);
  bool meet(const Point& eye, const Point& way, Touch& touch, const Mesh** mesh) const;
  bool blocked(const Point& from, const Point& way, float far) const;
  // 255 under drops of the pane and threads of the net.
  bool hidden_by_cover(const Point& eye, const Point& way) const;
  Seen look(const Point& eye, Point way, Spread& spread) const;

 private:
  Seen lit(const Surface& surface, const Point& at, const Point& way, float open, Spread& spread) const;
  float ground_openness(const Flat& place) const;
  float drop_at(const Point& at, Flat* tilt) const;  // 0: none, 1: middle
  cv::Mat1f ground_open_;
};

}  // namespace evet::render::solid
