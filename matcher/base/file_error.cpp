#include "matcher/base/file_error.h"

#include <cerrno>
#include <cstring>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"

namespace evet {

void throw_file_error(const std::filesystem::path& path, const MessageText& doing, int error) {
  const std::string item = path.string();
  if (error == ENOENT) throw Error(ErrorKind::not_found, item, messages::kNoSuchFileOrFolder);
  if (error == ENOTDIR)
    throw Error(ErrorKind::bad_input, item, messages::kFileWhereFolder, messages::kNameAnotherPlace);
  if (error == EISDIR)
    throw Error(ErrorKind::bad_input, item, messages::kFolderNotFile, messages::kNameAFile);
  Reason reason{Message(messages::kDoingFailed,
                        {{"doing", Message(doing)}, {"why", std::string(std::strerror(error))}})};
  if (error == ENOSPC || error == EDQUOT) reason.right = messages::kFreeSomeSpace;
  if (error == EACCES || error == EROFS || error == EPERM) reason.right = messages::kUseWritableFolder;
  throw Error(ErrorKind::storage, item, reason);
}

}  // namespace evet
