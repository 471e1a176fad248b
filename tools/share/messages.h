// What is said of what leaves the house.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kCannotBePacked = MessageText("cannot_be_packed", "it cannot be packed: {why}");
inline constexpr auto kNoScientificName = MessageText("no_scientific_name", "{species} is no scientific name");
inline constexpr auto kWriteGenusAndSpecies = MessageText("write_genus_and_species", "write genus and species, as in --species \"Genus species\"");
inline constexpr auto kPondWithoutSite = MessageText("pond_without_site", "it is named without its site");
inline constexpr auto kIsNoDateToShare = MessageText("is_no_date_to_share", "{date} is not a date");
inline constexpr auto kNoNightToShare = MessageText("no_night_to_share", "it has no night of what was asked for");
inline constexpr auto kSeeWhatThereIs = MessageText("see_what_there_is", "'evet individuals' and 'evet histories' show what it has");

// darwin_core.cpp
inline constexpr auto kSharedNightOf = MessageText("shared_night_of", "night of {night}");
inline constexpr auto kPositionGeneralised = MessageText("position_generalised", "Position replaced by the middle of the cell of 0.1 degree in which it lies (Chapman 2020, https://doi.org/10.15468/doc-5jp4-5g10)");
inline constexpr auto kSharedWithheld = MessageText("shared_withheld", "Exact position, names of site and pond, observers, licences and notes: protected species");
inline constexpr auto kSharedTitleOf = MessageText("shared_title_of", "Captures of individually known {species}");
inline constexpr auto kSharedAboutExact = MessageText("shared_about_exact", "Animals were told apart by the patterns of their bellies with {program}; positions are exact: not for publication.");
inline constexpr auto kSharedAbout = MessageText("shared_about", "Animals were told apart by the patterns of their bellies with {program}; places are generalised.");
inline constexpr auto kKeeperOfTheCatalogue = MessageText("keeper_of_the_catalogue", "The keeper of the catalogue");
inline constexpr auto kNoRightsGiven = MessageText("no_rights_given", "None given: ask whoever shared this.");

// data_package.cpp
inline constexpr auto kColumnEvent = MessageText("column_event", "Code of the night at its place");
inline constexpr auto kColumnPlace = MessageText("column_place", "Code of the site and pond: the same place has the same code in this package");
inline constexpr auto kColumnNight = MessageText("column_night", "Date on which the night began");
inline constexpr auto kColumnCaptures = MessageText("column_captures", "Animals in hand; 0: worked, and nothing was caught");
inline constexpr auto kColumnNotSettled = MessageText("column_not_settled", "Of these, without an identity yet: the night is no complete one while any is left");
inline constexpr auto kColumnMethod = MessageText("column_method", "Method of capture");
inline constexpr auto kColumnEffort = MessageText("column_effort", "How much of it");
inline constexpr auto kColumnEffortUnit = MessageText("column_effort_unit", "What effort counts");
inline constexpr auto kColumnWeather = MessageText("column_weather", "In words");
inline constexpr auto kColumnAirC = MessageText("column_air_c", "Degrees Celsius");
inline constexpr auto kColumnLatitude = MessageText("column_latitude", "Degrees, WGS 84; below 0 south of the equator");
inline constexpr auto kColumnLongitude = MessageText("column_longitude", "Degrees, WGS 84; below 0 west of Greenwich");
inline constexpr auto kColumnUncertaintyM = MessageText("column_uncertainty_m", "Radius in metres round the position in which the place lies; empty: as recorded");
inline constexpr auto kColumnCapture = MessageText("column_capture", "Identifier of the capture, a UUID");
inline constexpr auto kColumnIndividual = MessageText("column_individual", "Identifier of the animal, a UUID; empty: not settled, or in dispute");
inline constexpr auto kColumnSex = MessageText("column_sex", "female or male");
inline constexpr auto kColumnStage = MessageText("column_stage", "adult, subadult, juvenile or metamorph");
inline constexpr auto kColumnSvlMm = MessageText("column_svl_mm", "Snout-vent length");
inline constexpr auto kColumnTotalMm = MessageText("column_total_mm", "Snout to tail tip");
inline constexpr auto kColumnMassG = MessageText("column_mass_g", "Mass");
inline constexpr auto kColumnReleased = MessageText("column_released", "Whether it was let go again");
inline constexpr auto kSharedHistories = MessageText("shared_histories", "Who was caught when: a row an animal, a column a night; rows that begin with # describe the nights. 'evet estimate --csv' reads it.");
inline constexpr auto kSharedTitle = MessageText("shared_title", "Captures of individually known newts");
inline constexpr auto kSharedWhatExact = MessageText("shared_what_exact", "Captures of {species}, identified by their belly patterns. Positions are exact: not for publication.");
inline constexpr auto kSharedWhat = MessageText("shared_what", "Captures of {species}, identified by their belly patterns. Places are told by the cell of 0.1 degree in which they lie, and have no names.");

// zip_files.cpp
inline constexpr auto kTheArchive = MessageText("the_archive", "the archive");
inline constexpr auto kArchiveCannotBeReadBack = MessageText("archive_cannot_be_read_back", "it cannot be read back");

// clang-format on
}  // namespace evet::messages
