// What the machine says of a file, as an Error.
#pragma once
#include <filesystem>

#include "matcher/base/message.h"

namespace evet {

// `error` as in errno; `doing` as in kWriting of messages.h. Errors: not_found, bad_input where a folder is a file or the
// other way round, else storage.
[[noreturn]] void throw_file_error(const std::filesystem::path& path, const MessageText& doing, int error);

}  // namespace evet
