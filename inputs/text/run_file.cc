#include "inputs/text/run_file.h"

#include "inputs/text/input_error.h"
#include "inputs/text/open_file.h"
#include "inputs/text/plain_text.h"
#include "inputs/text/shown_text.h"

#include <fmt/core.h>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

const std::string cure = " Take it away, or push the case again into another folder.";

/// Throws for a name that leaves the folder, as an index that somebody else wrote may have.
void check_name(const fs::path &folder, const fs::path &name)
{
  bool leaves = name.empty() || !name.is_relative() || !name.has_filename();
  for (const fs::path &part : name)
    leaves = leaves || part == ".." || part.native().find('\0') != std::string::npos;
  if (leaves)
    throw InputError(folder.string() + ": the file name '" +
                     shown_text(clipped(name.string(), 60)) +
                     "' in it leads out of the run. Push the case again into another "
                     "folder.");
}

[[noreturn]] void refuse_link(const fs::path &place)
{
  throw InputError(place.string() +
                   " is a link, and a run is read through none. Put what it leads to in "
                   "its place, or take it away.");
}

/// What the name stands for in the open folder; a mode of 0 where it is not there.
struct stat status_of(const OpenFile &folder, const fs::path &name)
{
  struct stat there
  {
  };
  if (fstatat(folder.number(), name.c_str(), &there, AT_SYMLINK_NOFOLLOW) != 0)
    there.st_mode = 0;
  return there;
}

std::string text_of(const OpenFile &file, const fs::path &place, const std::uintmax_t most)
{
  std::string       text;
  std::string       piece(1u << 16u, '\0');
  const std::string fault = read_pieces(file, piece,
                                        [&](const std::string_view bytes)
                                        {
                                          text.append(bytes);
                                          return text.size() <= most;
                                        });
  if (!fault.empty())
    throw InputError(place.string() + " cannot be read: " + fault + "." + cure);
  return text;
}
} // namespace

std::optional<std::string> run_file_text(const fs::path &folder, const fs::path &name,
                                         const std::uintmax_t most)
{
  check_name(folder, name);
  constexpr int  no_links = O_NOFOLLOW | O_CLOEXEC | O_NONBLOCK;
  const fs::path start    = folder.empty() ? fs::path(".") : folder;
  OpenFile       at(open(start.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  fs::path       place = folder;
  for (const fs::path &part : name.parent_path())
  {
    place /= part;
    if (!at.is_open())
      return std::nullopt;
    if (S_ISLNK(status_of(at, part).st_mode))
      refuse_link(place);
    at = OpenFile(openat(at.number(), part.c_str(), O_RDONLY | O_DIRECTORY | no_links));
  }
  if (!at.is_open())
    return std::nullopt;
  place /= name.filename();
  // Looked at before it is opened: opening alone may wake a device.
  const struct stat there = status_of(at, name.filename());
  if (there.st_mode == 0)
    return std::nullopt;
  if (S_ISLNK(there.st_mode))
    refuse_link(place);
  if (!S_ISREG(there.st_mode))
    throw InputError(place.string() + " is no regular file, but a folder, pipe or device." +
                     cure);
  const OpenFile file(openat(at.number(), name.filename().c_str(), O_RDONLY | no_links));
  if (!file.is_open())
    return std::nullopt;
  struct stat opened
  {
  };
  if (fstat(file.number(), &opened) != 0 || !S_ISREG(opened.st_mode))
    throw InputError(place.string() + " was changed while it was opened. Try again.");
  const auto refuse_size = [&](const std::uintmax_t size)
  {
    throw InputError(fmt::format("{} holds {} bytes or more, and a run leaves at most {} "
                                 "there.{}",
                                 place.string(), size, most, cure));
  };
  if (static_cast<std::uintmax_t>(opened.st_size) > most)
    refuse_size(static_cast<std::uintmax_t>(opened.st_size));
  std::string text = text_of(file, place, most);
  if (text.size() > most)
    refuse_size(text.size());
  return text;
}
} // namespace throughbend
