#pragma once
// The files from which a pass is resumed: two slots in the folder `checkpoint` of a run,
// written in turn, so that one is whole at any moment. Written aside, on the disk before it
// is renamed. Content is the machine's own numbers, for the same program on the same kind
// of machine, and the same for any number of ranks. Reading trusts nothing in them.
//
// A file is: 24 bytes of name, the number 0x01020304 (byte order), the format's version,
// the length of the content and its checksum (FNV-1a, 64 bit), then the content.

#include "solver/pass/pass_state.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

namespace throughbend
{
/// What the earlier part of a pass was made from and with.
struct RunPast
{
  std::string              version, git_revision; ///< of the program that began it
  std::string              started;               ///< ISO 8601, UTC
  std::vector<std::string> resumed;               ///< when, each time
  std::string              case_source;           ///< the case file as the user named it
  /// Key and value of the effective case, see inputs/keys/case_text.
  std::vector<std::pair<std::string, std::string>> case_values;
  std::int32_t                                     ranks = 1; ///< that wrote the checkpoint
};

struct Checkpoint
{
  std::uint64_t number = 0; ///< counts up; the newest has the largest
  RunPast       past;
  PassState     state;
};

/// The slots in a folder, which need not be there.
std::vector<std::filesystem::path> checkpoint_slots(const std::filesystem::path &folder);

/// Writes it into the slot that holds the older one. Throws std::runtime_error with the
/// reason; the other slot is then as it was.
void keep_checkpoint(const std::filesystem::path &folder, const Checkpoint &checkpoint);

/// Throws InputError that says what is wrong with the file.
Checkpoint read_checkpoint(const std::filesystem::path &file);

/// The newest whole one. Throws InputError, with the cure, when there is none. What is
/// wrong with a slot that was passed over is added to `remarks`.
Checkpoint newest_checkpoint(const std::filesystem::path &folder,
                             std::vector<std::string>    &remarks);
} // namespace throughbend
