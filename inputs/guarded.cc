#include "inputs/guarded.h"

#include "inputs/input_error.h"
#include "inputs/verb.h"

#include <iostream>

namespace throughbend
{
ExitCode guarded(const std::function<ExitCode()> &work)
{
  try
  {
    return work();
  }
  catch (const InputError &error)
  {
    if (speaks())
      std::cerr << "throughbend: " << error.what() << '\n';
    return ExitCode::bad_input;
  }
  catch (const std::exception &error)
  {
    std::cerr << "throughbend: " << error.what() << '\n';
    return ExitCode::failed;
  }
}
} // namespace throughbend
