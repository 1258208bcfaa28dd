#pragma once
// Limits that simulated passes of a study put in the place of closed forms on a card. Reads
// a study's record, not its file. A limit is the end of a row of sound passes about the
// case's own coupon, less the margins of check.

#include "inputs/case/case.h"
#include "solver/study/file/study_record.h"

#include <optional>
#include <string>

namespace throughbend
{
/// Along one key, the rest as in the case.
struct PassLimit
{
  double      value = 0; ///< with check's margins kept [mm], or [MPa]
  double      good  = 0; ///< largest of the sound passes
  double      force = 0; ///< largest ram force of the sound passes up to `value` [N]
  std::string by;        ///< `passes, over-capacity beyond 11.6 mm`
  std::string source;    ///< folder, both sides, and the margin
};

struct PassLimits
{
  std::optional<PassLimit> thickness, length, yield;
};

/// Throws InputError, with the cure, for a study that is not whole, is of another fixture,
/// or of a case that differs from this one in more than a weaker ram and the mesh; for one
/// without passes along thickness, length or yield; and where the case's own coupon is none
/// of a row of sound passes.
PassLimits pass_limits(const StudyRecord &study, const std::string &folder, const Case &c);

/// Of another study, where this one has none. Two along one key: the lesser.
void add_limits(PassLimits &limits, const PassLimits &other);
} // namespace throughbend
