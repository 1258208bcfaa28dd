#include "solver/record/summary_file.h"

#include "inputs/text/input_error.h"
#include "inputs/text/run_file.h"
#include "solver/record/run_format.h"

namespace throughbend
{
SummaryFile read_summary_file(const std::filesystem::path &folder)
{
  SummaryFile file;
  const auto  text = run_file_text(folder, "run.json", run_file_size::summary);
  if (!text)
  {
    file.missing = "run.json is not there or cannot be read";
    return file;
  }
  try
  {
    file.members = JsonMembers(*text, (folder / "run.json").string());
  }
  catch (const CutOffError &error)
  {
    file.missing =
        "run.json cannot be read, it is cut off in line " + std::to_string(error.line);
    return file;
  }
  if (file.members.word("program") != "throughbend")
    throw InputError(
        folder.string() +
        ": run.json in it was not written by throughbend. Name a folder made by "
        "throughbend push.");
  if (format_standing(file.members) == FormatStanding::another)
    throw InputError(folder.string() + ": " + format_fault(file.members));
  return file;
}
} // namespace throughbend
