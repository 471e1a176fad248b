// SQLite's errors in our words. Everything that talks to SQLite goes through `in_our_words`.
#pragma once
#include <SQLiteCpp/Exception.h>

#include <filesystem>
#include <utility>

#include "matcher/base/error.h"

namespace evet {

Error in_our_words(const std::filesystem::path& file, const SQLite::Exception& error);

template <class Work>
decltype(auto) guarded(const std::filesystem::path& file, Work&& work) {
  try {
    return std::forward<Work>(work)();
  } catch (const SQLite::Exception& error) {
    throw in_our_words(file, error);
  }
}

}  // namespace evet
