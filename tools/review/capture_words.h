// A capture in the page's words and as its JSON.
#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"

namespace evet::review {

nlohmann::json facts_json(const CaptureFacts& facts);
// A capture's photos with what was found wrong with each; usable ones first. `candidates` come without notes.
nlohmann::json photos_json(Catalogue& catalogue, const CaptureState& capture, bool with_notes);
std::optional<PhotoId> best_photo(const CaptureState& capture);
std::string display_name(const CaptureFacts& facts);  // as on the sheet
// "same", "different", "new", "cannot tell".
std::string answer_in_words(Answer answer);
// What a person must look at again: sex, stage and length that do not fit, in sentences.
std::vector<std::string> misfits(const CaptureFacts& earlier, const CaptureFacts& later);

}  // namespace evet::review
