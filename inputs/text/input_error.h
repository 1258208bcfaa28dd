#pragma once
// The error of a user's making: a case, an option or a place on disk that cannot be used.
// The programs print its text and leave with exit code 2; faults of the code or of the
// machine in the midst of a run are other exceptions.

#include <stdexcept>

namespace throughbend
{
/// The text says what is wrong, where, and how to cure it.
struct InputError : std::runtime_error
{
  using std::runtime_error::runtime_error;
};
} // namespace throughbend
