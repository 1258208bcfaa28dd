#pragma once
// LDL^T of a plane strip on two threads: the coupon is cut across, each half factorised
// with the unknowns of the cut last, and what both leave of the cut solved as a dense
// matrix (nested dissection, George 1973, SIAM J. Numer. Anal. 10, 345, with one cut). The
// result does not depend on whether there is a second thread.

#include "solver/fem/cell_crew.h"
#include "solver/fem/symmetric_factor.h"

namespace throughbend
{
/// CHOLMOD's simplicial LDL^T of each half, ordered by CAMD or CSYMAMD once. Null
/// where no small cut leaves two halves of about the same size. The crew must outlive it.
/// Throws std::bad_alloc when memory does not suffice.
std::unique_ptr<SymmetricFactor> make_halved_factor(const SymmetricTriangle &pattern,
                                                    CellCrew                &crew);
} // namespace throughbend
