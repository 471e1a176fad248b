#include "matcher/search/pair_net.h"

#include "matcher/pattern/strip_net.h"

namespace evet {

double judged(const Level& earlier, const Level& later) {
  std::vector<cv::Mat1f> planes;
  for (const Level* level : {&earlier, &later}) {
    planes.emplace_back((level->dark - 0.5F).mul(level->weight));
    planes.push_back(level->weight);
  }
  return StripNet::pairs().forward(planes).at(0);
}

}  // namespace evet
