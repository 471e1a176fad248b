// What tables and words that a person wrote are told to be wrong with.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kAtLine = MessageText("at_line", "line {line}");  // of a sheet


// Names of captures.
inline constexpr auto kSeveralOfThatName = MessageText("several_of_that_name", "there are {n} of that name");
inline constexpr auto kSayWhich = MessageText("say_which", "say which: {captures}");
inline constexpr auto kNoneOfThatName = MessageText("none_of_that_name", "there is none of that name");
inline constexpr auto kDidYouMeanCapture = MessageText("did_you_mean_capture", "did you mean {capture}?");
inline constexpr auto kHowToNameCapture = MessageText("how_to_name_capture", "name it as on the sheet, as NIGHT/NAME, or by one of its photos");

// What errors cost, in words.
inline constexpr auto kHowToSayCosts = MessageText("how_to_say_costs", "say it like \"a wrong join is ten times worse than a missed one, a look costs 1/20\"");
inline constexpr auto kCostsHelp = MessageText("costs_help", "What errors cost, in words: \"a wrong join is ten times worse than a missed one, a look costs 1/20\"");
inline constexpr auto kSaysNothing = MessageText("says_nothing", "it says nothing");
inline constexpr auto kJoinOrLook = MessageText("join_or_look", "it must speak of a 'wrong join' or of a 'look'");
inline constexpr auto kTwoAmounts = MessageText("two_amounts", "it has two amounts");
inline constexpr auto kNoAmount = MessageText("no_amount", "it has no amount");
inline constexpr auto kJoinMustCost = MessageText("join_must_cost", "a wrong join must cost something");
inline constexpr auto kCostBelowNothing = MessageText("cost_below_nothing", "a cost cannot be below nothing");

// Cautions about the identities that histories are made of.
inline constexpr auto kOpenCaptures = MessageText("open_captures", "{n} capture is not settled and left out; settle it with 'evet rank --accept' and 'evet verdict'", "{n} captures are not settled and left out; settle them with 'evet rank --accept' and 'evet verdict'");
inline constexpr auto kUnmatchableCaptures = MessageText("unmatchable_captures", "{n} capture is left out because no photo of it can be matched; only a person who knows the animal can settle it, with 'evet verdict'", "{n} captures are left out because no photo of them can be matched; only a person who knows the animal can settle them, with 'evet verdict'");
inline constexpr auto kContestedCaptures = MessageText("contested_captures", "{n} capture is in dispute and left out: verdicts about it contradict each other; settle that on the page of 'evet review'", "{n} captures are in dispute and left out: verdicts about them contradict each other; settle that on the page of 'evet review'");
inline constexpr auto kDoubtfulCaptures = MessageText("doubtful_captures", "{n} capture is in dispute: verdicts about it contradict each other; settle that on the page of 'evet review'", "{n} captures are in dispute: verdicts about them contradict each other; settle that on the page of 'evet review'");
inline constexpr auto kOpenNight = MessageText("open_night", "the night of {night} is not settled: it is no night without a catch, and figures stop before it unless who was caught is drawn");
inline constexpr auto kPlacedByProgram = MessageText("placed_by_program", "{n} capture was placed by the program alone; no person has looked", "{n} captures were placed by the program alone; no person has looked");
inline constexpr auto kSeenAfterLoss = MessageText("seen_after_loss", "{n} animal noted as not released was caught later: not counted as lost", "{n} animals noted as not released were caught later: not counted as lost");

// One picture of which the sheets do not agree.
inline constexpr auto kPictureQuestion = MessageText("picture_question", "Capture {name} of {night} at {place}: the same picture was taken in elsewhere{differences}. It counts once, as the first says: mend the sheet that is wrong and take the right one in with --move.");
inline constexpr auto kAsOfNight = MessageText("as_of_night", ", as of {night}");
inline constexpr auto kAtPlace = MessageText("at_place", ", at {place}");
inline constexpr auto kAsIndividual = MessageText("as_individual", ", as individual {individual} and not {other}");

