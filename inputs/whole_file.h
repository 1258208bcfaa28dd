#pragma once
// Writes a file so that a reader sees the old one or the new one, never half of either: it
// is written aside, under a name that nobody can foresee, then renamed. A link of the
// file's own name is replaced and never written through. Every file of ours that does not
// grow row by row (those: inputs/growing_file) is written here.

#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace throughbend
{
/// The system does not take a file.
struct WriteError : std::runtime_error
{
  WriteError(const std::filesystem::path &file, int reason);

  /// Whether another place would do: it is missing, no folder, or not to be written in. The
  /// rest (full, broken) is an error of the machine.
  bool is_of_the_place() const;
  int  reason; ///< errno
};

/// What to do where the folder that the file goes into is a link. The folders of a run are
/// its own: a link there leads out of it.
enum class FolderLink
{
  follow,
  refuse
};

/// Throws WriteError with the system's reason when it cannot be written; the former file is
/// then still as it was.
void write_whole_file(const std::filesystem::path &file, std::string_view text,
                      FolderLink link = FolderLink::follow);

/// The same, and on the disk when this returns: a power cut leaves the old file or the new.
/// Makes the folder if it is missing, and follows no link to it.
void write_durable_file(const std::filesystem::path &file, std::string_view bytes);

/// A file that the user named with an option, `--into` say: InputError that begins with the
/// option where another place would do, else WriteError.
void write_named_file(const std::string &option, const std::filesystem::path &file,
                      std::string_view text);

/// Which file this one, written aside, was to become: NAME of NAME.0123456789.part, which a
/// killed program leaves, or of NAME.part, which earlier versions left. None for others.
std::optional<std::string> name_of_aside(const std::filesystem::path &file);
} // namespace throughbend
