// Text that is safe inside HTML and XML.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "matcher/base/message.h"

namespace evet {

// Text for element content and for quoted attributes: & < > " and apostrophe are replaced; control characters
// and bytes that are not UTF-8 are written out (matcher/base/printable.h).
std::string escaped(std::string_view text);

// A text of a messages.h as HTML: its words, which a translator may have written, are escaped; arguments that
// are strings are HTML already and go in as they are.
std::string html(const MessageText& text, const std::vector<Message::Argument>& arguments = {});

}  // namespace evet
