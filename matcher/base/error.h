// The closed list of ways in which input or the machine can fail us.
//
// Two channels: a broken invariant of our own is an assert; bad input, a failing disk or a broken database is
// an `Error`, thrown where it is found and caught where it can be answered (per photo in intake, once in
// main(), once a request in the review page). Each kind has one exit code and one HTTP status; nothing else
// maps kinds to numbers.
#pragma once
#include <stdexcept>
#include <string>

#include "matcher/base/message.h"

namespace evet {

enum class ErrorKind {
  usage,        // the command line asks for something that does not exist            exit 2, HTTP 400
  bad_input,    // a sheet, a value or a photo is wrong                               exit 3, HTTP 422
  not_found,    // a named photo, capture, individual or catalogue is not there       exit 3, HTTP 404
  conflict,     // it would contradict what is already recorded                       exit 3, HTTP 409
  unsupported,  // a newer catalogue, an image type we do not read                    exit 3, HTTP 415
  too_large,    // over a stated limit (pixels, bytes, rows)                          exit 3, HTTP 413
  storage,      // the disk or the database failed; nothing acknowledged is lost      exit 4, HTTP 507
};

// One clear sentence: the item, what is wrong, what would be right. The item may come from outside: it is
// made printable here. What is said with messages of a catalogue has a code that programs go by.
class Error : public std::runtime_error {
 public:
  Error(ErrorKind kind, const std::string& item, const std::string& what_is_wrong,
        const std::string& what_would_be_right = {});
  Error(ErrorKind kind, const std::string& item, const Message& wrong);
  Error(ErrorKind kind, const std::string& item, const Message& wrong, const Message& right);
  Error(ErrorKind kind, const std::string& item, Reason reason);
  ErrorKind kind() const { return kind_; }
  const std::string& item() const { return item_; }
  const Message& wrong() const { return said_.wrong; }
  const Reason& reason() const { return said_; }  // all but the item

 private:
  ErrorKind kind_;
  std::string item_;
  Reason said_;
};

int exit_code(ErrorKind kind);     // 2, 3 or 4, as the commands promise
int http_status(ErrorKind kind);   // for the review page
const char* name(ErrorKind kind);  // "bad_input", ...: for JSON and logs

}  // namespace evet
