// Preloaded into the real program (LD_PRELOAD): counts the operations on files below a
// folder and makes one of them fail, or the process die there. Says what it saw.
//
//   FAULT_UNDER  the folder, as an absolute path without links
//   FAULT_AT     which operation, from 1; 0: none
//   FAULT_KIND   an errno (28 ENOSPC, 5 EIO, 24 EMFILE), `short` (half of a write is
//                written), `kill`
//   FAULT_LAST   `once`, or `on`: from then on, everything that needs room fails
//   FAULT_LOG    a file outside the folder: a line for each operation

#include <dlfcn.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/types.h>
#include <sys/uio.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>

namespace
{
enum class Needs
{
  room,
  nothing
};

const char *setting(const char *name)
{
  const char *const value = getenv(name);
  return value != nullptr ? value : "";
}

std::string linked(const char *link)
{
  char          name[4096];
  const ssize_t n = readlink(link, name, sizeof name);
  return n > 0 ? std::string(name, static_cast<std::size_t>(n)) : std::string();
}

std::string name_of(const int descriptor)
{
  return linked(("/proc/self/fd/" + std::to_string(descriptor)).c_str());
}

std::string whole_name(const int folder, const char *path)
{
  if (path == nullptr || path[0] == '/')
    return path == nullptr ? "" : path;
  return (folder == AT_FDCWD ? linked("/proc/self/cwd") : name_of(folder)) + "/" + path;
}

bool is_below(const std::string &name)
{
  static const std::string folder = setting("FAULT_UNDER");
  return !folder.empty() && name.compare(0, folder.size(), folder) == 0 &&
         (name.size() == folder.size() || name[folder.size()] == '/');
}

void note(const char *operation, const std::string &name)
{
  static const int log =
      static_cast<int>(syscall(SYS_openat, AT_FDCWD, setting("FAULT_LOG"),
                               O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0666));
  const std::string line = std::string(operation) + " " + name + "\n";
  if (log >= 0)
    syscall(SYS_write, log, line.data(), line.size());
}

/// Goes on counting in the program that this one becomes.
std::atomic<long> count{atol(setting("FAULT_DONE"))};

enum class Fate
{
  happens,
  fails, ///< errno is set
  halves
};

Fate fate(const char *operation, const std::string &name, const Needs needs)
{
  static const long        at    = atol(setting("FAULT_AT"));
  static const std::string kind  = setting("FAULT_KIND");
  static const bool        lasts = std::string(setting("FAULT_LAST")) == "on";
  if (!is_below(name))
    return Fate::happens;
  note(operation, name);
  const long now = ++count;
  if (at == 0 || now < at || (now > at && !(lasts && needs == Needs::room)))
    return Fate::happens;
  if (kind == "kill")
    syscall(SYS_kill, getpid(), SIGKILL);
  if (kind == "short")
    return Fate::halves;
  if (now == at && lasts && needs == Needs::nothing)
    return Fate::happens; // a full disk fails nothing that needs no room
  errno = atoi(kind.c_str());
  return Fate::fails;
}

template <typename Function>
Function *real(const char *name)
{
  return reinterpret_cast<Function *>(dlsym(RTLD_NEXT, name));
}

/// A file that is there needs no room to be opened.
Needs needs_of(const int folder, const char *path, const int flags)
{
  struct stat there
  {
  };
  const bool is_new = (flags & O_CREAT) != 0 && fstatat(folder, path, &there, 0) != 0;
  return is_new ? Needs::room : Needs::nothing;
}

mode_t mode_of(const int flags, va_list &rest)
{
  return (flags & (O_CREAT | O_TMPFILE)) != 0 ? va_arg(rest, mode_t) : 0;
}

/// Room that a file already has may be written again.
Needs needs_of_write(const int descriptor, off_t from, const std::size_t n)
{
  struct stat there
  {
  };
  if (from < 0)
    from =
        (fcntl(descriptor, F_GETFL) & O_APPEND) != 0 ? -1 : lseek(descriptor, 0, SEEK_CUR);
  const bool inside = from >= 0 && fstat(descriptor, &there) == 0 &&
                      from + static_cast<off_t>(n) <= there.st_size;
  return inside ? Needs::nothing : Needs::room;
}
} // namespace

