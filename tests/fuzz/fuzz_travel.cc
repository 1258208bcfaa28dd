// travel.csv: as a report reads it, column by column, and as a pass that is resumed does.

#include "inputs/text/input_error.h"
#include "postprocess/runs/run_record.h"
#include "solver/record/travel_record.h"
#include "tests/fuzz/fuzz_target.h"

using namespace throughbend;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *bytes, const std::size_t size)
{
  const std::string text(reinterpret_cast<const char *>(bytes), size);
  try
  {
    RunRecord run;
    run.travel = CsvTable::of_text(text, "fuzz.csv");
    for (const std::string &head : run.travel->heads())
      try
      {
        run.column(head);
      }
      catch (const InputError &)
      {
        continue;
      }
    travel_samples(*run.travel);
  }
  catch (const InputError &)
  {
    return 0;
  }
  return 0;
}
