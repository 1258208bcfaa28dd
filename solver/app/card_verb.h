#pragma once
// The verb card: one sheet to hang beside a fixture.

#include "inputs/study_record.h"
#include "inputs/verb.h"

#include <filesystem>

namespace throughbend
{
/// `read` reads the record of a study; null where no folder is one.
ExitCode make_card(const GivenWords &given,
                   StudyRecord (*read)(const std::filesystem::path &));

Verb card_verb();
} // namespace throughbend
