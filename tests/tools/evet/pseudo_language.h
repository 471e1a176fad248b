// A made-up language in which every text of the catalogue is itself in guillemets, «so», and so is what was put into
// it: what people read stands inside them, or it did not come through the catalogue.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

namespace evet::try_out {

// The translation below `folder`, made of tools/messages/evet.pot; what speak_from() takes. Needs msgfmt.
void write_pseudo_language(const std::filesystem::path& folder);

// From here on this process speaks it. For a process of its own: a language once chosen stays.
void speak_pseudo_language(const std::filesystem::path& folder);

// What of `text` stands outside of all guillemets.
std::string outside(const std::string& text);

// Of a page what people read: no tags, styles or scripts. What attributes say to people comes as lines of its own.
std::string read_of_page(const std::string& html);

// Two English words beside each other.
std::vector<std::string> bare_words(const std::string& text);

}  // namespace evet::try_out
