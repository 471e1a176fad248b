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

// clang-format on
}  // namespace evet::messages
