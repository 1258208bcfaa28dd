#pragma once
// What the program tells the shell when it ends. Scripts rely on the numbers.

namespace throughbend
{
enum class ExitCode
{
  finding     = 0, ///< a finding was made, whatever it is, or what was asked for was shown
  unexpected  = 1, ///< a finding, but not the one --expect names
  bad_input   = 2, ///< the case, an option or a place on disk cannot be used
  undecided   = 3, ///< the computation gave up
  interrupted = 4, ///< stopped by the user; the record so far is complete
  failed      = 5  ///< an error of the machine or of the program
};
} // namespace throughbend
