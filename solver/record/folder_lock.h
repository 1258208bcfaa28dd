#pragma once
// One writer per run folder: a lock on a small file in it, which the system lets go of when
// the process ends, however it ends. So a dead run never stands in the way of the next.

#include "inputs/text/input_error.h"

#include <filesystem>
#include <string>

namespace throughbend
{
/// Held until it is destroyed; the file goes with it.
class FolderLock
{
public:
  /// Throws InputError, with the name of the holder, when another process writes into the
  /// folder, or when no file can be made in it. Where the file system knows no locks, there
  /// is none.
  explicit FolderLock(const std::filesystem::path &folder);
  ~FolderLock();
  FolderLock(FolderLock &&) noexcept;
  FolderLock(const FolderLock &)            = delete;
  FolderLock &operator=(const FolderLock &) = delete;

private:
  std::filesystem::path file_;
  int                   descriptor_ = -1;
};

/// File of the lock in a folder.
std::filesystem::path lock_file(const std::filesystem::path &folder);

/// `process 123 on yard since 2024-05-01T08:00:00Z`, of who writes into the folder; empty:
/// nobody does.
std::string writer_of(const std::filesystem::path &folder);

/// What is said to whoever comes second.
InputError in_use(const std::filesystem::path &folder, const std::string &writer);
} // namespace throughbend
