#pragma once
// The case that a run was made with, as run.json keeps it: a case.ini beside it may have
// been changed since, and then tells of a pass that was not made.

#include "inputs/case/case.h"
#include "inputs/text/json_members.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// What differs between a case and the one that was recorded, as `coupon.thickness is 11 mm
/// and was 10 mm in the run`. Titles and lessons may be rewritten; keys that the program
/// which made the run did not know are passed over. Of a run that recorded nothing but a
/// hash: that the hash differs.
std::vector<std::string> changes_since_run(const Case &now, const JsonMembers &summary);

/// The case that was recorded; nothing where none was, or where this version cannot read
/// it.
std::optional<Case> recorded_case(const JsonMembers &summary);
} // namespace throughbend
