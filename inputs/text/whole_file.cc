#include "inputs/text/whole_file.h"

#include "inputs/text/input_error.h"
#include "inputs/text/open_file.h"

#include <fcntl.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <system_error>
#include <tuple>
#include <utility>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

constexpr std::string_view letters = "abcdefghijklmnopqrstuvwxyz012345";
constexpr std::size_t      n_drawn = 10; // letters: 50 bits

enum class Durability
{
  usual,
  on_disk
};

/// Whether what was written under the descriptor is on the disk. Some file systems cannot
/// sync a folder; that is no failure of ours.
bool synced(const int descriptor)
{
  return fsync(descriptor) == 0 || errno == EINVAL || errno == ENOTSUP;
}

bool write_all(const int descriptor, std::string_view bytes)
{
  while (!bytes.empty())
  {
    const ssize_t n = write(descriptor, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR)
      continue;
    if (n <= 0)
    {
      errno = n == 0 ? EIO : errno;
      return false;
    }
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

std::string drawn_letters()
{
  std::array<unsigned char, n_drawn> bytes{};
  if (getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw std::runtime_error("the system provides no random numbers");
  std::string text;
  for (const unsigned char byte : bytes)
    text += letters[byte % letters.size()];
  return text;
}

/// The new file's name in the folder and its descriptor, -1 where it cannot be made. It was
/// not there before, and no link of its name is followed.
std::pair<std::string, int> open_aside(const int folder, const std::string &name)
{
  constexpr int draws = 100;
  for (int i = 0;; ++i)
  {
    const std::string aside = name + "." + drawn_letters() + ".part";
    const int         file  = openat(folder, aside.c_str(),
                                     O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
    if (file >= 0 || errno != EEXIST || i == draws)
      return {aside, file};
  }
}

void write_aside(const fs::path &file, const std::string_view bytes, const FolderLink link,
                 const Durability durability)
{
  const fs::path parent = file.has_parent_path() ? file.parent_path() : fs::path(".");
  const int      follow = link == FolderLink::refuse ? O_NOFOLLOW : 0;
  const OpenFile folder(open(parent.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC | follow));
  if (!folder.is_open())
    throw WriteError(file, errno);
  const std::string name     = file.filename().string();
  const auto [aside, opened] = open_aside(folder.number(), name);
  OpenFile content(opened);
  if (!content.is_open())
    throw WriteError(file, errno);
  const auto fail = [&, aside = aside](const int reason)
  {
    unlinkat(folder.number(), aside.c_str(), 0);
    throw WriteError(file, reason);
  };
  if (!write_all(content.number(), bytes))
    fail(errno);
  if (durability == Durability::on_disk && !synced(content.number()))
    fail(errno);
  if (!content.shut())
    fail(errno);
  if (renameat(folder.number(), aside.c_str(), folder.number(), name.c_str()) != 0)
    fail(errno);
  if (durability == Durability::on_disk)
    synced(folder.number()); // written, though a power cut may still lose it
}
} // namespace

WriteError::WriteError(const fs::path &file, const int system_reason)
    : std::runtime_error("cannot write " + file.string() + ": " +
                         std::generic_category().message(system_reason) +
                         (system_reason == ELOOP || system_reason == ENOTDIR
                              ? ". Its folder is a link or a file. Put a folder there."
                              : ". Is the disk full, or may you not write in the folder?")),
      reason(system_reason)
{
}

bool WriteError::is_of_the_place() const
{
  return throughbend::is_of_the_place(reason);
}

bool is_of_the_place(const int reason)
{
  constexpr std::array<int, 9> places = {EACCES, EPERM,  EROFS,        ENOENT, ENOTDIR,
                                         ELOOP,  EISDIR, ENAMETOOLONG, EEXIST};
  return std::find(places.begin(), places.end(), reason) != places.end();
}

void throw_place_fault(const std::string &text, const int reason)
{
  if (is_of_the_place(reason))
    throw InputError(text);
  throw std::runtime_error(text);
}

void write_whole_file(const fs::path &file, const std::string_view text,
                      const FolderLink link)
{
  write_aside(file, text, link, Durability::usual);
}

void write_durable_file(const fs::path &file, const std::string_view bytes,
                        const FolderLink link)
{
  std::error_code reason; // where it is not made, opening it says why
  fs::create_directories(file.parent_path(), reason);
  write_aside(file, bytes, link, Durability::on_disk);
}

void sync_names(const fs::path &folder)
{
  const OpenFile there(open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!there.is_open() || !synced(there.number()))
    throw WriteError(folder, errno);
}

void sync_folder(const fs::path &folder)
{
  std::error_code missing;
  if (!fs::is_directory(folder, missing))
    return;
  for (const fs::directory_entry &entry : fs::directory_iterator(folder))
  {
    if (!fs::is_regular_file(entry.symlink_status()))
      continue;
    const OpenFile file(
        open(entry.path().c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
    if (!file.is_open() || !synced(file.number()))
      throw WriteError(entry.path(), errno);
  }
  sync_names(folder);
}

ReservedFile::ReservedFile(const fs::path &file, const std::size_t room)
    : room_(room), name_(file.filename().string())
{
  const fs::path parent = file.has_parent_path() ? file.parent_path() : fs::path(".");
  folder_               = open(parent.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (folder_ < 0)
    throw WriteError(file, errno);
  std::tie(aside_, content_) = open_aside(folder_, name_);
  int reason                 = content_ < 0 ? errno : 0;
  if (reason == 0)
  {
    // Written, not only promised: some file systems promise nothing.
    const std::string blank(room_, '\n');
    reason = write_all(content_, blank) && synced(content_) ? 0 : errno;
    if (reason != 0)
      unlinkat(folder_, aside_.c_str(), 0);
  }
  if (reason == 0)
    return;
  if (content_ >= 0)
    close(content_);
  close(folder_);
  throw WriteError(file, reason);
}

ReservedFile::ReservedFile(ReservedFile &&other) noexcept
    : room_(other.room_), name_(std::move(other.name_)), aside_(std::move(other.aside_)),
      folder_(std::exchange(other.folder_, -1)), content_(std::exchange(other.content_, -1))
{
}

ReservedFile::~ReservedFile()
{
  if (content_ >= 0)
  {
    unlinkat(folder_, aside_.c_str(), 0);
    close(content_);
  }
  if (folder_ >= 0)
    close(folder_);
}

bool ReservedFile::spend(const std::string_view text) noexcept
{
  if (content_ < 0 || text.size() > room_)
    return false;
  if (lseek(content_, 0, SEEK_SET) != 0 || !write_all(content_, text) ||
      ftruncate(content_, static_cast<off_t>(text.size())) != 0 || !synced(content_) ||
      renameat(folder_, aside_.c_str(), folder_, name_.c_str()) != 0)
    return false;
  close(std::exchange(content_, -1));
  synced(folder_);
  return true;
}

void write_named_file(const std::string &option, const fs::path &file,
                      const std::string_view text)
{
  try
  {
    write_whole_file(file, text);
  }
  catch (const WriteError &fault)
  {
    if (fault.is_of_the_place())
      throw InputError(option + ": " + fault.what());
    throw;
  }
}

std::optional<std::string> name_of_aside(const fs::path &file)
{
  if (file.extension() != ".part")
    return std::nullopt;
  const fs::path    whole = file.filename().stem();
  const std::string drawn = whole.extension().string();
  const bool        ours  = drawn.size() == 1 + n_drawn &&
                    drawn.find_first_not_of(letters, 1) == std::string::npos;
  return (ours ? whole.stem() : whole).string();
}
} // namespace throughbend
