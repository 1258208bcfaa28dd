#pragma once
// Checks of fields against each other, after every field is fine by itself. Only what
// cannot be set up or makes no sense is refused; a coupon that is too thick, long or strong
// to go through is what the simulation is there to find out.

#include "inputs/case/case.h"

#include <string>
#include <vector>

namespace throughbend
{
/// Why a case cannot be run as it stands.
struct Objection
{
  std::vector<std::string> keys; ///< all keys that were weighed, the likely culprit first
  std::string              problem; ///< with the numbers
  std::string              cure;    ///< what would be accepted
};

std::vector<Objection> find_objections(const Case &);

/// The same for a metal alone.
std::vector<Objection> find_material_objections(const Material &);

/// What keeps a formula from being the flow curve of a zone; the keys are those to blame.
std::vector<Objection> find_formula_objections(const FlowCurve                &flow,
                                               const std::vector<std::string> &keys);

/// What can be run but is probably not meant.
std::vector<std::string> find_remarks(const Case &);
} // namespace throughbend
