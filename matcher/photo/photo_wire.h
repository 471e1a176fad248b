// Headers, pictures and failures on a Line. What is read is checked against what was asked for.
#pragma once
#include "matcher/base/error.h"
#include "matcher/photo/decode_options.h"
#include "matcher/photo/photo.h"
#include "matcher/photo/wire.h"

namespace evet {

void put_header(Line& line, const PhotoHeader& header);
PhotoHeader get_header(Line& line, const DecodeOptions& options);
void put_photo(Line& line, const Photo& photo);
Photo get_photo(Line& line, const DecodeOptions& options);
// The error's words without its item, which the asker knows.
void put_error(Line& line, ErrorKind kind, const std::string& words);
Error get_error(Line& line, const std::string& item);

}  // namespace evet
