// run.json alone: gathered into a table, compared with itself, and the case that it
// records.

#include "inputs/text/input_error.h"
#include "postprocess/runs/recorded_case.h"
#include "postprocess/runs/run_badge.h"
#include "postprocess/runs/run_comparison.h"
#include "postprocess/runs/run_table.h"
#include "solver/record/run_format.h"
#include "tests/fuzz/fuzz_target.h"

using namespace throughbend;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *bytes, const std::size_t size)
{
  const std::string text(reinterpret_cast<const char *>(bytes), size);
  if (text.find("catalogue") != std::string::npos ||
      text.find("curve") != std::string::npos)
    return 0; // would read a file that the bytes name
  try
  {
    RunRecord run;
    run.folder  = "fuzz";
    run.name    = "fuzz";
    run.summary = JsonMembers(text, "fuzz/run.json");
    format_fault(run.summary);
    run.known_case = recorded_case(run.summary);
    if (run.known_case)
      changes_since_run(*run.known_case, run.summary);
    badge_words(run);
    check_row(run);
    table_csv({run, run}, FigureChoice::all);
    table_text({run}, UnitSystem::us);
    compared_runs(run, run);
  }
  catch (const InputError &)
  {
    return 0;
  }
  return 0;
}
