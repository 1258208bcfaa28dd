#pragma once
// One pass as a study keeps it: the pass of the verb `push`, its figures by the names of
// run.json, a thinned force curve, and the shapes at a dozen moments.

#include "solver/outcome/at_capacity.h"
#include "solver/study/pass_crew.h"

namespace throughbend
{
/// Nothing where it was stopped. Plane models may be made on several threads at once; those
/// with width are made one at a time. Neither needs MPI.
std::optional<StudyPass> study_pass(const Case &c, AtCapacity at_capacity,
                                    const std::function<bool()> &stop);
} // namespace throughbend
