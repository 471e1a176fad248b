// What the page refuses.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kSettlesNothing = MessageText("settles_nothing", "it settles nothing");
inline constexpr auto kSaySameDifferentOrCannot = MessageText("say_same_different_or_cannot", "say same, different or cannot_tell");
inline constexpr auto kIsEmpty = MessageText("is_empty", "it is empty");
inline constexpr auto kSayWhatDecided = MessageText("say_what_decided", "say what decided it");
inline constexpr auto kIsNotListOfEntries = MessageText("is_not_list_of_entries", "it is not a list of entries");
inline constexpr auto kIsOneOfThoseWho = MessageText("is_one_of_those_who", "is one of those who disagree");
inline constexpr auto kLetReaderDecideWhoGave = MessageText("let_reader_decide_who_gave", "let a reader decide who gave none of these verdicts");
inline constexpr auto kHasBeenSettledOrHas = MessageText("has_been_settled_or_has", "it has been settled or has changed since");
inline constexpr auto kLookAtDisputesAgain = MessageText("look_at_disputes_again", "look at the disputes again");
inline constexpr auto kIsNeitherTrueNorFalse = MessageText("is_neither_true_nor_false", "it is neither true nor false");
inline constexpr auto kIsNotMidline = MessageText("is_not_midline", "it is not a midline");
inline constexpr auto kPointIsNotTwoNumbers = MessageText("point_is_not_two_numbers", "a point is not two numbers");
inline constexpr auto kNoBellyWasFoundIn = MessageText("no_belly_was_found_in", "no belly was found in it");
inline constexpr auto kDrawMidlineOn = MessageText("draw_midline_on", "draw the midline on it");
inline constexpr auto kThereIsNoBellyIn = MessageText("there_is_no_belly_in", "there is no belly in it to match");
inline constexpr auto kIsNone = MessageText("is_none", "it is none");
inline constexpr auto kSaySameDifferentCannotTell = MessageText("say_same_different_cannot_tell", "say same, different, cannot_tell or new");
inline constexpr auto kPeopleHaveSpokenOfSince = MessageText("people_have_spoken_of_since", "people have spoken of it since the program ranked it");
inline constexpr auto kLookAtNightAgainAnd = MessageText("look_at_night_again_and", "look at the night again and accept then");
inline constexpr auto kCannotBeHeldAgainstItself = MessageText("cannot_be_held_against_itself", "it cannot be held against itself");
inline constexpr auto kClosesNothing = MessageText("closes_nothing", "{as} closes nothing");
inline constexpr auto kSayNoAnimalNotIdentifiable = MessageText("say_no_animal_not_identifiable", "say no_animal, not_identifiable or same_capture");
inline constexpr auto kCannotBeSameAsItself = MessageText("cannot_be_same_as_itself", "it cannot be the same as itself");
inline constexpr auto kIsNotListOfCaptures = MessageText("is_not_list_of_captures", "it is not a list of captures");
inline constexpr auto kName1 = MessageText("name_1", "name 1 to {most_accepted}");
inline constexpr auto kHasBeenMadeAgainSince = MessageText("has_been_made_again_since", "it has been made again since the page showed it");
inline constexpr auto kProgramIsNotSureOf = MessageText("program_is_not_sure_of", "the program is not sure of it");
inline constexpr auto kLookAtYourself = MessageText("look_at_yourself", "look at it yourself");
inline constexpr auto kIsNotInLedgerReview = MessageText("is_not_in_ledger_review", "it is not in the ledger");
inline constexpr auto kIsNotUndoneHere = MessageText("is_not_undone_here", "a {kind} is not undone here");
inline constexpr auto kCorrectSheetAndTakeIn = MessageText("correct_sheet_and_take_in", "correct the sheet and take it in again");
inline constexpr auto kIsWhatSaid = MessageText("is_what_said", "it is what {actor} said");
inline constexpr auto kGiveYourOwnVerdictBeside = MessageText("give_your_own_verdict_beside", "give your own verdict beside it");
inline constexpr auto kWriteXYXY = MessageText("write_x_y_x_y", "write x,y;x,y");
inline constexpr auto kDrawMidlineOnPhoto = MessageText("draw_midline_on_photo", "draw the midline on the photo");
inline constexpr auto kIsNotDateReview = MessageText("is_not_date_review", "it is not a date");
inline constexpr auto kWriteAs0501 = MessageText("write_as_05_01", "write it as 2024-05-01");
inline constexpr auto kIsNotIdentifier = MessageText("is_not_identifier", "it is not an identifier");
inline constexpr auto kIsNotPositionInLedger = MessageText("is_not_position_in_ledger", "it is not a position in the ledger");
inline constexpr auto kIsNotCapturesIdentifier = MessageText("is_not_captures_identifier", "{text} is not a capture's identifier");
inline constexpr auto kIsNotPhotosIdentifier = MessageText("is_not_photos_identifier", "that is not a photo's identifier");
inline constexpr auto kIsTooLargeForPage = MessageText("is_too_large_for_page", "it is larger than the page takes");
inline constexpr auto kCouldNotBeLookedAt = MessageText("could_not_be_looked_at", "the program could not look at it");
inline constexpr auto kTakeItInByCommand = MessageText("take_it_in_by_command", "take it in with the command evet intake");
inline constexpr auto kSayWhyAllTheSame = MessageText("say_why_all_the_same", "mend it, or say why it is right all the same");
inline constexpr auto kNoCatalogueIsOpen = MessageText("no_catalogue_is_open", "no catalogue is open");
inline constexpr auto kOpenOneFirst = MessageText("open_one_first", "open one first");
inline constexpr auto kBrowserWroteAsReader = MessageText("browser_wrote_as_reader", "this browser has written as reader {reader}");
inline constexpr auto kReadOnUnderThatCode = MessageText("read_on_under_that_code", "read on under that code; for another, open the page in another browser or a private window");
inline constexpr auto kCodeIsReadUnderElsewhere = MessageText("code_is_read_under_elsewhere", "somebody reads under that code in another browser");
inline constexpr auto kSignWithYourOwnCode = MessageText("sign_with_your_own_code", "sign with another code");
inline constexpr auto kIsNoPlaceAndNight = MessageText("is_no_place_and_night", "it does not say a site, a pond and a night");
inline constexpr auto kSayWhatWasWrong = MessageText("say_what_was_wrong", "say what was wrong");
inline constexpr auto kNameTheSite = MessageText("name_the_site", "name the site");
inline constexpr auto kIsNoNumber = MessageText("is_no_number", "{text} is no number");
inline constexpr auto kMoreRowsThan = MessageText("more_rows_than", "it has more than {n} rows");
inline constexpr auto kAskForFewerNightsOrTraps = MessageText("ask_for_fewer_nights_or_traps", "ask for fewer numbers of nights or of traps");
inline constexpr auto kCodeWaitsForYes = MessageText("code_waits_for_yes", "another browser has read under that code");
inline constexpr auto kAskAtTheMachineOrSignOtherwise = MessageText("ask_at_the_machine_or_sign_otherwise", "if it is yours, let who sits at the machine say yes on the page there; or sign with another code");
inline constexpr auto kSentAway = MessageText("sent_away", "who sits at the machine has said that this browser is not theirs");
inline constexpr auto kAskAtTheMachine = MessageText("ask_at_the_machine", "ask there, or sign with another code");
inline constexpr auto kIsNoGuest = MessageText("is_no_guest", "no browser has that number, or it is gone");
inline constexpr auto kSeatAnswersGuests = MessageText("seat_answers_guests", "only who sits at the machine says who may read here");
inline constexpr auto kIsNotGuestNumber = MessageText("is_not_guest_number", "it is not the number of a guest");
inline constexpr auto kIsNotListOfPhotos = MessageText("is_not_list_of_photos", "it is not a list of photos");
inline constexpr auto kIsNotNumber = MessageText("is_not_number", "it is not a number");
inline constexpr auto kIsNotSentAsPage = MessageText("is_not_sent_as_page", "it is not sent as this page sends one");
inline constexpr auto kIsNotListOfCells = MessageText("is_not_list_of_cells", "it is not a list of cells");
inline constexpr auto kIsNotNumberOfSeconds = MessageText("is_not_number_of_seconds", "it is not a number of seconds");
inline constexpr auto kMayHaveBeenJoinedAnother = MessageText("may_have_been_joined_another", "it may have been joined to another since: look for it by name");
inline constexpr auto kIsNotObject = MessageText("is_not_object", "it is not an object");
inline constexpr auto kTheyAreOutOfRange = MessageText("they_are_out_of_range", "they are out of range");
inline constexpr auto kWrongJoinCostsMoreThan = MessageText("wrong_join_costs_more_than", "a wrong join costs more than 0 missed joins, a look 0 or more");
inline constexpr auto kIsNoIdentifier = MessageText("is_no_identifier", "{text} is not an identifier");
inline constexpr auto kIsNotCapturesIdentifierReview = MessageText("is_not_captures_identifier_review", "that is not a capture's identifier");
inline constexpr auto kIsNotText = MessageText("is_not_text", "it is not text");
inline constexpr auto kIsLongerThanBytes = MessageText("is_longer_than_bytes", "it is longer than {at_most} bytes");
inline constexpr auto kHoldsControlCharacters = MessageText("holds_control_characters", "it holds control characters");
inline constexpr auto kIsNotPhotosIdentifierReview = MessageText("is_not_photos_identifier_review", "it is not a photo's identifier");
inline constexpr auto kIsNotListOfCodes = MessageText("is_not_list_of_codes", "it is not a list of codes");
inline constexpr auto kIsNotObserverCode = MessageText("is_not_observer_code", "it is not an observer code");
inline constexpr auto kSignPlainly = MessageText("sign_plainly", "sign with 1 to 40 plain letters, digits, spaces or signs");
inline constexpr auto kIsBeingTakenIn = MessageText("is_being_taken_in", "it is being taken in");
inline constexpr auto kWaitUntilIsDone = MessageText("wait_until_is_done", "wait until that is done");
inline constexpr auto kHasNoPhotoYet = MessageText("has_no_photo_yet", "it has no photo yet");
inline constexpr auto kDropPhotosOrSayNothing = MessageText("drop_photos_or_say_nothing", "drop the photos, or say that nothing was caught");
inline constexpr auto kMustBeMendedFirst = MessageText("must_be_mended_first", "{faults} must be mended first");
inline constexpr auto kPageMakesNone = MessageText("page_makes_none", "this page makes none");
inline constexpr auto kMakeWithEvetNew = MessageText("make_with_evet_new", "make it with evet new");
inline constexpr auto kMachineKnowsOfNoneSuch = MessageText("machine_knows_of_none_such", "this machine knows of none such");
inline constexpr auto kLookAtListAgain = MessageText("look_at_list_again", "look at the list again");
inline constexpr auto kThereIsNoSuchPort = MessageText("there_is_no_such_port", "there is no such port");
inline constexpr auto kNameFreePort = MessageText("name_free_port", "name one from 1024 to 65535, or 0 for any that is free");
inline constexpr auto kDoesNotLieBetween0 = MessageText("does_not_lie_between_0", "it does not lie between 0 and 1");
inline constexpr auto kAtLeastOneIsNeeded = MessageText("at_least_one_is_needed", "at least one is needed");
inline constexpr auto kBodyIsNotJsonObject = MessageText("body_is_not_json_object", "its body is not a JSON object");
inline constexpr auto kAnotherCatalogueWasOpenedIn = MessageText("another_catalogue_was_opened_in", "another catalogue was opened in another window");
inline constexpr auto kReloadWindowGoOnWith = MessageText("reload_window_go_on_with", "reload this window to go on with that one");
inline constexpr auto kOtherMachinesCouldOpenPage = MessageText("other_machines_could_open_page", "other machines could open the page, and no passphrase keeps them out");
inline constexpr auto kGivePassphraseFileWithAt = MessageText("give_passphrase_file_with_at", "give --passphrase-file with at least 8 characters, or leave --listen out");
inline constexpr auto kCannotBeListenedOn = MessageText("cannot_be_listened_on", "it cannot be listened on");
inline constexpr auto kNameAddressOfMachine = MessageText("name_address_of_machine", "name an address of this machine");
inline constexpr auto kPortIsTaken = MessageText("port_is_taken", "it cannot be listened on: it is taken, or not for you to use");
inline constexpr auto kNameAnotherPortOrNone = MessageText("name_another_port_or_none", "name another port, or none for any that is free");
inline constexpr auto kIsNotKnown = MessageText("is_not_known", "it is not known");
inline constexpr auto kAskForFemaleMaleOr = MessageText("ask_for_female_male_or", "ask for female, male or unknown");
inline constexpr auto kLookForByNameAmong = MessageText("look_for_by_name_among", "look for it by name among the individuals");
inline constexpr auto kNobodyIsCalledSo = MessageText("nobody_is_called_so", "nobody is called so");
inline constexpr auto kSayAuthorityOrEverybody = MessageText("say_authority_or_everybody", "say authority or everybody");
inline constexpr auto kNamesExactPlacesAndIs = MessageText("names_exact_places_and_is", "it names exact places and is shown on the machine that keeps the catalogue alone");
inline constexpr auto kPhotoIsEmpty = MessageText("photo_is_empty", "the file is empty");
inline constexpr auto kPhotoIsLarger = MessageText("photo_is_larger", "it is larger than {megabytes} MB");
inline constexpr auto kWasItCopiedWhole = MessageText("was_it_copied_whole", "was it copied whole?");
inline constexpr auto kTakeInByCommand = MessageText("take_in_by_command", "take it in with the command evet intake");

