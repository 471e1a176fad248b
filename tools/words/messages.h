// What tables and words that a person wrote are told to be wrong with.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {

// Sheets as CSV.
inline constexpr auto kQuoteNotClosed = MessageText(
    "quote_not_closed", "a double quote is opened here and does not close properly before line {line}");
inline constexpr auto kCloseTheQuote =
    MessageText("close_the_quote", "close the quote; inside a quoted field write each double quote twice");
inline constexpr auto kQuoteInsideField =
    MessageText("quote_inside_field", "a double quote stands inside a field");
inline constexpr auto kQuoteTheField = MessageText(
    "quote_the_field", "put the whole field in double quotes and write each double quote inside it twice");

}  // namespace evet::messages
