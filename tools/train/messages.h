// What the programs that train and fit refuse.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kNeedsPairsOfSameAnd = MessageText("needs_pairs_of_same_and", "it needs pairs of the same and of different individuals");
inline constexpr auto kNameFileForWeightsOr = MessageText("name_file_for_weights_or", "name a file for the weights, or one for pairs (--compare-only)");
inline constexpr auto kWeightsCouldNotBeWritten = MessageText("weights_could_not_be_written", "the weights could not be written");
inline constexpr auto kFewerThanTwoPhotosGave = MessageText("fewer_than_two_photos_gave", "fewer than two photos gave a strip");
inline constexpr auto kRenderMore = MessageText("render_more", "render more");
inline constexpr auto kSetCouldNotBeWritten = MessageText("set_could_not_be_written", "the set could not be written");
inline constexpr auto kIsNotSetWrittenBy = MessageText("is_not_set_written_by", "it is not a set written by this program");
inline constexpr auto kDelete = MessageText("delete", "delete it");
inline constexpr auto kEndsBeforeLastPhoto = MessageText("ends_before_last_photo", "it ends before its last photo");
inline constexpr auto kDoesNotHoldWholeSpot = MessageText("does_not_hold_whole_spot", "it does not hold whole spot maps of known animals");
inline constexpr auto kGiveFolderSpotMapsPy = MessageText("give_folder_spot_maps_py", "give a folder that spot_maps.py wrote");
inline constexpr auto kCouldNotBeWritten = MessageText("could_not_be_written", "it could not be written");
inline constexpr auto kSeeWhetherDiskIsFull = MessageText("see_whether_disk_is_full", "see whether the disk is full");
inline constexpr auto kPairsCouldNotBeWritten = MessageText("pairs_could_not_be_written", "the pairs could not be written");
inline constexpr auto kFirstLineDoesNotName = MessageText("first_line_does_not_name", "its first line does not name this program's measures");
inline constexpr auto kComparePairsAgainWithCompare = MessageText("compare_pairs_again_with_compare", "compare the pairs again with --compare-only");
inline constexpr auto kHoldsNumbersNot = MessageText("holds_numbers_not", "it holds {values} numbers, not {measures}");
inline constexpr auto kThereIsNoSuchDifficulty = MessageText("there_is_no_such_difficulty", "there is no such difficulty");
inline constexpr auto kUseGentleMiddleOrHardest = MessageText("use_gentle_middle_or_hardest", "use gentle, middle or hardest");
inline constexpr auto kEachIndividualNeedsCaptureAnd = MessageText("each_individual_needs_capture_and", "each individual needs a capture, and a photo of it");
inline constexpr auto kForeignConditionsAreKeptBack = MessageText("foreign_conditions_are_kept_back", "foreign conditions are kept back from fits and tuning");
inline constexpr auto kScoreThemOnWorldFrom = MessageText("score_them_on_world_from", "score them on a world from 200 up");
inline constexpr auto kHoldsNoSpotMaps = MessageText("holds_no_spot_maps", "it holds no spot maps");

// clang-format on
}  // namespace evet::messages
