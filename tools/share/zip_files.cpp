#include <zip.h>

#include <algorithm>
#include <memory>

#include "matcher/base/error.h"
#include "tools/share/messages.h"
#include "tools/share/share_files.h"
#include "tools/words/in_words.h"

namespace evet {
namespace {

[[noreturn]] void fail(const std::string& why) {
  throw Error(ErrorKind::storage, in_words(messages::kTheArchive),
              Message(messages::kCannotBePacked, {{"why", why}}));
}

struct Discard {
  void operator()(zip_t* archive) const { zip_discard(archive); }
};

// Of the file format: years since 1980 and whole pairs of seconds, without a time zone.
struct DosTime {
  zip_uint16_t date, time;
};
DosTime dos_time(const std::string& iso) {
  const auto number = [&](std::size_t at, std::size_t n) {
    return static_cast<unsigned>(std::stoi(iso.substr(at, n)));
  };
  const unsigned year = std::max(1980U, number(0, 4));
  return {static_cast<zip_uint16_t>(((year - 1980) << 9) | (number(5, 2) << 5) | number(8, 2)),
          static_cast<zip_uint16_t>((number(11, 2) << 11) | (number(14, 2) << 5) | (number(17, 2) / 2))};
}

}  // namespace

std::string zip_of(const SharedFiles& files, const std::string& made_at) {
  const DosTime when = dos_time(made_at);
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* bytes = zip_source_buffer_create(nullptr, 0, 0, &error);
  if (bytes == nullptr) fail(zip_error_strerror(&error));
  std::unique_ptr<zip_t, Discard> archive(zip_open_from_source(bytes, ZIP_TRUNCATE, &error));
  if (!archive) {
    zip_source_free(bytes);
    fail(zip_error_strerror(&error));
  }
  zip_source_keep(bytes);  // read after the archive is closed
  const std::unique_ptr<zip_source_t, decltype(&zip_source_free)> kept(bytes, zip_source_free);
  for (const auto& [name, text] : files) {
    zip_source_t* file = zip_source_buffer(archive.get(), text.data(), text.size(), 0);
    if (file == nullptr) fail(zip_strerror(archive.get()));
    const zip_int64_t at = zip_file_add(archive.get(), name.c_str(), file, ZIP_FL_ENC_UTF_8);
    if (at < 0) {
      zip_source_free(file);
      fail(zip_strerror(archive.get()));
    }
    const auto index = static_cast<zip_uint64_t>(at);
    zip_file_set_dostime(archive.get(), index, when.time, when.date, 0);
    zip_file_set_external_attributes(archive.get(), index, 0, ZIP_OPSYS_UNIX, 0100644U << 16);
  }
  if (zip_close(archive.get()) != 0) fail(zip_strerror(archive.get()));
  static_cast<void>(archive.release());  // closed: nothing to discard
  std::string out;
  if (zip_source_open(bytes) != 0) fail(in_words(messages::kArchiveCannotBeReadBack));
  zip_source_seek(bytes, 0, SEEK_END);
  const zip_int64_t size = zip_source_tell(bytes);
  zip_source_seek(bytes, 0, SEEK_SET);
  out.resize(static_cast<std::size_t>(std::max<zip_int64_t>(size, 0)));
  const bool whole = size > 0 && zip_source_read(bytes, out.data(), out.size()) == size;
  zip_source_close(bytes);
  if (!whole) fail(in_words(messages::kArchiveCannotBeReadBack));
  return out;
}

}  // namespace evet
