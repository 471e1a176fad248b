// What to photograph, and what a photograph shows: the words that both worlds share.
#pragma once
#include <cstdint>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

namespace evet::render {

enum class Difficulty { gentle, middle, hardest };
// What of the animal a pixel shows; the head reaches to the throat fold, the tail begins at the vent.
enum class BodyPart : std::uint8_t { none, head, trunk, fore_limb, hind_limb, tail };
enum class Subject { belly, back, empty_tray, leaf, small_newt, blurred };

// Two ways to draw that share nothing but these words: one draws bent tubes (this folder), one
// traces solid bodies (solid/). Individuals of one number differ between them.
enum class World { drawn, solid };

struct Individual;  // pattern mechanism, colours, body shape; see individual.h

// Conditions that a fit may be told to leave out, for leave-one-condition-out scores. Empty lists mean "all".
struct Conditions {
  Difficulty difficulty = Difficulty::middle;
  std::vector<std::string> only_mechanisms, without_mechanisms;    // names in mechanisms()
  std::vector<std::string> only_backgrounds, without_backgrounds;  // names in backgrounds()
  std::vector<std::string> only_lights, without_lights;            // names in lights()
  // Beyond nature, for fitting: random colours, floors, lights, tone curves and covering things, and geometry
  // at least as varied as hardest; `difficulty` is then ignored.
  bool wild = false;
  // Kept back, for scores alone: patterns, floors, lights, things and camera finishes of which fits and
  // tuning see none. The lists above then hold names of the foreign lists below. Of the drawn world only.
  bool foreign = false;
  void check() const;  // throws std::invalid_argument where wild and foreign meet
};

struct CaptureSpec {
  std::uint64_t world_seed = 1;  // keeps fit, tune and score sets apart
  std::uint32_t individual = 0;
  std::uint32_t capture = 0;  // 0, 1, 2, ... in order of time
  double years = 0;           // since the individual's capture 0; the pattern grows with it
  Subject subject = Subject::belly;
  cv::Size size{1600, 1200};  // of the picture as a viewer would see it
  Conditions conditions;
  World world = World::drawn;
};

// Frame of all truth: the upright picture, x right, y down, pixel centres at +0.5. u, v as in matcher/belly.
struct Truth {
  cv::Mat1b animal;  // 255 where any part of the animal would be seen if nothing lay over it
  cv::Mat1b part;    // a BodyPart for every pixel, likewise as if nothing lay over the animal
  cv::Mat1b belly;   // 255 where belly skin (|v| <= 1, 0 <= u <= 1) faces the camera, covered or not
  cv::Mat1b clear;   // 255 where belly skin is plainly seen: no glare, finger, limb, leaf or net over it
  cv::Mat2f uv;      // body coordinates for every pixel of the trunk; NaN elsewhere
  cv::Mat1b dark;    // 255 where belly skin is dark pattern, 0 orange; meaningful where belly
  std::vector<cv::Point2d>
      midline;           // v = 0 at u = 0, 1/64, ..., 1 (65 points), head first; may leave the frame
  double length_px = 0;  // of the midline
  double bend_deg = 0;   // integral of |curvature| of the trunk
  double roll = 0;       // half-widths by which the pattern lies towards +v: the ridge shows v = -roll
  double years = 0;
  double turn_deg = 0;       // of the vent-to-throat chord from up, clockwise, before perspective
  double tilt_deg = 0;       // of the camera from the upright on the floor
  double width_change = 0;   // +0.1: fed, 10 % wider
  double covered_share = 0;  // of the belly in the frame, under limbs, fingers, leaves and the like
  bool cut_off = false;      // throat or vent lies beyond the frame
  std::string mechanism, background, light;
};

struct RenderedPhoto {
  cv::Mat3b bgr;  // upright
  Truth truth;
};

}  // namespace evet::render
