#include "inputs/guarded.h"

#include "inputs/input_error.h"
#include "inputs/shown_text.h"
#include "inputs/verb.h"

#include <filesystem>
#include <iostream>

namespace throughbend
{
namespace
{
ExitCode caught(const std::function<ExitCode()> &work)
{
  try
  {
    return work();
  }
  catch (const InputError &error)
  {
    if (speaks())
      std::cerr << "throughbend: " << shown_message(error.what()) << '\n';
    return ExitCode::bad_input;
  }
  catch (const std::filesystem::filesystem_error &error)
  {
    std::cerr << "throughbend: "
              << shown_message(error.path1().string() + ": " + error.code().message() +
                               ". Is it there, and yours to use?")
              << '\n';
    return ExitCode::failed;
  }
  catch (const std::exception &error)
  {
    std::cerr << "throughbend: " << shown_message(error.what()) << '\n';
    return ExitCode::failed;
  }
}
} // namespace

ExitCode guarded(const std::function<ExitCode()> &work)
{
  const ExitCode code = caught(work);
  std::cout.flush();
  if (std::cout)
    return code;
  std::cerr << "throughbend: the output could not be printed in full. Is the disk full, or "
               "the place closed, that it goes to?\n";
  return ExitCode::failed;
}
} // namespace throughbend
