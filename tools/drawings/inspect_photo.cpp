#include "tools/drawings/inspect_photo.h"

#include <array>
#include <cmath>
#include <optional>
#include <span>

#include "matcher/base/can_write.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/quality_json.h"
#include "matcher/pattern/examine.h"
#include "matcher/photo/encode.h"
#include "matcher/photo/read_file.h"
#include "tools/drawings/inspect_drawings.h"

namespace evet {
namespace {

template <class Points>
nlohmann::json points_json(const Points& points, double full_per_px) {
  nlohmann::json out = nlohmann::json::array();
  for (const auto& p : points)
    out.push_back({std::round(10 * p.x * full_per_px) / 10, std::round(10 * p.y * full_per_px) / 10});
  return out;
}

// Where the belly lies, in pixels of the full-size upright photo, and how far that may be trusted.
nlohmann::json geometry_json(const BellyShape& shape, double full_per_px) {
  return {{"midline", points_json(shape.midline, full_per_px)},
          {"left_edge", points_json(shape.left_edge, full_per_px)},
          {"right_edge", points_json(shape.right_edge, full_per_px)},
          {"outline", points_json(shape.outline, full_per_px)},
          {"throat", points_json(std::array{shape.midline.front()}, full_per_px)[0]},
          {"vent", points_json(std::array{shape.midline.back()}, full_per_px)[0]},
          {"p_head_right", shape.p_head_right},
          {"p_laid_right", shape.p_laid_right}};
}

}  // namespace

nlohmann::json inspect_photo(const std::filesystem::path& path, const std::filesystem::path& out, Env& env,
                             const InspectOptions& options) {
  options.belly.check();
  check_can_make_folder(env, out);
  const std::string item = path.filename().string();
  const ExamineOptions usual;
  const Photo photo = decode_photo(read_file(path, item), item, usual.decode);
  const BellyFinding belly = find_belly(photo, options.belly);
  std::optional<Pattern> pattern;
  if (belly.strip) pattern = make_pattern(*belly.strip, belly.shape.p_head_right, usual.pattern);

  env.make_folders(out);
  nlohmann::json report = {{"photo", item},
                           {"usable", belly.usable()},
                           {"source", belly.coordinates.source},
                           {"confidence", belly.coordinates.confidence},
                           {"p_head_right", belly.coordinates.p_head_right},
                           {"quality", json_of(belly.quality)},
                           {"notes", nlohmann::json::array()},
                           {"drawings", nlohmann::json::array()}};
  if (belly.strip) report["geometry"] = geometry_json(belly.shape, photo.full_per_px);
  if (pattern) report["spots"] = pattern->spots.size();
  for (const QualityNote& note : belly.notes)
    report["notes"].push_back(
        {{"measure", note.measure}, {"sentence", note.sentence}, {"blocks", note.blocks}});
  for (const Drawing& drawing : draw_stages(photo, belly, pattern ? &*pattern : nullptr)) {
    const bool large = drawing.picture.total() > 300'000;  // drawings on the photo; the rest stays lossless
    const std::string name = drawing.name + (large ? ".jpg" : ".png");
    write_file_durably(env, out / name, large ? encode_jpeg(drawing.picture) : encode_png(drawing.picture));
    report["drawings"].push_back({{"file", name}, {"shows", drawing.caption}});
  }
  const std::string text = report.dump(2) + "\n";
  write_file_durably(env, out / "quality.json", std::as_bytes(std::span(text)));
  return report;
}

}  // namespace evet
