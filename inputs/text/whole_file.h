#pragma once
// Writes a file so that a reader sees the old one or the new one, never half of either: it
// is written aside, under a name that nobody can foresee, then renamed. A link of the
// file's own name is replaced and never written through. Every file of ours that does not
// grow row by row (those: inputs/text/growing_file) is written here.

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

  bool is_of_the_place() const;
  int  reason; ///< errno
};

/// Whether another place would do: it is missing, no folder, or not to be written in. The
/// rest (full, broken, too many open files) is an error of the machine. `reason`: errno.
bool is_of_the_place(int reason);

/// Throws InputError where another place would do, else std::runtime_error.
[[noreturn]] void throw_place_fault(const std::string &text, int reason);

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
/// Makes the folder if it is missing.
void write_durable_file(const std::filesystem::path &file, std::string_view bytes,
                        FolderLink link = FolderLink::refuse);

/// Has the system put all files of the folder, not of folders in it, on the disk, and their
/// names. A folder that is not there is passed over. Throws WriteError.
void sync_folder(const std::filesystem::path &folder);

/// Names alone, of files that were renamed or taken away.
void sync_names(const std::filesystem::path &folder);

/// Room for a small file that must find some when the disk is full: a run's record that it
/// has failed, and why. Until it is spent it lies aside, and goes with the object.
class ReservedFile
{
public:
  /// Throws WriteError when there is not so much room [bytes].
  ReservedFile(const std::filesystem::path &file, std::size_t room);
  ~ReservedFile();
  ReservedFile(ReservedFile &&other) noexcept;
  ReservedFile(const ReservedFile &)            = delete;
  ReservedFile &operator=(const ReservedFile &) = delete;
  ReservedFile &operator=(ReservedFile &&)      = delete;

  /// The file gets this text, whole and on the disk. False where the system does not do it,
  /// or where the text is longer than the room.
  bool spend(std::string_view text) noexcept;

private:
  std::size_t room_;
  std::string name_, aside_;
  int         folder_ = -1, content_ = -1;
};

/// A file that the user named with an option, `--into` say: InputError that begins with the
/// option where another place would do, else WriteError.
void write_named_file(const std::string &option, const std::filesystem::path &file,
                      std::string_view text);

/// Which file this one, written aside, was to become: NAME of NAME.0123456789.part, which a
/// killed program leaves, or of NAME.part, which earlier versions left. None for others.
std::optional<std::string> name_of_aside(const std::filesystem::path &file);
} // namespace throughbend