// adjudicate.cpp
inline constexpr auto kTheReason = MessageText("the_reason", "the reason");
inline constexpr auto kTheDispute = MessageText("the_dispute", "the dispute");

// evening_acts.cpp
inline constexpr auto kFieldOfPhoto = MessageText("field_of_photo", "'{field}' of the photo");

// move_night.cpp
inline constexpr auto kTheSite = MessageText("the_site", "the site");

// photo_acts.cpp
inline constexpr auto kMidlineWanted = MessageText("midline_wanted", "draw 2 to 64 points, throat fold first, vent last");

// verdict_acts.cpp
inline constexpr auto kAnswerItem = MessageText("answer_item", "answer {answer}");
inline constexpr auto kTheRanking = MessageText("the_ranking", "the ranking");

// capture_words.cpp
inline constexpr auto kCaptureWithoutAName = MessageText("capture_without_a_name", "capture without a name");
inline constexpr auto kAnsweredSame = MessageText("answered_same", "same");
inline constexpr auto kAnsweredDifferent = MessageText("answered_different", "different");
inline constexpr auto kAnsweredNew = MessageText("answered_new", "new");
inline constexpr auto kAnsweredCannotTell = MessageText("answered_cannot_tell", "cannot tell");

// evening.cpp
inline constexpr auto kCouldNotLookAtPhoto = MessageText("could_not_look_at_photo", "the program could not look at this photo");
inline constexpr auto kCells = MessageText("cells", "{n} cell", "{n} cells");
inline constexpr auto kProgramWasEnded = MessageText("program_was_ended", "The program was ended; take the night in again and it carries on.");
inline constexpr auto kProgramFailedAtNight = MessageText("program_failed_at_night", "The program failed at this; what was taken in stays, and taking the night in again carries on.");

