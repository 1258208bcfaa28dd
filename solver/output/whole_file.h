#pragma once
// Writes a small file so that a reader sees the old one or the new one, never half of
// either: beside it as NAME.part, then renamed. Not for files that grow row by row.

#include <filesystem>
#include <string_view>

namespace throughbend
{
/// Throws std::runtime_error with the system's reason when it cannot be written; the
/// former file is then still as it was.
void write_whole_file(const std::filesystem::path &file, std::string_view text);

/// The same, and on the disk when this returns: a power cut leaves the old file or the new.
/// Makes the folder if it is missing.
void write_durable_file(const std::filesystem::path &file, std::string_view bytes);
} // namespace throughbend
