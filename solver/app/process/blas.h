#pragma once
// Which BLAS this process really calls, asked of the loader rather than of the build, and
// its threads set to one: the systems here are too small for more (two were slower).

#include <string>

namespace throughbend
{
struct Blas
{
  std::string name; ///< with its version and the library's file
  int         threads = 1;
};

Blas use_one_blas_thread();
} // namespace throughbend
