#pragma once
// What a pass of a study says of itself, in the units of its reader. Passes of older
// versions say it in metric units only.

#include "postprocess/runs/account_text.h"
#include "solver/study/file/study_record.h"

#include <string>

namespace throughbend
{
/// The first line of a run.
std::string pass_verdict(const StudyPass &pass, const ShownNumber &shown);

/// A few sentences on which the outcome rests; may be empty.
std::string pass_evidence(const StudyPass &pass, const ShownNumber &shown);
} // namespace throughbend