#define OPEN(NAME)                                                                         \
  extern "C" int NAME(const char *path, int flags, ...)                                    \
  {                                                                                        \
    va_list rest;                                                                          \
    va_start(rest, flags);                                                                 \
    const mode_t mode = mode_of(flags, rest);                                              \
    va_end(rest);                                                                          \
    if (fate("open", whole_name(AT_FDCWD, path), needs_of(AT_FDCWD, path, flags)) ==       \
        Fate::fails)                                                                       \
      return -1;                                                                           \
    return real<int(const char *, int, ...)>(#NAME)(path, flags, mode);                    \
  }
OPEN(open)
OPEN(open64)
#define OPENAT(NAME)                                                                       \
  extern "C" int NAME(int folder, const char *path, int flags, ...)                        \
  {                                                                                        \
    va_list rest;                                                                          \
    va_start(rest, flags);                                                                 \
    const mode_t mode = mode_of(flags, rest);                                              \
    va_end(rest);                                                                          \
    if (fate("open", whole_name(folder, path), needs_of(folder, path, flags)) ==           \
        Fate::fails)                                                                       \
      return -1;                                                                           \
    return real<int(int, const char *, int, ...)>(#NAME)(folder, path, flags, mode);       \
  }
OPENAT(openat)
OPENAT(openat64)
#define FOPEN(NAME)                                                                        \
  extern "C" FILE *NAME(const char *path, const char *mode)                                \
  {                                                                                        \
    if (fate("open", whole_name(AT_FDCWD, path),                                           \
             needs_of(AT_FDCWD, path, mode[0] == 'r' ? 0 : O_CREAT)) == Fate::fails)       \
      return nullptr;                                                                      \
    return real<FILE *(const char *, const char *)>(#NAME)(path, mode);                    \
  }
FOPEN(fopen)
FOPEN(fopen64)

extern "C" ssize_t write(int descriptor, const void *bytes, size_t n)
{
  const auto call = real<ssize_t(int, const void *, size_t)>("write");
  switch (fate("write", name_of(descriptor), needs_of_write(descriptor, -1, n)))
  {
  case Fate::fails:
    return -1;
  case Fate::halves:
    return call(descriptor, bytes, n > 1 ? n / 2 : n);
  default:
    return call(descriptor, bytes, n);
  }
}
extern "C" ssize_t writev(int descriptor, const struct iovec *parts, int n)
{
  if (fate("write", name_of(descriptor), Needs::room) == Fate::fails)
    return -1;
  return real<ssize_t(int, const struct iovec *, int)>("writev")(descriptor, parts, n);
}
#define PWRITE(NAME)                                                                       \
  extern "C" ssize_t NAME(int descriptor, const void *bytes, size_t n, off_t from)         \
  {                                                                                        \
    const auto call = real<ssize_t(int, const void *, size_t, off_t)>(#NAME);              \
    switch (fate("write", name_of(descriptor), needs_of_write(descriptor, from, n)))       \
    {                                                                                      \
    case Fate::fails:                                                                      \
      return -1;                                                                           \
    case Fate::halves:                                                                     \
      return call(descriptor, bytes, n > 1 ? n / 2 : n, from);                             \
    default:                                                                               \
      return call(descriptor, bytes, n, from);                                             \
    }                                                                                      \
  }
PWRITE(pwrite)
PWRITE(pwrite64)

#define SYNC(NAME)                                                                         \
  extern "C" int NAME(int descriptor)                                                      \
  {                                                                                        \
    if (fate("sync", name_of(descriptor), Needs::nothing) == Fate::fails)                  \
      return -1;                                                                           \
    return real<int(int)>(#NAME)(descriptor);                                              \
  }
SYNC(fsync)
SYNC(fdatasync)
#define TRUNCATE(NAME)                                                                     \
  extern "C" int NAME(int descriptor, off_t n) noexcept                                    \
  {                                                                                        \
    if (fate("truncate", name_of(descriptor), Needs::nothing) == Fate::fails)              \
      return -1;                                                                           \
    return real<int(int, off_t)>(#NAME)(descriptor, n);                                    \
  }
TRUNCATE(ftruncate)
TRUNCATE(ftruncate64)

extern "C" int rename(const char *from, const char *to) noexcept
{
  if (fate("rename", whole_name(AT_FDCWD, to), Needs::nothing) == Fate::fails)
    return -1;
  return real<int(const char *, const char *)>("rename")(from, to);
}
extern "C" int renameat(int a, const char *from, int b, const char *to) noexcept
{
  if (fate("rename", whole_name(b, to), Needs::nothing) == Fate::fails)
    return -1;
  return real<int(int, const char *, int, const char *)>("renameat")(a, from, b, to);
}
extern "C" int mkdir(const char *path, mode_t mode) noexcept
{
  if (fate("mkdir", whole_name(AT_FDCWD, path), Needs::room) == Fate::fails)
    return -1;
  return real<int(const char *, mode_t)>("mkdir")(path, mode);
}
extern "C" int unlink(const char *path) noexcept
{
  if (fate("unlink", whole_name(AT_FDCWD, path), Needs::nothing) == Fate::fails)
    return -1;
  return real<int(const char *)>("unlink")(path);
}
extern "C" int unlinkat(int folder, const char *path, int flags) noexcept
{
  if (fate("unlink", whole_name(folder, path), Needs::nothing) == Fate::fails)
    return -1;
  return real<int(int, const char *, int)>("unlinkat")(folder, path, flags);
}
extern "C" int remove(const char *path) noexcept
{
  if (fate("unlink", whole_name(AT_FDCWD, path), Needs::nothing) == Fate::fails)
    return -1;
  return real<int(const char *)>("remove")(path);
}
extern "C" int execv(const char *path, char *const words[]) noexcept
{
  setenv("FAULT_DONE", std::to_string(count).c_str(), 1);
  return real<int(const char *, char *const[])>("execv")(path, words);
}
