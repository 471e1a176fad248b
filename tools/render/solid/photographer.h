// Puts one photograph of the solid world together, step by step, and keeps its truth.
#pragma once
#include <optional>
#include <vector>

#include "tools/render/scene.h"
#include "tools/render/solid/framing.h"
#include "tools/render/solid/shading.h"
#include "tools/render/solid/skin_look.h"
#include "tools/render/solid/things.h"

namespace evet::render::solid {

inline bool shows_belly(Subject subject) {
  return subject == Subject::belly || subject == Subject::blurred;
}

class Photographer {
 public:
  Photographer(const CaptureSpec& spec, bool look_alike);
  RenderedPhoto shoot();

 private:
  enum : std::uint64_t {
    kPlan = 1,
    kKind,
    kPosture,
    kBody,
    kFrame,
    kLimbs,
    kOver,
    kBeside,
    kGround,
    kLight,
    kHand,
    kPane,
    kOpen,
    kRays,
    kFilm,
    kWild,
    kInstead
  };
  void choose_subject();
  void pose();
  void light_and_ground();
  std::vector<Mesh> things_that_stay();
  std::vector<Mesh> things_that_cover(Dice& over);
  void lay_things();
  void set_up(int across, const std::vector<Mesh>& fixed, const std::vector<Mesh>& extra, std::size_t kept);
  void add_eyes();
  void fill_truth();
  void trace();
  float height_over(const Flat& place) const;
  float share_covered() const;
  bool covers_belly(const Flat& pixel, const Touch& skin) const;
  bool on_belly(const Touch& skin) const {
    return skin.place[0] >= 0 && skin.place[0] <= 1 && std::abs(v_of(skin)) <= 1;
  }
  bool in_hand() const { return plan_.setting == "bare-hand" || plan_.setting == "glove"; }
  float v_of(const Touch& skin) const { return skin.place[1] / animal_.build.belly_share; }

  const CaptureSpec& spec_;
  Dice dice_;
  Plan plan_;
  Animal animal_;
  Hand hand_;
  SkinState state_;
  Posture posture_;
  std::optional<Body> body_;
  std::optional<Lens> lens_;
  Scenery scenery_;
  bool has_animal_ = true, counts_as_animal_ = true;
  RenderedPhoto photo_;
  cv::Mat3f light_;
  cv::Mat1f glare_;
  cv::Mat1b covered_;
};

}  // namespace evet::render::solid
