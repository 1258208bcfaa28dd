#include "solver/output/whole_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <fstream>
#include <stdexcept>
#include <system_error>

namespace throughbend
{
void write_whole_file(const std::filesystem::path &file, const std::string_view text)
{
  const std::filesystem::path aside = file.string() + ".part";
  const auto                  fail  = [&](const std::error_code &reason)
  {
    std::error_code ignored;
    std::filesystem::remove(aside, ignored);
    throw std::runtime_error("cannot write " + file.string() + ": " + reason.message() +
                             ". Is the disk full, or the folder not yours to write in?");
  };

  errno = 0;
  std::ofstream out(aside, std::ios::binary | std::ios::trunc);
  out.write(text.data(), static_cast<std::streamsize>(text.size()));
  out.close();
  if (!out)
    fail({errno != 0 ? errno : EIO, std::generic_category()});

  std::error_code reason;
  std::filesystem::rename(aside, file, reason);
  if (reason)
    fail(reason);
}

namespace
{
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
      return false;
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}
} // namespace

void write_durable_file(const std::filesystem::path &file, const std::string_view bytes)
{
  const std::filesystem::path aside  = file.string() + ".part";
  const std::filesystem::path folder = file.parent_path();
  const auto                  fail   = [&](const int reason)
  {
    unlink(aside.c_str());
    throw std::runtime_error("cannot write " + file.string() + ": " +
                             std::generic_category().message(reason) +
                             ". Is the disk full, or the folder not yours to write in?");
  };
  std::error_code reason;
  std::filesystem::create_directories(folder, reason);

  const int descriptor =
      open(aside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW | O_CLOEXEC, 0666);
  if (descriptor < 0)
    fail(errno);
  const bool good   = write_all(descriptor, bytes) && synced(descriptor);
  const int  fault  = errno;
  const bool closed = close(descriptor) == 0;
  if (!good || !closed)
    fail(good ? errno : fault);
  if (rename(aside.c_str(), file.c_str()) != 0)
    fail(errno);
  const int directory = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (directory < 0)
    return; // written, though a power cut may still lose it
  synced(directory);
  close(directory);
}
} // namespace throughbend