// Why a person should look at a capture.
inline constexpr auto kByOn = MessageText("by_on", "{reader} on {date}");
inline constexpr auto kReadersContradict = MessageText("readers_contradict", "readers contradict each other");
inline constexpr auto kCouldNotBeTold = MessageText("could_not_be_told", "could not be told from {other} by {by}");
inline constexpr auto kLooksLikeAsWell = MessageText("looks_like_as_well", "{capture} looks like {individual} as well, and is another animal by {by}");
inline constexpr auto kSaidToBeDifferent = MessageText("said_to_be_different", "not {other}: said to be different by {by}");
inline constexpr auto kTwoClose = MessageText("two_close", "two candidates close: {first} {p_first}, {second} {p_second}");
inline constexpr auto kLikely = MessageText("likely", "likely {individual}: {p}");
inline constexpr auto kLikelyButOnly = MessageText("likely_but_only", "likely {individual}, but only {p}");
inline constexpr auto kPerhapsNew = MessageText("perhaps_new", "perhaps new: {p}");
inline constexpr auto kHelpsWithOthers = MessageText("helps_with_others", "the answer also helps with other captures of the night");
inline constexpr auto kMayBeOneNewAnimal = MessageText("may_be_one_new_animal", "may be one new animal with {capture} of this night: {p}; settle one, and the other is compared with it");
inline constexpr auto kNoNumberAndNoRange = MessageText("no_number_and_no_range", "{text} is no number and no range of numbers");
inline constexpr auto kNoNumbersListed = MessageText("no_numbers_listed", "it is empty");
inline constexpr auto kWriteNumbersListed = MessageText("write_numbers_listed", "write it as 3-8 or as 3,5,8");
inline constexpr auto kNoFieldOfNight = MessageText("no_field_of_night", "it is nothing that is written down of a night");
inline constexpr auto kOtherHalfMissing = MessageText("other_half_missing", "it is missing");
inline constexpr auto kGiveBothOrNeither = MessageText("give_both_or_neither", "give both, or neither");
inline constexpr auto kIsNotNumberOfField = MessageText("is_not_number_of_field", "{text} is not a number");
inline constexpr auto kWriteAsIn = MessageText("write_as_in", "write it as in {example}");
inline constexpr auto kNewSiteNearKnown = MessageText("new_site_near_known", "site {written} is new here, and spelt nearly as {known}");
inline constexpr auto kNewPondNearKnown = MessageText("new_pond_near_known", "pond {written} of {site} is new here, and spelt nearly as {known}");

// The code of the language that a translation is in, as HTML and XML have it: "de".
inline constexpr auto kLanguageOfThePage = MessageText("language_of_the_page", "en");

// Counts.
inline constexpr auto kPhotos = MessageText("photos", "{n} photo", "{n} photos");
inline constexpr auto kCaptures = MessageText("captures", "{n} capture", "{n} captures");
inline constexpr auto kIndividuals = MessageText("individuals", "{n} individual", "{n} individuals");
inline constexpr auto kTimes = MessageText("times", "{n} time", "{n} times");

// animal_words.cpp
inline constexpr auto kFemale = MessageText("female", "female");
inline constexpr auto kMale = MessageText("male", "male");
inline constexpr auto kAdult = MessageText("adult", "adult");
inline constexpr auto kSubadult = MessageText("subadult", "subadult");
inline constexpr auto kJuvenile = MessageText("juvenile", "juvenile");
inline constexpr auto kMetamorph = MessageText("metamorph", "metamorph");

// coarse_place.cpp
inline constexpr auto kDegreesSouth = MessageText("degrees_south", "{degrees}\u00b0 S");
inline constexpr auto kDegreesNorth = MessageText("degrees_north", "{degrees}\u00b0 N");
inline constexpr auto kDegreesWest = MessageText("degrees_west", "{degrees}\u00b0 W");
inline constexpr auto kDegreesEast = MessageText("degrees_east", "{degrees}\u00b0 E");
inline constexpr auto kWithinTheCell = MessageText("within_the_cell", "within the cell of {degrees}\u00b0 round {middle} (about {high} km by {wide} km)");

