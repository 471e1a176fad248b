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
// What is wrong, by its code and arguments, without the item: the asker knows that, and words it.
void put_error(Line& line, ErrorKind kind, const Reason& reason);
Error get_error(Line& line, const std::string& item);

}  // namespace evet
