#pragma once
// The raw `section.key = value` entries of a case file and of the command line, each with
// the place it came from. Knows the notation (through Boost.Program_options) but not what
// any value means, nor which keys belong in a case except to tell options from values.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// One key with the text it was given.
struct CaseEntry
{
  std::string key;
  std::string value;
  std::string place;    ///< `case.ini:12` or `command line`
  std::size_t line = 0; ///< in the file; 0 on the command line
};

/// Something that cannot be an entry at all.
struct NotationFault
{
  std::string place;
  std::string text; ///< the offending line or word, clipped
  std::string problem;
  std::size_t line = 0; ///< in the file; 0 if the fault stands in no line
};

struct CaseEntries
{
  std::vector<CaseEntry>     entries;
  std::vector<NotationFault> faults;
  bool                       is_text = true; ///< false: nothing in it could be looked at
};

/// Entries of a case file's text; `name` is the file's name for places.
CaseEntries entries_of_text(std::string_view text, const std::string &name);

/// Entries of command-line words such as `--coupon.thickness` `11 mm`.
CaseEntries entries_of_words(const std::vector<std::string> &words);

/// Command-line words told apart: those that set keys of the case (a dot in the name, with
/// their values) and all others.
struct SortedArguments
{
  std::vector<std::string> overrides;
  std::vector<std::string> others;
};
SortedArguments sort_arguments(const std::vector<std::string> &words);
} // namespace throughbend
