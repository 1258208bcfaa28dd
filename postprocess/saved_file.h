#pragma once
// A file that is written aside and renamed, so that a page or picture is whole or not
// there.

#include <filesystem>
#include <string>

namespace throughbend
{
/// Throws InputError, with the cure, where the place cannot be written.
void save_file(const std::filesystem::path &file, const std::string &bytes);
} // namespace throughbend
