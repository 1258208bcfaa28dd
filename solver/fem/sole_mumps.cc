#include "solver/fem/sole_mumps.h"

#include <dlfcn.h>

#include <stdexcept>
#include <string>

namespace throughbend
{
namespace
{
SoleMumps loaded()
{
  // Its own names before those of everybody: the calls to MPI are answered by the stand-ins
  // that it comes with.
  void *const library =
      dlopen(THROUGHBEND_SOLE_MUMPS, RTLD_NOW | RTLD_LOCAL | RTLD_DEEPBIND);
  if (library == nullptr)
    throw std::runtime_error(
        "the solver of models with width cannot be loaded: " + std::string(dlerror()) +
        ". It is in Debian's package libmumps-seq-5.5.");
  void *const call = dlsym(library, "smumps_c");
  if (call == nullptr)
    throw std::runtime_error(std::string(THROUGHBEND_SOLE_MUMPS) +
                             " is no MUMPS in single precision: " + dlerror());
  return reinterpret_cast<SoleMumps>(call);
}
} // namespace

SoleMumps sole_mumps()
{
  static const SoleMumps call = loaded();
  return call;
}
} // namespace throughbend
