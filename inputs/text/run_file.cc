#include "inputs/text/run_file.h"

#include "inputs/text/input_error.h"
#include "inputs/text/open_file.h"
#include "inputs/text/plain_text.h"
#include "inputs/text/shown_text.h"
#include "inputs/text/whole_file.h"

#include <fmt/core.h>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <stdexcept>
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

/// Returns only where the file, or a folder on the way to it, is not there.
void check_missing(const int reason, const fs::path &place)
{
  if (reason == ENOENT || reason == ENOTDIR)
    return;
  const std::string fault = std::generic_category().message(reason);
  if (is_of_the_place(reason))
    throw InputError(place.string() + " cannot be read: " + fault +
                     ". Allow yourself to read it.");
  throw std::runtime_error(place.string() + " cannot be read: " + fault + ".");
}

/// What the name stands for in the open folder; a mode of 0 where it is not there.
struct stat status_of(const OpenFile &folder, const fs::path &name, const fs::path &place)
{
  struct stat there
  {
  };
  if (fstatat(folder.number(), name.c_str(), &there, AT_SYMLINK_NOFOLLOW) != 0)
  {
    check_missing(errno, place);
    there.st_mode = 0;
  }
  return there;
}

/// Nothing where it is not there.
std::optional<OpenFile> opened(const int descriptor, const fs::path &place)
{
  if (descriptor >= 0)
    return OpenFile(descriptor);
  check_missing(errno, place);
  return std::nullopt;
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
  auto     at    = opened(open(start.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC), start);
  fs::path place = folder;
  for (const fs::path &part : name.parent_path())
  {
    place /= part;
    if (!at)
      return std::nullopt;
    if (S_ISLNK(status_of(*at, part, place).st_mode))
      refuse_link(place);
    at = opened(openat(at->number(), part.c_str(), O_RDONLY | O_DIRECTORY | no_links),
                place);
  }
  if (!at)
    return std::nullopt;
  place /= name.filename();
  // Looked at before it is opened: opening alone may wake a device.
  const struct stat there = status_of(*at, name.filename(), place);
  if (there.st_mode == 0)
    return std::nullopt;
  if (S_ISLNK(there.st_mode))
    refuse_link(place);
  if (!S_ISREG(there.st_mode))
    throw InputError(place.string() + " is no regular file, but a folder, pipe or device." +
                     cure);
  const auto file =
      opened(openat(at->number(), name.filename().c_str(), O_RDONLY | no_links), place);
  if (!file)
    return std::nullopt;
  struct stat now
  {
  };
  if (fstat(file->number(), &now) != 0 || !S_ISREG(now.st_mode))
    throw InputError(place.string() + " was changed while it was opened. Try again.");
  const auto refuse_size = [&](const std::uintmax_t size)
  {
    throw InputError(fmt::format("{} holds {} bytes or more, and a run leaves at most {} "
                                 "there.{}",
                                 place.string(), size, most, cure));
  };
  if (static_cast<std::uintmax_t>(now.st_size) > most)
    refuse_size(static_cast<std::uintmax_t>(now.st_size));
  std::string text = text_of(*file, place, most);
  if (text.size() > most)
    refuse_size(text.size());
  return text;
}
} // namespace throughbend
