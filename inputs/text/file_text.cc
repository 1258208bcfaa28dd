#include "inputs/text/file_text.h"

#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <utility>

namespace throughbend
{
namespace
{
constexpr std::size_t largest_file = 1u << 20; // bytes; a case is a page of text

/// /dev/stdin, and what a shell puts in the place of <(...), may be read like a file. A
/// pipe elsewhere may keep us waiting for ever.
bool is_of_the_system(const std::string &path)
{
  return path.rfind("/dev/", 0) == 0 || path.rfind("/proc/", 0) == 0;
}
} // namespace

FileText read_file_text(const std::string &path)
{
  FileText        file;
  std::error_code fault;
  if (path.empty())
    file.problem = "no case file is named";
  else if (!std::filesystem::exists(path, fault))
    file.problem = fault ? fault.message() : "there is no such file";
  else if (std::filesystem::is_directory(path, fault))
    file.problem = "is a directory, not a file";
  else if (!std::filesystem::is_regular_file(path, fault) && !is_of_the_system(path))
    file.problem = "is a pipe or device, not a file";
  if (!file.problem.empty())
    return file;

  errno = 0;
  std::ifstream stream(path, std::ios::binary);
  if (!stream)
  {
    file.problem = std::string("cannot be opened: ") + std::strerror(errno);
    file.by_user = false;
    return file;
  }
  std::string            text;
  std::array<char, 4096> piece{};
  while (text.size() <= largest_file && stream)
  {
    stream.read(piece.data(), static_cast<std::streamsize>(piece.size()));
    text.append(piece.data(), static_cast<std::size_t>(stream.gcount()));
  }
  if (stream.bad())
  {
    file.problem = std::string("cannot be read: ") + std::strerror(errno);
    file.by_user = false;
  }
  else if (text.size() > largest_file)
    file.problem = "is larger than 1 MiB; case files are smaller";
  else
    file.text = std::move(text);
  return file;
}
} // namespace throughbend
