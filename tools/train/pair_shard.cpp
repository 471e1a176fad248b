#include "tools/train/pair_shard.h"

#include <fstream>

#include "matcher/base/error.h"
#include "matcher/pattern/spot_map.h"
#include "tools/train/messages.h"

namespace evet::train {
namespace {

void put(std::ofstream& out, const auto& values) {
  out.write(reinterpret_cast<const char*>(values.data()),
            static_cast<std::streamsize>(values.size() * sizeof(values[0])));
}

void add(std::vector<std::uint8_t>& bytes, const Level& level) {
  for (const cv::Mat1f& plane : {level.dark, level.weight}) {
    cv::Mat1b small;
    plane.convertTo(small, CV_8U, 255);
    bytes.insert(bytes.end(), small.datastart, small.dataend);
  }
}

}  // namespace

void write_pair_shard(const std::vector<KnownPattern>& patterns, const std::vector<ComparedPair>& pairs,
                      const std::filesystem::path& path) {
  const std::filesystem::path partial = path.string() + ".part";
  std::ofstream out(partial, std::ios::binary);
  out.write("EVPAIR01", 8);
  put(out, std::vector<std::int32_t>{static_cast<std::int32_t>(pairs.size()), kMapRows / 2, kMapCols / 2,
                                     kPairFacts});
  std::vector<float> facts;
  for (const ComparedPair& pair : pairs) {
    const SpotMap& query = patterns.at(pair.query).pattern.map;
    const AlignmentMaps fixed = alignment_maps(patterns.at(pair.gallery).pattern.map),
                        moving = alignment_maps(pair.turned ? turned(query) : query);
    std::vector<std::uint8_t> planes;
    add(planes, fixed.fine);
    add(planes, drawn_onto(moving.fine, pair.alignment));
    put(out, planes);
    facts.insert(facts.end(),
                 {pair.same ? 1.F : 0.F, static_cast<float>(pair.weight), static_cast<float>(pair.order)});
    facts.insert(facts.end(), pair.measures.begin(), pair.measures.end() - 1);
  }
  put(out, facts);
  out.close();
  if (!out)
    throw Error(ErrorKind::storage, partial.string(), messages::kCouldNotBeWritten,
                messages::kSeeWhetherDiskIsFull);
  std::filesystem::rename(partial, path);
}

}  // namespace evet::train
