#include "tools/train/rendered_set.h"

#include <array>
#include <cmath>
#include <functional>
#include <memory>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/pattern/examine.h"
#include "matcher/pattern/make_pattern.h"
#include "tools/render/individual.h"
#include "tools/render/on_threads.h"
#include "tools/render/solid/solid_world.h"
#include "tools/train/messages.h"

namespace evet::train {
namespace {

// Photo position of every strip cell: truth pixels scattered onto the canvas, then averaged nearby.
struct Positions {
  cv::Mat2f photo;  // centres at +0.5
  cv::Mat1f support;
};
Positions positions(const cv::Mat2f& uv) {
  cv::Mat2f sum(kStripRows, kStripCols, cv::Vec2f(0, 0));
  cv::Mat1f weight(kStripRows, kStripCols, 0.F);
  for (int y = 0; y < uv.rows; ++y)
    for (int x = 0; x < uv.cols; ++x) {
      const cv::Vec2f at = uv(y, x);
      if (!(std::abs(at[1]) < 1) || !(at[0] > 0 && at[0] < 1)) continue;
      const int row = static_cast<int>(at[0] * kStripRows),
                col = static_cast<int>((at[1] + 1) / 2 * kStripCols);
      sum(row, col) += cv::Vec2f(static_cast<float>(x) + 0.5F, static_cast<float>(y) + 0.5F);
      weight(row, col) += 1;
    }
  cv::GaussianBlur(sum, sum, {}, 1.5);
  cv::GaussianBlur(weight, weight, {}, 1.5);
  for (int r = 0; r < kStripRows; ++r)
    for (int c = 0; c < kStripCols; ++c)
      if (weight(r, c) > 1e-3F) sum(r, c) *= 1 / weight(r, c);
  return {sum, weight};
}

SetStrip examined(const SetPhoto& photo) {
  SetStrip out;
  out.facts = photo.facts;
  const ExamineOptions options;
  BellyFinding found = find_belly(decode_photo(photo.jpeg, "rendered photo", options.decode), options.belly);
  out.p_head_right = found.shape.p_head_right;
  out.p_laid_right = found.shape.p_laid_right;
  if (found.usable()) {
    out.strip = std::move(found.strip);
    return out;
  }
  for (const QualityNote& note : found.notes)
    if (note.blocks && out.why_not.empty()) out.why_not = note.measure;
  return out;
}

const char* name_of(render::Difficulty difficulty) {
  switch (difficulty) {
    case render::Difficulty::gentle:
      return "gentle";
    case render::Difficulty::middle:
      return "middle";
    case render::Difficulty::hardest:
      break;
  }
  return "hardest";
}

const char* name_of(render::Subject subject) {
  switch (subject) {
    case render::Subject::belly:
      return "belly";
    case render::Subject::back:
      return "back";
    case render::Subject::empty_tray:
      return "tray";
    case render::Subject::leaf:
      return "leaf";
    case render::Subject::small_newt:
      return "small";
    case render::Subject::blurred:
      break;
  }
  return "blurred";
}

}  // namespace

render::Difficulty difficulty_named(const std::string& name) {
  for (const auto d : {render::Difficulty::gentle, render::Difficulty::middle, render::Difficulty::hardest})
    if (name == name_of(d)) return d;
  throw Error(ErrorKind::usage, name, messages::kThereIsNoSuchDifficulty,
              messages::kUseGentleMiddleOrHardest);
}

std::string SetSpec::name() const {
  const auto with = [](const char* word, std::uint32_t n) { return word + std::to_string(n); };
  return "world" + std::to_string(world) + "-" + name_of(difficulty) + "-" + name_of(subject) + "-" +
         std::to_string(individuals) + "x" + std::to_string(captures) + (varied ? "varied" : "") +
         (look_alikes ? "alike" : "") + (foreign ? "foreign" : "") +
         (drawing == render::World::solid ? "solid" : "") +
         (last_photos != 1 ? with("+", last_photos - 1) : "") + (first != 0 ? with("from", first) : "") +
         "-" + std::to_string(photo.width) + "x" + std::to_string(photo.height);
}

Pattern pattern_of(const SetStrip& found) {
  BellyShape laid;
  laid.p_head_right = found.p_head_right, laid.p_laid_right = found.p_laid_right;
  return make_pattern(found.strip.value(), laid);
}

Strip strip_from_truth(const render::RenderedPhoto& photo) {
  const Positions at = positions(photo.truth.uv);
  cv::Mat2f from(kStripRows, kStripCols, cv::Vec2f(-1, -1));
  cv::Mat1b seen(kStripRows, kStripCols, uchar{0});
  for (int r = 0; r < kStripRows; ++r)
    for (int c = 0; c < kStripCols; ++c) {
      if (at.support(r, c) < 0.1F) continue;
      from(r, c) = at.photo(r, c) - cv::Vec2f(0.5F, 0.5F);
      const int x = cvRound(from(r, c)[0]), y = cvRound(from(r, c)[1]);
      if (x < 0 || y < 0 || x >= photo.bgr.cols || y >= photo.bgr.rows) continue;
      seen(r, c) = photo.truth.clear(y, x);
    }
  Strip strip;
  cv::remap(photo.bgr, strip.bgr, from, {}, cv::INTER_LINEAR, cv::BORDER_CONSTANT, cv::Scalar());
  strip.valid = seen;
  return strip;
}

namespace {

double most_years(render::Difficulty difficulty) {
  return difficulty == render::Difficulty::gentle ? 0.3 : difficulty == render::Difficulty::middle ? 1.2 : 3;
}

// Years since the first capture where captures vary: all but the last within a tenth of the span, the last a
// tenth, a third or nine tenths of the span later, whatever their number.
double varied_years(const SetSpec& spec, std::uint32_t individual, std::uint32_t capture,
                    std::uint32_t captures) {
  const double most = most_years(spec.difficulty);
  const double step = captures > 2 ? 0.1 * most / (captures - 2) : 0;
  if (capture + 1 < captures) return step * capture;
  constexpr std::array<double, 3> kLater = {0.1, 1.0 / 3, 0.9};
  return step * (captures - 2) + kLater[individual / (spec.captures - 1) % 3] * most;
}

}  // namespace

double years_of(render::Difficulty difficulty, std::uint32_t individual, std::uint32_t capture,
                std::uint32_t captures) {
  const double most = most_years(difficulty);
  if (captures < 2) return 0;
  // Half of the animals come again at even intervals up to the whole span, the others within less of it.
  const double span = individual % 2 == 0 ? most : most * 0.4;
  return span * capture / (captures - 1);
}

std::vector<PlannedPhoto> planned_photos(const SetSpec& spec, std::uint32_t individual) {
  if (spec.captures < 1 || spec.last_photos < 1 || (spec.varied && spec.captures < 2))
    throw Error(ErrorKind::usage, "set " + spec.name(), messages::kEachIndividualNeedsCaptureAnd);
  const std::uint32_t captures = spec.varied ? 2 + individual % (spec.captures - 1) : spec.captures;
  std::vector<PlannedPhoto> out;
  for (std::uint32_t capture = 0; capture < captures; ++capture) {
    const bool last = capture + 1 == captures;
    for (std::uint32_t photo = 0; photo < (last ? spec.last_photos : 1); ++photo)
      out.push_back({capture, photo, last,
                     spec.varied ? varied_years(spec, individual, capture, captures)
                                 : years_of(spec.difficulty, individual, capture, captures)});
  }
  return out;
}

namespace {

using RenderOne = std::function<render::RenderedPhoto(const render::CaptureSpec&)>;

// Renders captures of one animal, or of another that looks like it, whatever their individual's number.
RenderOne renderer_of(const SetSpec& spec, const render::CaptureSpec& of) {
  if (spec.drawing == render::World::solid)
    return [number = of.individual, alike = spec.look_alikes](render::CaptureSpec capture) {
      capture.individual = number;
      return render::solid::photograph(capture, alike);
    };
  const auto animal = std::make_shared<render::Individual>(
      spec.look_alikes ? render::make_look_alike(of.world_seed, of.individual, of.conditions)
                       : render::make_individual(of.world_seed, of.individual, of.conditions));
  return [animal](const render::CaptureSpec& capture) { return render::render(*animal, capture); };
}

}  // namespace

std::vector<SetPhoto> rendered_set(const SetSpec& spec, int threads) {
  if (spec.foreign && spec.world < kFirstScoredWorld)
    throw Error(ErrorKind::usage, "set " + spec.name(), messages::kForeignConditionsAreKeptBack,
                messages::kScoreThemOnWorldFrom);
  std::vector<std::vector<SetPhoto>> of_individual(spec.individuals);
  render::on_threads(spec.individuals, threads, [&](size_t i) {
    render::CaptureSpec wanted;
    wanted.world_seed = spec.world, wanted.individual = spec.first + static_cast<std::uint32_t>(i);
    wanted.subject = spec.subject, wanted.size = spec.photo, wanted.conditions.difficulty = spec.difficulty;
    wanted.conditions.foreign = spec.foreign;
    wanted.world = spec.drawing;
    const RenderOne render_one = renderer_of(spec, wanted);
    if (spec.look_alikes) wanted.individual += kLookAlikes;
    wanted.capture = 0;
    for (const PlannedPhoto& plan : planned_photos(spec, wanted.individual)) {
      wanted.years = plan.years;
      const render::RenderedPhoto rendered = render_one(wanted);
      SetPhoto photo;
      photo.facts = {wanted.individual, plan, rendered.truth.mechanism, rendered.truth.background,
                     rendered.truth.light};
      const auto file = render::to_camera_jpeg(rendered.bgr, 95, 1, "2031-05-14T22:41:07");
      const auto* bytes = reinterpret_cast<const std::byte*>(file.data());
      photo.jpeg.assign(bytes, bytes + file.size());
      photo.true_strip = strip_from_truth(rendered);
      of_individual[i].push_back(std::move(photo));
      ++wanted.capture;
    }
  });
  std::vector<SetPhoto> out;
  for (std::vector<SetPhoto>& some : of_individual)
    std::move(some.begin(), some.end(), std::back_inserter(out));
  return out;
}

std::vector<SetStrip> strips_of(const std::vector<SetPhoto>& set, StripSource source, int threads) {
  std::vector<SetStrip> out(set.size());
  render::on_threads(set.size(), threads, [&](size_t i) {
    if (source == StripSource::pipeline)
      out[i] = examined(set[i]);
    else
      out[i].facts = set[i].facts, out[i].strip = set[i].true_strip;
  });
  return out;
}

}  // namespace evet::train