// costs_words.cpp
inline constexpr auto kCostsAre = MessageText("costs_are", "A wrong join is {times} times as bad as a missed one; a look costs {look} of a missed join.");

// night_fields.cpp
inline constexpr auto kFieldMethod = MessageText("field_method", "Method of capture");
inline constexpr auto kFieldMethodHint = MessageText("field_method_hint", "bottle traps set at dusk, torch and net");
inline constexpr auto kFieldEffort = MessageText("field_effort", "Effort");
inline constexpr auto kFieldEffortHint = MessageText("field_effort_hint", "how much, as a number: 12");
inline constexpr auto kFieldEffortUnit = MessageText("field_effort_unit", "Effort in");
inline constexpr auto kFieldEffortUnitHint = MessageText("field_effort_unit_hint", "trap nights, hours of torching");
inline constexpr auto kFieldWeather = MessageText("field_weather", "Weather");
inline constexpr auto kFieldWeatherHint = MessageText("field_weather_hint", "overcast, calm, dry");
inline constexpr auto kFieldAir = MessageText("field_air", "Air, \u00b0C");
inline constexpr auto kFieldAirHint = MessageText("field_air_hint", "8.5");
inline constexpr auto kFieldWater = MessageText("field_water", "Water, \u00b0C");
inline constexpr auto kFieldWaterHint = MessageText("field_water_hint", "11");
inline constexpr auto kFieldObservers = MessageText("field_observers", "Observers");
inline constexpr auto kFieldObserversHint = MessageText("field_observers_hint", "codes, where no capture names them");
inline constexpr auto kFieldLicence = MessageText("field_licence", "Licence number");
inline constexpr auto kFieldLicenceHint = MessageText("field_licence_hint", "where no capture names it");
inline constexpr auto kFieldHolder = MessageText("field_holder", "Licence holder");
inline constexpr auto kFieldHolderHint = MessageText("field_holder_hint", "who holds the licence");
inline constexpr auto kFieldPlace = MessageText("field_place", "Place that may be published");
inline constexpr auto kFieldPlaceHint = MessageText("field_place_hint", "a parish, a map square of 10 km");
inline constexpr auto kFieldLatitude = MessageText("field_latitude", "Latitude");
inline constexpr auto kFieldLatitudeHint = MessageText("field_latitude_hint", "degrees north: 52.125");
inline constexpr auto kFieldLongitude = MessageText("field_longitude", "Longitude");
inline constexpr auto kFieldLongitudeHint = MessageText("field_longitude_hint", "degrees east: -1.5");
inline constexpr auto kFieldNotes = MessageText("field_notes", "Notes");
inline constexpr auto kFieldNotesHint = MessageText("field_notes_hint", "anything the authority should know");

// text.cpp
inline constexpr auto kAndTheLast = MessageText("and_the_last", "{some} and {last}");
inline constexpr auto kMoreThanShare = MessageText("more_than_share", "more than {share}");
inline constexpr auto kLessThanShare = MessageText("less_than_share", "less than {share}");

// items.cpp
inline constexpr auto kCaptureItem = MessageText("capture_item", "capture {name}");
inline constexpr auto kPhotoItem = MessageText("photo_item", "photo {name}");
inline constexpr auto kNightItem = MessageText("night_item", "night {night}");

// items.cpp
inline constexpr auto kCatalogueItem = MessageText("catalogue_item", "catalogue {name}");
inline constexpr auto kEntryItem = MessageText("entry_item", "entry {id}");
inline constexpr auto kIndividualItem = MessageText("individual_item", "individual {name}");
inline constexpr auto kLabelItem = MessageText("label_item", "label {label}");
inline constexpr auto kReaderItem = MessageText("reader_item", "reader {code}");

// clang-format on
}  // namespace evet::messages
