// Whether something can be written at a place, asked before the work whose outcome goes there: nobody should
// wait for minutes to read that a folder is missing.
//
// The errors are those of writing later, as far as they can be foreseen: not_found where the folder of a file
// is missing; bad_input where a file lies where a folder has to be, or the other way round; storage where the
// folder may not be written to.
#pragma once
#include "matcher/base/env.h"

namespace evet {

void check_can_write_file(Env& env, const std::filesystem::path& file);
// The folder, or the last of its parents that is there: the rest can be made.
void check_can_make_folder(Env& env, const std::filesystem::path& folder);

// A bare file name lies in the working folder, which has a name of its own.
std::filesystem::path folder_of(const std::filesystem::path& file);

}  // namespace evet
