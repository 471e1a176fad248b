#include "tools/render/mechanisms.h"

#include <algorithm>
#include <functional>
#include <map>

#include "tools/render/blur.h"
#include "tools/render/noise.h"
#include "tools/render/pattern_field.h"

namespace evet::render {

namespace {

struct Mechanism {
  const char* name;
  cv::Mat1f (*field)(Rng);
  double least_share, most_share;  // of the belly, dark
  bool from_spots;                 // the field is 1 - distance / radius of spots, or the like of lines
  bool foreign = false;            // kept back from training
};

const std::vector<Mechanism>& table() {
  static const std::vector<Mechanism> all = {
      {"reaction-diffusion", detail::reaction_diffusion_field, 0.10, 0.55, false},
      {"turing", detail::turing_field, 0.10, 0.60, false},
      {"blobs", detail::blob_field, 0.06, 0.50, true},
      {"blotches", detail::blotch_field, 0.12, 0.60, true},
      {"dots", detail::dot_field, 0.015, 0.12, true},
      {"bars", detail::bar_field, 0.12, 0.50, true},
      {"anisotropic-noise", detail::anisotropic_noise_field, 0.10, 0.65, false},
      {"mirrored", detail::mirrored_field, 0.08, 0.45, true},
      {"net", detail::net_field, 0.35, 0.80, false},
      {"trails", detail::trail_field, 0.06, 0.35, true},
      {"rows", detail::row_field, 0.06, 0.40, true},
      {"tongues", detail::tongue_field, 0.10, 0.50, true},
      {"sprinkle", detail::sprinkle_field, 0.05, 0.40, true},
  };
  return all;
}

const std::vector<Mechanism>& foreign_table() {
  static const std::vector<Mechanism> all = {
      {"mosaic", detail::mosaic_field, 0.12, 0.50, false, true},
      {"lattice", detail::lattice_field, 0.16, 0.45, true, true},
      {"shatter", detail::shatter_field, 0.08, 0.45, true, true},
      {"rings", detail::ring_field, 0.11, 0.40, true, true},
      {"waves", detail::wave_field, 0.12, 0.50, false, true},
      {"scribbles", detail::scribble_field, 0.09, 0.35, true, true},
  };
  return all;
}

const Mechanism& find(const std::string& name) {
  for (const auto* list : {&table(), &foreign_table()})
    for (const Mechanism& m : *list)
      if (name == m.name) return m;
  CV_Error(cv::Error::StsBadArg, "no such pattern mechanism: " + name);
}

std::vector<std::string> names_in(const std::vector<Mechanism>& list) {
  std::vector<std::string> names;
  names.reserve(list.size());
  for (const Mechanism& m : list) names.emplace_back(m.name);
  return names;
}

bool on_belly(int row, int col) {
  const float u = skin_u(row), v = skin_v(col);
  return u >= 0 && u <= 1 && v >= -1 && v <= 1;
}

// The level that leaves `share` of the belly above it.
float level_for(const cv::Mat1f& field, double share) {
  std::vector<float> values;
  for (int r = 0; r < field.rows; r += 2)
    for (int c = 0; c < field.cols; c += 2)
      if (on_belly(r, c)) values.push_back(field(r, c));
  const auto kth =
      values.begin() + static_cast<std::ptrdiff_t>((1 - share) * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), kth, values.end());
  return *kth;
}

// Density gradients along and across, so that few bellies are evenly spotted.
void add_gradients(cv::Mat1f& field, float scale, Rng rng) {
  const float along = scale * rng.uniformf(-0.9, 0.9) * (rng.chance(0.6) ? 1.0f : 0.2f);
  const float flanks = scale * rng.uniformf(-0.3, 0.8) * (rng.chance(0.5) ? 1.0f : 0.1f);
  const float patchy = scale * rng.uniformf(0, 0.7);
  const std::uint32_t seed = rng.next32();
  for (int r = 0; r < field.rows; ++r)
    for (int c = 0; c < field.cols; ++c) {
      const float u = skin_u(r), v = skin_v(c);
      field(r, c) += along * (u - 0.5f) * 2 + flanks * (std::min(v * v, 1.4f) - 0.4f) +
                     patchy * value_noise(u * 3.1f, v * 0.9f, seed);
    }
}

void open_holes(cv::Mat1b& dark, Rng rng) {
  cv::Mat1f holes(dark.size(), 0.0f);
  const int n = rng.between(2, 16);
  for (int i = 0; i < n; ++i)
    detail::raise_spot(
        holes, {rng.uniformf(40, kSkinRows - 40), rng.uniformf(30, kSkinCols - 30), rng.uniformf(1.8, 5.5),
                rng.uniformf(0.7, 1.5), rng.uniformf(0, kPi), 0.3f, rng.next32()});
  dark.setTo(0, holes > 0);
}

}  // namespace

std::vector<std::string> mechanism_names() {
  return names_in(table());
}
std::vector<std::string> foreign_mechanism_names() {
  return names_in(foreign_table());
}

double dark_share(const cv::Mat1b& dark) {
  int seen = 0, hit = 0;
  for (int r = 0; r < dark.rows; ++r)
    for (int c = 0; c < dark.cols; ++c)
      if (on_belly(r, c)) {
        ++seen;
        hit += dark(r, c) != 0;
      }
  return static_cast<double>(hit) / seen;
}

cv::Mat1b grow_pattern(const std::string& mechanism, Rng rng) {
  const Mechanism& m = find(mechanism);
  cv::Mat1f field = m.field(rng.fork(1));
  Rng cut = rng.fork(2);
  // What counts as a large step of this field; of a spot's, a third of its radius.
  cv::Scalar mean, deviation;
  cv::meanStdDev(field, mean, deviation);
  const float scale = m.from_spots ? 0.35f : static_cast<float>(deviation[0]);
  add_gradients(field, scale, cut.fork(1));

  // Ragged edges.
  const float ragged = scale * (cut.chance(0.3) ? 0.05f : cut.uniformf(0.1, 0.6));
  const float grain = cut.uniformf(0.07, 0.24);  // lattice cells a canvas cell
  const std::uint32_t seed = cut.next32();
  for (int r = 0; r < field.rows; ++r)
    for (int c = 0; c < field.cols; ++c)
      field(r, c) +=
          ragged * fractal_noise(static_cast<float>(c) * grain, static_cast<float>(r) * grain, seed, 2);

  // Most skins nearer the lower end: squares of uniforms.
  const double t = cut.uniform() * (cut.chance(0.5) ? 1.0 : cut.uniform());
  const double share = m.least_share + (m.most_share - m.least_share) * t;
  // Spots can spread by half their radius to reach the share, no further.
  const float level = m.from_spots ? std::max(level_for(field, share), -0.5f) : level_for(field, share);
  cv::Mat1b dark = field > level;
  // Holes and dots are marks of the skins that training sees.
  if (m.foreign) return dark;
  if (cut.chance(0.4)) open_holes(dark, cut.fork(3));
  if (cut.chance(0.45)) {
    cv::Mat1f dots = detail::dot_field(cut.fork(4));
    dark.setTo(255, dots > std::max(0.0f, level_for(dots, cut.uniform(0.005, 0.05))));
  }
  return dark;
}

}  // namespace evet::render
