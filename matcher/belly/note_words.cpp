#include "matcher/belly/note_words.h"

#include <cmath>

#include "matcher/belly/messages.h"

namespace evet {
namespace {

// Of what the whole picture shows: no measure has a number for it.
std::optional<Message> words_of_picture(const std::string& measure, bool blocks) {
  if (measure == "p_belly") return messages::kBellyNotClear;
  if (measure == "no_animal") return messages::kNoNewtFound;
  if (measure == "no_belly") return messages::kNoBellyFound;
  if (measure == "no_map") return messages::kEndsNotMadeOut;
  if (measure == "small_species") return blocks ? messages::kNoSpotsShown : messages::kMaybeSmallSpecies;
  if (measure == "sharpness") return messages::kBellyBlurred;
  if (measure == "bend_deg") return messages::kBellyBent;
  if (measure == "roll") return messages::kOnItsSide;
  return std::nullopt;
}

}  // namespace

Message part_of_belly(double share, const MessageText& none) {
  const long percent = std::lround(100 * share);
  if (percent <= 0) return none;
  if (percent >= 100) return messages::kAllOfBelly;
  return {messages::kPartOfBelly, {{"percent", std::to_string(percent)}}};
}

std::optional<Message> words_of_note(const std::string& measure, bool blocks, const Quality& quality) {
  if (measure == "glare_share")
    return Message(messages::kGlareHides,
                   {{"part", part_of_belly(quality.glare_share, messages::kLittleOfBelly)}});
  if (measure == "dark_share")
    return Message(messages::kBellyTooDark,
                   {{"part", part_of_belly(quality.dark_share, messages::kLittleOfBelly)}});
  if (measure == "belly_length_px")
    return Message(messages::kBellyTooShort,
                   {{"pixels", std::to_string(std::lround(quality.belly_length_px))}});
  return words_of_picture(measure, blocks);
}

std::string shown_note(const QualityNote& note, const Quality& quality) {
  const auto anew = words_of_note(note.measure, note.blocks, quality);
  return anew ? anew->words() : note.sentence;
}

}  // namespace evet
