// Photos that came in by a merge without their file: neither folder had it. That is no loss of this folder's,
// and nothing that its audit could ever put right, so it is told and is no finding.
//
// What this device itself wrote says so, its latest merge; other devices' merges speak of other folders. A
// photo that was ever here, by intake or by a later merge, is missed when its file goes.
#pragma once
#include <set>
#include <vector>

#include "matcher/catalogue/photo_store.h"
#include "matcher/catalogue/store.h"

namespace evet {

// Those still without a file.
std::set<PhotoId> without_file(const Store& store, const PhotoStore& photos);

}  // namespace evet
