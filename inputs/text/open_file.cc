#include "inputs/text/open_file.h"

#include <unistd.h>

#include <cerrno>
#include <system_error>
#include <utility>

namespace throughbend
{
OpenFile::~OpenFile()
{
  shut();
}

OpenFile::OpenFile(OpenFile &&other) noexcept : number_(std::exchange(other.number_, -1)) {}

OpenFile &OpenFile::operator=(OpenFile &&other) noexcept
{
  std::swap(number_, other.number_);
  return *this;
}

bool OpenFile::shut()
{
  const int number = std::exchange(number_, -1);
  return number < 0 || close(number) == 0;
}

std::string read_pieces(const OpenFile &file, std::string &buffer,
                        const std::function<bool(std::string_view)> &take)
{
  while (true)
  {
    const ssize_t n = read(file.number(), buffer.data(), buffer.size());
    if (n < 0 && errno == EINTR)
      continue;
    if (n < 0)
      return std::generic_category().message(errno);
    if (n == 0 || !take(std::string_view(buffer.data(), static_cast<std::size_t>(n))))
      return "";
  }
}
} // namespace throughbend
