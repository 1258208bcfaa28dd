#pragma once
// The preconditioner of large bodies: one symmetric two-level cycle instead of a
// factorisation. Gauss-Seidel on the quadratic displacements, forward before and backward
// after a correction from linear ones, whose matrix P^T A P is factorised (Trottenberg,
// Oosterlee & Schueller 2001, Multigrid, chapter 2). Its time grows with the number of
// unknowns, that of a factorisation with its square.

#include "solver/fem/coarse_space.h"
#include "solver/fem/symmetric_factor.h"

namespace throughbend
{
/// `matrix` must outlive what is returned; it is the one that factorise() gets the triangle
/// of.
std::unique_ptr<SymmetricFactor> make_two_level_factor(const CompressedColumns &matrix,
                                                       CoarseSpace              space);
} // namespace throughbend
