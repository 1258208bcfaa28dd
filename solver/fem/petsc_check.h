#pragma once
// What PETSc's functions return, as exceptions.

#include <petscsys.h>

#include <stdexcept>
#include <string>

namespace throughbend
{
/// Throws std::runtime_error, on every rank, when PETSc reports a failure. A singular
/// matrix is none of them.
inline void check_petsc(PetscErrorCode code, const char *where)
{
  if (code != 0)
    throw std::runtime_error("PETSc stopped in " + std::string(where) + ", error " +
                             std::to_string(static_cast<int>(code)));
}
} // namespace throughbend
