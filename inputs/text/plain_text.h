#pragma once
// The few text operations that reading a case needs: trimming, case folding, clipping,
// UTF-8 checking, and the nearest of some known names. Nothing here knows keys or units.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// Without blanks, tabs and carriage returns at both ends.
std::string_view trimmed(std::string_view text);

/// ASCII letters in lower case, everything else as it is.
std::string lower_case(std::string_view text);

/// At most so many bytes, the cut marked by "..." and never inside a UTF-8 character.
std::string clipped(std::string_view text, std::size_t bytes);

/// Bytes of the UTF-8 character that starts here, 0 if none does (RFC 3629, section 4).
std::size_t utf8_length(std::string_view text, std::size_t at);

/// Position of the first byte that belongs in no text file: a control character other than
/// tab, line feed, form feed and carriage return, or broken UTF-8.
std::optional<std::size_t> find_binary_byte(std::string_view text);

/// Insertions, deletions, replacements and swaps of neighbours that turn one text into the
/// other (optimal string alignment: Damerau 1964, Commun. ACM 7, 171).
std::size_t edit_distance(std::string_view from, std::string_view to);

/// The name with the smallest edit distance, if it is near enough to be a slip of the pen.
std::optional<std::string> nearest_name(std::string_view                text,
                                        const std::vector<std::string> &names);

/// Broken into lines of at most so many columns, each with the prefix in front.
std::string wrapped(std::string_view text, std::string_view prefix, std::size_t columns);
} // namespace throughbend
