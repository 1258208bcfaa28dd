// Catalogues of metals, lubricants and fixture rules: the first byte says which.

#include "inputs/catalogue/lubricant_catalogue.h"
#include "inputs/catalogue/rule_catalogue.h"
#include "inputs/keys/material_catalogue.h"
#include "tests/fuzz/fuzz_target.h"

using namespace throughbend;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *bytes, const std::size_t size)
{
  if (size == 0)
    return 0;
  const std::string_view text(reinterpret_cast<const char *>(bytes) + 1, size - 1);
  switch (bytes[0] % 3)
  {
  case 0:
    fault_list(read_materials(text, "fuzz.csv").faults);
    break;
  case 1:
    fault_list(read_lubricants(text, "fuzz.csv").faults);
    break;
  default:
    fault_list(read_fixture_rules(text, "fuzz.csv").faults);
    break;
  }
  return 0;
}
