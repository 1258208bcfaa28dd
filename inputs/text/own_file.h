#pragma once
// Files that a user names for the program to write: what the program has made itself it may
// replace, what somebody else has written only when told to. It knows its own by a mark at
// the beginning.

#include <filesystem>
#include <string>
#include <string_view>

namespace throughbend
{
enum class ForeignFile
{
  keep,
  replace ///< --overwrite was said
};

constexpr std::string_view report_mark =
    "<meta name=\"generator\" content=\"throughbend report\">";
constexpr std::string_view drawing_mark = "<!-- made by throughbend: a drawing -->";
constexpr std::string_view profile_mark = "<!-- made by throughbend: profiles -->";

/// Whether the file begins as one with this mark does.
bool is_own_file(const std::filesystem::path &file, std::string_view mark);

/// Throws InputError, with the cure, unless the file may be written: its folder is there,
/// and it is new, has the mark, or may be replaced whatever it is. `option` is what named
/// it.
void check_place(const std::string &option, const std::filesystem::path &file,
                 std::string_view mark, ForeignFile foreign);
} // namespace throughbend
