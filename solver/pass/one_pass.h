#pragma once
// A pass as a function, for whoever wants many of them: a case in, its record out. Writes
// no file, prints nothing, keeps nothing from one call to the next. What the verb `push`
// adds to this (folder, fields, figures of the faces, checkpoints) is in solver/app.
//
// No MPI is needed. Plane models (mesh.dimension = 2) may be made on several threads at
// once; models with width one at a time: their solver (MUMPS) is not made for threads.

#include "inputs/case/case.h"
#include "solver/outcome/at_capacity.h"
#include "solver/outcome/finding.h"
#include "solver/outcome/pass_sample.h"
#include "solver/pass/pass_counts.h"

#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
struct PassResult
{
  Finding                 finding;
  Release                 release; ///< not completed where the finding is `undecided`
  std::vector<PassSample> samples; ///< a row of travel.csv each
  std::vector<PassSample> beyond;  ///< the same beyond the ram's capacity
  PassCounts              counts;
};

/// The case must be valid, as those are that the reader gives. Throws std::exception only
/// where memory runs out or the program has an error: how a pass ends is its finding.
PassResult one_pass(const Case &c, AtCapacity at_capacity = AtCapacity::go_on);

/// From the text of a case file and overrides as on the command line, `--coupon.thickness`
/// `11 mm`. Throws InputError that lists all that is wrong with them.
PassResult one_pass(std::string_view case_text, const std::vector<std::string> &overrides,
                    AtCapacity at_capacity = AtCapacity::go_on);
} // namespace throughbend