// guard.cpp
inline constexpr auto kThePageOpens = MessageText("the_page_opens", "The page opens.");
inline constexpr auto kTooManyWrongPassphrases = MessageText("too_many_wrong_passphrases", "Too many wrong passphrases: wait half a minute.");
inline constexpr auto kNotThePassphrase = MessageText("not_the_passphrase", "That is not the passphrase.");
inline constexpr auto kBrowserNotKnown = MessageText("browser_not_known", "This browser is not known to the program: open the address that 'evet review' printed when it was started.");
inline constexpr auto kRequestSaysHowLong = MessageText("request_says_how_long", "A request of this page says how long it is.");
inline constexpr auto kRequestIsNotPacked = MessageText("request_is_not_packed", "A request of this page is not packed.");
inline constexpr auto kPageTakesNoFiles = MessageText("page_takes_no_files", "This page takes no files.");
inline constexpr auto kAddressNotServed = MessageText("address_not_served", "This address is not served here: open the address that 'evet review' printed.");
inline constexpr auto kOnlyTheseMethods = MessageText("only_these_methods", "Only GET, HEAD and POST are served.");
inline constexpr auto kNoAddressOfPage = MessageText("no_address_of_page", "The address is not one of this page's.");
inline constexpr auto kRequestTooLarge = MessageText("request_too_large", "The request is larger than anything this page sends.");
inline constexpr auto kAnotherSiteAsked = MessageText("another_site_asked", "Another site asked for this; only the page itself may.");
inline constexpr auto kRequestNotOfPage = MessageText("request_not_of_page", "The request does not come from this page.");
inline constexpr auto kWriteIsJson = MessageText("write_is_json", "A write is JSON.");
inline constexpr auto kPageIsOlder = MessageText("page_is_older", "The page is older than the program that serves it: reload it.");

