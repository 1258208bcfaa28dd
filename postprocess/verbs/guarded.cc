#include "postprocess/verbs/guarded.h"

#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "postprocess/verbs/verb.h"

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
    if (may_print())
      std::cerr << "throughbend: " << shown_message(error.what()) << '\n';
    return ExitCode::bad_input;
  }
  catch (const std::filesystem::filesystem_error &error)
  {
    std::cerr << "throughbend: "
              << shown_message(error.path1().string() + ": " + error.code().message() +
                               ". Check that it exists and that you may use it.")
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
  std::cerr << "throughbend: the output could not be printed completely. Is the disk "
               "full, or was the receiving program closed?\n";
  return ExitCode::failed;
}
} // namespace throughbend
