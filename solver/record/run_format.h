#pragma once
// The form of what a run leaves: run.json and its tables. Members and columns are described
// in solver/record/formats, which also says what a change of these numbers means.

#include "inputs/text/json_members.h"

#include <string>

namespace throughbend
{
/// MAJOR.MINOR, as run.json keeps it under `format`. What is added raises MINOR; what is
/// renamed, removed, or changes its unit or meaning raises MAJOR.
constexpr const char *run_format = "1.1";

/// Folder of the checkpoints in a run that has not ended.
constexpr const char *checkpoint_folder = "checkpoint";

/// Whether figures of a run.json mean what they mean to this program.
enum class FormatStanding
{
  known,       ///< of our MAJOR, whatever its MINOR
  another,     ///< of another MAJOR
  not_numbered ///< made before the form had a number
};
FormatStanding format_standing(const JsonMembers &summary);

/// Why a run of another form cannot be read, and the cure, as the end of a sentence; empty
/// where it can.
std::string format_fault(const JsonMembers &summary);
} // namespace throughbend