// house.cpp
inline constexpr auto kANewCatalogue = MessageText("a_new_catalogue", "a new catalogue");
inline constexpr auto kItCannotBeOpened = MessageText("it_cannot_be_opened", "It cannot be opened.");

// page.cpp
inline constexpr auto kPortItem = MessageText("port_item", "port {port}");
inline constexpr auto kShareOfSecondReadings = MessageText("share_of_second_readings", "share of second readings");
inline constexpr auto kThreadsItem = MessageText("threads_item", "threads");
inline constexpr auto kProgramFailedAtThis = MessageText("program_failed_at_this", "The program failed at this; nothing that was saved is lost.");
inline constexpr auto kTheGuests = MessageText("the_guests", "the guests");
inline constexpr auto kTheRequest = MessageText("the_request", "the request");
inline constexpr auto kOnlySeatOpensWindows = MessageText("only_seat_opens_windows", "Only who sits at the machine opens another window there.");
inline constexpr auto kNothingAtThisAddress = MessageText("nothing_at_this_address", "There is nothing at this address of the page.");
inline constexpr auto kThePage = MessageText("the_page", "the page");

// pictures.cpp
inline constexpr auto kStripOfPhoto = MessageText("strip_of_photo", "strip of photo {photo}");

// serve.cpp
inline constexpr auto kPageIsServedAlready = MessageText("page_is_served_already", "The page is served already on this machine; this address opens one more window of it.");
inline constexpr auto kWarningOfNetwork = MessageText("warning_of_network", "Warning: whoever is on this network and knows the passphrase can read and write this catalogue, and what is sent can be read on the way. Use a network of your own, and stop the program afterwards.");
inline constexpr auto kOpenThisAddress = MessageText("open_this_address", "Open this address in a browser; Ctrl-C ends the page.");

