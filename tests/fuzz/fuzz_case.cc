// A case, from its text to the checks between its fields, and back to text: what is read as
// a case must read again as the same one.

#include "inputs/keys/case_reader.h"
#include "inputs/keys/case_text.h"
#include "tests/fuzz/fuzz_target.h"

#include <cstdlib>

using namespace throughbend;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *bytes, const std::size_t size)
{
  const std::string_view text(reinterpret_cast<const char *>(bytes), size);
  // A file that the bytes name would be read, and their finder would find it.
  if (text.find("catalogue") != std::string_view::npos ||
      text.find("curve") != std::string_view::npos)
    return 0;
  const CaseReading reading = read_case_text(text, "fuzz.ini", {});
  error_list(reading.errors);
  if (!reading.value)
  {
    if (reading.errors.empty())
      std::abort();
    return 0;
  }
  const std::string given = effective_text(*reading.value);
  const CaseReading again = read_case_text(given, "again.ini", {});
  if (!again.value || effective_text(*again.value) != given)
    std::abort();
  return 0;
}
