#pragma once
// MUMPS as it is built for one process alone, in single precision: it calls no MPI, so that
// a pass on one rank starts none. Its names are those of the MUMPS that PETSc brings along
// for several ranks; so it is loaded at run time, apart from that one.

#include <smumps_c.h>

namespace throughbend
{
/// What Fortran calls MPI_COMM_WORLD there.
constexpr MUMPS_INT sole_world = -987654;

using SoleMumps = void (*)(SMUMPS_STRUC_C *);

/// Throws std::runtime_error, with the package that is missing. Never null.
SoleMumps sole_mumps();
} // namespace throughbend