// server.cpp
inline constexpr auto kRequestNotOneOfPage = MessageText("request_not_one_of_page", "The request is not one of this page's.");

// disputes_view.cpp
inline constexpr auto kEntryCannotBeRead = MessageText("entry_cannot_be_read", "Entry {entry} cannot be read and says nothing: {why}.");

// hello_view.cpp
inline constexpr auto kFootLicence = MessageText("foot_licence", "The licence and local rules come first: photographing protected species is for licensed handlers only.");
inline constexpr auto kFootTimeInHand = MessageText("foot_time_in_hand", "Shortest time in hand, wet hands or clean gloves, shade.");
inline constexpr auto kFootDisinfect = MessageText("foot_disinfect", "Disinfect kit between ponds: amphibian disease travels on it.");
inline constexpr auto kFootNotAlone = MessageText("foot_not_alone", "Nobody works beside water alone at night.");
inline constexpr auto kFootPlaces = MessageText("foot_places", "Exact places of protected species are not passed on.");
inline constexpr auto kFootWhoDecides = MessageText("foot_who_decides", "The program gives evidence; the licensed person decides.");

// ledger_view.cpp
inline constexpr auto kIndividualOfThen = MessageText("individual_of_then", "an individual of then");
inline constexpr auto kEntryIsNoVerdict = MessageText("entry_is_no_verdict", "an entry that is not a verdict");
inline constexpr auto kVerdictOfOne = MessageText("verdict_of_one", "{who} on {date}: {capture}, {answer}");
inline constexpr auto kVerdictOfTwo = MessageText("verdict_of_two", "{who} on {date}: {capture} and {other}, {answer}");

