#pragma once
// The keys of a case in which several cases differ, with what each has. For people who
// compare runs: one list for page, table and terminal.

#include "inputs/case/case.h"
#include "inputs/case/option.h"

#include <string>
#include <vector>

namespace throughbend
{
struct DifferingKey
{
  const Option *option;
  /// One a case: as it is written there; "-" where the key has no meaning in that case,
  /// "not known" where the case is not known.
  std::vector<std::string> values;
};

/// Numbers that differ by no more than 1e-9 of their value are the same. In the order of
/// the table of options; a null pointer is a case that is not known. Words about a case
/// (lesson, chapter) are no inputs, and are left out.
std::vector<DifferingKey> differing_keys(const std::vector<const Case *> &cases);

/// Whether the key belongs to the computation (mesh, solver, output), not to the shop.
bool is_numerical(const Option &option);
} // namespace throughbend
