// A run folder, packed into one text: a line `@@ NAME` begins each file. Written to a
// folder and read by all that reads run folders.

#include "tests/fuzz/fuzz_target.h"
#include "tests/fuzz/run_readers.h"
#include "tests/support/scratch_folder.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <iostream>

using namespace throughbend;
namespace fs = std::filesystem;

namespace
{
/// Folder and files are made once: the fuzzer comes thousands of times a minute.
const fs::path &place()
{
  static const ScratchFolder scratch;
  static const fs::path      run = [&]
  {
    fs::create_directories(scratch / "run/fields");
    fs::create_directories(scratch / "run/tools");
    return scratch / "run";
  }();
  return run;
}

constexpr std::array<std::string_view, 11> names = {
    "run.json",      "case.ini",          "travel.csv",   "beyond.csv",
    "surface.csv",   "fields/fields.pvd", "fields/a.vtu", "fields/b.vtu",
    "fields/a.pvtu", "tools/tools.pvd",   "tools/a.vtp"};
} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *bytes, const std::size_t size)
{
  const std::string_view text(reinterpret_cast<const char *>(bytes), size);
  if (text.find("catalogue") != std::string_view::npos ||
      text.find("curve") != std::string_view::npos)
    return 0; // would read a file that the bytes name
  for (const std::string_view name : names)
    fs::remove(place() / name);
  for (std::size_t at = text.find("@@ "); at != std::string_view::npos;)
  {
    const std::size_t      line = std::min(text.find('\n', at), text.size());
    const std::string_view name = text.substr(at + 3, line - at - 3);
    const std::size_t      next = text.find("@@ ", line);
    const std::size_t      from = std::min(line + 1, text.size());
    if (std::find(names.begin(), names.end(), name) != names.end())
      put_content(place() / name,
                  std::string(text.substr(from, std::min(next, text.size()) - from)));
    at = next;
  }
  const ReaderFaults found =
      read_as_verbs_do(place(), WholeRun(), "\x01 nowhere", Pictures::left_out);
  for (const std::string &fault : found.faults)
    std::cerr << fault << '\n';
  if (!found.faults.empty())
    std::abort();
  return 0;
}