// night_view.cpp
inline constexpr auto kNotRankedYet = MessageText("not_ranked_yet", "not ranked yet");

// plan_view.cpp
inline constexpr auto kThePlan = MessageText("the_plan", "the plan");
inline constexpr auto kTheCatalogue = MessageText("the_catalogue", "the catalogue");

// population_view.cpp
inline constexpr auto kNothingCaughtYet = MessageText("nothing_caught_yet", "Nothing has been caught yet.");
inline constexpr auto kTheHistories = MessageText("the_histories", "the histories");

// queue_words.cpp
inline constexpr auto kIndividualJoinedSince = MessageText("individual_joined_since", "an individual joined since");
inline constexpr auto kProgramIsSureOf = MessageText("program_is_sure_of", "the program is sure: {individual}");
inline constexpr auto kNobodyToCompareItWith = MessageText("nobody_to_compare_it_with", "nobody to compare it with: new");
inline constexpr auto kProgramIsSureNew = MessageText("program_is_sure_new", "the program is sure: new");
inline constexpr auto kAnotherCapture = MessageText("another_capture", "another capture");
inline constexpr auto kByThePatternOne = MessageText("by_the_pattern_one", "by the pattern {individual}, {p}; but something speaks against it, which is said when you answer");
inline constexpr auto kByThePatternNew = MessageText("by_the_pattern_new", "by the pattern new, {p}; but something speaks against it, which is said when you answer");
inline constexpr auto kMetamorphStillForms = MessageText("metamorph_still_forms", "the pattern of a metamorph still forms");
inline constexpr auto kPhotosNotUsable = MessageText("photos_not_usable", "{n} photo not usable", "{n} photos not usable");

// report_view.cpp
inline constexpr auto kAuthoritysVersion = MessageText("authoritys_version", "the authority's version");

// steps_back.cpp
inline constexpr auto kACapture = MessageText("a_capture", "a capture");
inline constexpr auto kStepAnswered = MessageText("step_answered", "{capture}: {answer}");
inline constexpr auto kStepAnsweredOfTwo = MessageText("step_answered_of_two", "{capture} and {other}: {answer}");
inline constexpr auto kStepClosed = MessageText("step_closed", "{capture} closed: {as}");
inline constexpr auto kStepUsable = MessageText("step_usable", "{capture}: photo usable");
inline constexpr auto kStepNotUsable = MessageText("step_not_usable", "{capture}: photo not usable");
inline constexpr auto kStepTurned = MessageText("step_turned", "a strip turned");
inline constexpr auto kStepSetAside = MessageText("step_set_aside", "a photo set aside or taken in");
inline constexpr auto kStepMidline = MessageText("step_midline", "a midline drawn");
inline constexpr auto kStepOther = MessageText("step_other", "an entry");

// strip_along.cpp
inline constexpr auto kThePhoto = MessageText("the_photo", "the photo");

// name_acts.cpp
inline constexpr auto kNotesEdited = MessageText("notes_edited", "notes edited");

// photo_acts.cpp
inline constexpr auto kTurnedBy = MessageText("turned_by", "turned end for end by {reader}");
inline constexpr auto kSetAsideBy = MessageText("set_aside_by", "set aside by {reader}");
inline constexpr auto kSetAsideByFor = MessageText("set_aside_by_for", "set aside by {reader}: {reason}");

// verdict_acts.cpp
inline constexpr auto kAcceptedOnPage = MessageText("accepted_on_page", "accepted on the review page by {reader}");

// reader_sessions.cpp
inline constexpr auto kGuestItem = MessageText("guest_item", "guest {number}");

// server.cpp
inline constexpr auto kAddressItem = MessageText("address_item", "address {address}");
inline constexpr auto kPortOfItem = MessageText("port_of_item", "port {port} of {address}");

// clang-format on
}  // namespace evet::messages
