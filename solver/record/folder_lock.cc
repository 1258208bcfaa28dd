#include "solver/record/folder_lock.h"

#include "inputs/text/whole_file.h"
#include "solver/record/run_summary.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <utility>

namespace throughbend
{
namespace fs = std::filesystem;

namespace
{
std::string own_name()
{
  std::array<char, 256> host{};
  if (gethostname(host.data(), host.size() - 1) != 0)
    host[0] = '\0';
  return "process " + std::to_string(getpid()) +
         (host[0] != '\0' ? " on " + std::string(host.data()) : "") + " since " +
         time_stamp();
}

std::string text_of(const int descriptor)
{
  std::array<char, 512> text{};
  const ssize_t         n = pread(descriptor, text.data(), text.size(), 0);
  const std::string     name(text.data(), n > 0 ? static_cast<std::size_t>(n) : 0);
  return name.empty() ? "another process" : name;
}

/// Whether the open file still is the one of this name: a holder that ends takes its file
/// away, and a lock on that one would keep nobody out.
bool is_still(const fs::path &file, const int descriptor)
{
  struct stat there
  {
  }, open{};
  return stat(file.c_str(), &there) == 0 && fstat(descriptor, &open) == 0 &&
         there.st_ino == open.st_ino && there.st_dev == open.st_dev;
}

/// All of `text` from the beginning of the file on, also where the system takes it in
/// pieces. The system's reason why not; 0: it stands there.
int write_all(const int descriptor, const std::string &text)
{
  for (std::size_t done = 0; done < text.size();)
  {
    const ssize_t taken = pwrite(descriptor, text.data() + done, text.size() - done,
                                 static_cast<off_t>(done));
    if (taken < 0 && errno == EINTR)
      continue;
    if (taken <= 0)
      return taken < 0 ? errno : EIO;
    done += static_cast<std::size_t>(taken);
  }
  return 0;
}
} // namespace

InputError in_use(const fs::path &folder, const std::string &writer)
{
  return InputError("the folder " + folder.string() +
                    " is in use: a run is writing into it (" + writer +
                    "). Wait until it has ended, stop it, or choose another folder with "
                    "--into FOLDER.");
}

fs::path lock_file(const fs::path &folder)
{
  return folder / ".throughbend-lock";
}

std::string writer_of(const fs::path &folder)
{
  const int descriptor = open(lock_file(folder).c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0)
    return "";
  std::string writer;
  if (flock(descriptor, LOCK_SH | LOCK_NB) != 0 && errno == EWOULDBLOCK)
    writer = text_of(descriptor);
  close(descriptor);
  return writer;
}

FolderLock::FolderLock(const fs::path &folder) : file_(lock_file(folder))
{
  for (;;)
  {
    // Closed in programs that are started from this one: MPI's helpers may outlive the run.
    descriptor_ = open(file_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666);
    if (descriptor_ < 0)
    {
      const int reason = errno;
      throw_place_fault("cannot use the run folder " + folder.string() + ": " +
                            file_.string() + " cannot be made: " + std::strerror(reason) +
                            ". Choose a place that you may write in, with --into FOLDER.",
                        reason);
    }
    if (flock(descriptor_, LOCK_EX | LOCK_NB) != 0)
    {
      if (errno != EWOULDBLOCK)
        return; // a file system without locks
      const std::string writer = text_of(descriptor_);
      close(descriptor_);
      throw in_use(folder, writer);
    }
    if (is_still(file_, descriptor_))
      break;
    close(descriptor_);
  }
  if (const int reason =
          ftruncate(descriptor_, 0) != 0 ? errno : write_all(descriptor_, own_name()))
  {
    unlink(file_.c_str());
    close(descriptor_);
    throw_place_fault("cannot use the run folder " + folder.string() + ": " +
                          file_.string() + " cannot be written: " + std::strerror(reason) +
                          ". Is the disk full?",
                      reason);
  }
}

FolderLock::~FolderLock()
{
  if (descriptor_ < 0)
    return;
  unlink(file_.c_str()); // while it is held, so that nobody's new one is taken away
  close(descriptor_);
}

FolderLock::FolderLock(FolderLock &&other) noexcept
    : file_(std::move(other.file_)), descriptor_(std::exchange(other.descriptor_, -1))
{
}
} // namespace throughbend
