#include "tools/render/photo_truth.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <fstream>
#include <opencv2/imgproc.hpp>
#include <stdexcept>
#include <utility>

namespace evet::render {

namespace {

static_assert(std::endian::native == std::endian::little, "the files are little endian");

const std::vector<std::pair<std::string, Subject>> kSubjects = {
    {"belly", Subject::belly},           {"back", Subject::back},
    {"empty_tray", Subject::empty_tray}, {"leaf", Subject::leaf},
    {"small_newt", Subject::small_newt}, {"blurred", Subject::blurred}};
const std::vector<std::pair<std::string, Difficulty>> kDifficulties = {
    {"gentle", Difficulty::gentle}, {"middle", Difficulty::middle}, {"hardest", Difficulty::hardest}};
const std::vector<std::pair<std::string, World>> kWorlds = {{"drawn", World::drawn}, {"solid", World::solid}};

template <class T>
std::string name_in(const std::vector<std::pair<std::string, T>>& all, T value) {
  return std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.second == value; })->first;
}
template <class T>
T value_in(const std::vector<std::pair<std::string, T>>& all, const std::string& name, const char* kind) {
  std::string known;
  for (const auto& [other, value] : all) {
    if (other == name) return value;
    known += (known.empty() ? "" : ", ") + other;
  }
  throw std::invalid_argument("no " + std::string(kind) + " is called '" + name + "'; known are " + known);
}

double tenth(double x) {
  return std::round(10 * x) / 10;
}
double thousandth(double x) {
  return std::round(1000 * x) / 1000;
}

template <class Points>
nlohmann::ordered_json as_points(const Points& points) {
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (const auto& p : points) list.push_back({tenth(p.x), tenth(p.y)});
  return list;
}

std::vector<cv::Point> largest_outline(const cv::Mat1b& mask) {
  std::vector<std::vector<cv::Point>> parts;
  cv::findContours(mask.clone(), parts, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
  std::vector<cv::Point> largest;
  double most = 0;
  for (const auto& part : parts)
    if (const double area = cv::contourArea(part); area > most) {
      most = area;
      largest = part;
    }
  if (largest.empty()) return largest;
  std::vector<cv::Point> simple;
  cv::approxPolyDP(largest, simple, 0.75, true);
  return simple;
}

void write_bytes(const std::filesystem::path& path, const void* data, std::size_t bytes) {
  std::ofstream file(path, std::ios::binary);
  file.write(static_cast<const char*>(data), static_cast<std::streamsize>(bytes));
  file.close();
  if (!file) throw std::runtime_error("cannot write " + path.string());
}

}  // namespace

std::string name_of(Subject subject) {
  return name_in(kSubjects, subject);
}
std::string name_of(Difficulty difficulty) {
  return name_in(kDifficulties, difficulty);
}
Subject subject_named(const std::string& name) {
  return value_in(kSubjects, name, "subject");
}
Difficulty difficulty_named(const std::string& name) {
  return value_in(kDifficulties, name, "difficulty");
}

std::string name_of(World world) {
  return name_in(kWorlds, world);
}
World world_named(const std::string& name) {
  return value_in(kWorlds, name, "kind of world");
}

nlohmann::ordered_json truth_json(const CaptureSpec& spec, const Truth& t) {
  const double clear_share =
      static_cast<double>(cv::countNonZero(t.clear)) / std::max(1, cv::countNonZero(t.belly));
  const bool of_the_individual =
      spec.subject == Subject::belly || spec.subject == Subject::blurred || spec.subject == Subject::back;
  const nlohmann::ordered_json individual =
      of_the_individual ? nlohmann::ordered_json(spec.individual) : nullptr;
  nlohmann::ordered_json about = {
      {"subject", name_of(spec.subject)},
      {"world_seed", spec.world_seed},
      {"individual", individual},
      {"take", spec.capture},
      {"years", thousandth(t.years)},
      {"width_px", t.animal.cols},
      {"height_px", t.animal.rows},
      {"difficulty", spec.conditions.wild ? "wild" : name_of(spec.conditions.difficulty)},
      {"length_px", tenth(t.length_px)},
      {"bend_deg", tenth(t.bend_deg)},
      {"roll", thousandth(t.roll)},
      {"turn_deg", tenth(t.turn_deg)},
      {"tilt_deg", tenth(t.tilt_deg)},
      {"width_change", thousandth(t.width_change)},
      {"covered_share", thousandth(t.covered_share)},
      {"clear_share", thousandth(clear_share)},
      {"cut_off", t.cut_off},
      {"mechanism", t.mechanism},
      {"background", t.background},
      {"light", t.light},
      {"midline", as_points(t.midline)},
      {"outline", as_points(largest_outline(t.belly))}};
  // Only where it is so: the drawn world's files stay as they were.
  if (spec.world != World::drawn) about["world_kind"] = name_of(spec.world);
  return about;
}

void write_body_coordinates(const std::filesystem::path& stem, const Truth& t) {
  CV_Assert(t.uv.isContinuous());
  write_bytes(stem.string() + ".uv", t.uv.ptr(), t.uv.total() * sizeof(cv::Vec2f));
  cv::Mat1b flags(t.animal.size());
  for (int y = 0; y < flags.rows; ++y)
    for (int x = 0; x < flags.cols; ++x)
      flags(y, x) = static_cast<std::uint8_t>((t.animal(y, x) & 1) | (t.belly(y, x) & 2) |
                                              (t.clear(y, x) & 4) | (t.dark(y, x) & 8));
  write_bytes(stem.string() + ".mask", flags.ptr(), flags.total());
}

}  // namespace evet::render
