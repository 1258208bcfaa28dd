#pragma once
// The whole text of a file that a user names: a case, a catalogue, a table of readings.

#include <string>

namespace throughbend
{
/// The text of a file, or why it cannot be read.
struct FileText
{
  std::string text;
  std::string problem;        ///< empty if the text is good
  bool        by_user = true; ///< who named no such file; else the system does not read it
};

/// Missing, directory, pipe, unreadable and oversized files come back as a problem.
FileText read_file_text(const std::string &path);
} // namespace throughbend
