#pragma once
// Text of others (of a case, a path, a catalogue, a run folder) as it may be shown: in a
// terminal, which obeys some characters, and in the cell of a table, which a spreadsheet
// may run. Pages have their own escaping in postprocess/html/html_text.

#include <cstddef>
#include <string>
#include <string_view>

namespace throughbend
{
/// With every character that steers a terminal or turns the direction of reading written
/// out: \x1b, \u{9b}, \u{202e}; bytes that are no UTF-8 as \xff. Line feeds stay where
/// lines are allowed. What is plain stays as it is, other alphabets too.
std::string shown_text(std::string_view text);  ///< of one line: line feeds written out
std::string shown_lines(std::string_view text); ///< of several lines: they and tabs stay

/// Whether one character of UTF-8 steers a terminal, or turns the direction of reading
/// there and on a page; line feed and tab do, too.
bool steers(std::string_view character);

/// Between single quotes, as a message cites what a file holds: the first `bytes` of it, as
/// shown text. A single quote in it is doubled, so that it does not end the citation.
std::string quoted_text(std::string_view text, std::size_t bytes = 40);

/// As a message for people: shown lines, none longer than 2 kB and not more than 60 of
/// them, so that what was typed or read cannot bury what is said of it.
std::string shown_message(std::string_view text);

/// As a cell of a table: shown text, and marked by ' in front where a spreadsheet would
/// take it for a formula (it begins with = + - @). A lone - stays: it stands for what is
/// not known. Not for numbers.
std::string text_cell(std::string_view text);
} // namespace throughbend
