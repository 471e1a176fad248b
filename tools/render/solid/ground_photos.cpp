#include "tools/render/solid/ground_photos.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

#include "tools/render/jpeg.h"

namespace evet::render::solid {

namespace {

const std::vector<std::filesystem::path>& photos_in(const std::string& folder) {
  thread_local std::string listed;
  thread_local std::filesystem::file_time_type listed_at;
  thread_local std::vector<std::filesystem::path> files;
  std::error_code error;
  const auto changed_at = std::filesystem::last_write_time(folder, error);
  if (listed == folder && listed_at == changed_at) return files;
  files.clear();
  for (const auto& entry : std::filesystem::directory_iterator(folder, error))
    if (entry.path().extension() == ".jpg") files.push_back(entry.path());
  if (files.empty())
    throw std::runtime_error("EVET_GROUNDS names " + folder +
                             ", which holds no .jpg file; tools/train/fetch_grounds.sh makes such a folder");
  std::sort(files.begin(), files.end());
  listed = folder;
  listed_at = changed_at;
  return files;
}

}  // namespace

std::optional<GroundPhoto> GroundPhoto::draw(Dice dice) {
  const char* folder = std::getenv("EVET_GROUNDS");
  if (folder == nullptr || *folder == '\0') return std::nullopt;
  const auto& files = photos_in(folder);
  const std::filesystem::path& path =
      files[static_cast<std::size_t>(dice.below(static_cast<int>(files.size())))];
  std::ifstream file(path, std::ios::binary);
  const std::vector<unsigned char> bytes{std::istreambuf_iterator<char>(file), {}};
  cv::Mat3b bgr;
  try {
    bgr = decode_jpeg(bytes);
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(path.string() + " cannot be read as a ground: " + error.what());
  }
  GroundPhoto photo;
  Colour gain(dice.between(0.8, 1.2), dice.between(0.85, 1.15), dice.between(0.8, 1.2));
  gain *= dice.between(0.5, 1.2);
  const float grey = dice.odds(0.3) ? dice.between(0, 0.8) : 0;
  photo.linear_.create(bgr.size());
  std::array<float, 256> linear{};
  for (std::size_t i = 0; i < 256; ++i) linear[i] = std::pow(static_cast<float>(i) / 255, 2.2F);
  for (int y = 0; y < bgr.rows; ++y)
    for (int x = 0; x < bgr.cols; ++x) {
      const cv::Vec3b& p = bgr(y, x);
      Colour c(linear[p[2]], linear[p[1]], linear[p[0]]);
      c = (blend<Colour>(c, Colour::Constant(luminance(c)), grey) * gain).min(0.95F).max(0.004F);
      photo.linear_(y, x) = {c[0], c[1], c[2]};
    }
  // The short side spans 1 to 5 belly lengths.
  const float scale = static_cast<float>(std::min(bgr.rows, bgr.cols)) / dice.between(1, 5);
  photo.pixels_from_place_ = scale * Eigen::Rotation2Df(dice.between(0, 2 * kPi)).toRotationMatrix();
  photo.origin_ = Flat(dice.between(0, bgr.cols), dice.between(0, bgr.rows));
  return photo;
}

Colour GroundPhoto::at(float x, float y) const {
  const Flat p = pixels_from_place_ * Flat(x, y) + origin_;
  const auto mirrored = [](float at, int size) {
    const float period = 2 * static_cast<float>(size);
    float m = std::fmod(at, period);
    if (m < 0) m += period;
    m = m < static_cast<float>(size) ? m : period - m;
    return within(m - 0.5F, 0, static_cast<float>(size) - 1.001F);
  };
  const float px = mirrored(p[0], linear_.cols), py = mirrored(p[1], linear_.rows);
  const int ix = static_cast<int>(px), iy = static_cast<int>(py);
  const int jx = std::min(ix + 1, linear_.cols - 1), jy = std::min(iy + 1, linear_.rows - 1);
  const float fx = px - static_cast<float>(ix), fy = py - static_cast<float>(iy);
  const cv::Vec3f mean = (linear_(iy, ix) * (1 - fx) + linear_(iy, jx) * fx) * (1 - fy) +
                         (linear_(jy, ix) * (1 - fx) + linear_(jy, jx) * fx) * fy;
  return {mean[0], mean[1], mean[2]};
}

}  // namespace evet::render::solid
