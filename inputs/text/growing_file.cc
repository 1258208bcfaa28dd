#include "inputs/text/growing_file.h"

#include "inputs/text/whole_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <utility>

namespace throughbend
{
GrowingFile::GrowingFile(std::filesystem::path file, const Start start)
    : file_(std::move(file)),
      descriptor_(open(file_.c_str(),
                       O_WRONLY | O_CREAT | O_APPEND | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC |
                           (start == Start::anew ? O_TRUNC : 0),
                       0666))
{
  if (descriptor_ < 0)
    throw WriteError(file_, errno);
}

GrowingFile::~GrowingFile()
{
  if (descriptor_ >= 0)
    ::close(descriptor_);
}

void GrowingFile::put(std::string_view text)
{
  while (!text.empty())
  {
    const ssize_t n = write(descriptor_, text.data(), text.size());
    if (n < 0 && errno == EINTR)
      continue;
    if (n <= 0)
      throw WriteError(file_, n == 0 ? EIO : errno);
    text.remove_prefix(static_cast<std::size_t>(n));
  }
}

void GrowingFile::close()
{
  const int descriptor = std::exchange(descriptor_, -1);
  if (descriptor >= 0 && ::close(descriptor) != 0)
    throw WriteError(file_, errno);
}
} // namespace throughbend
