#pragma once
// The verb card: one sheet to hang beside a fixture.

#include "postprocess/verbs/verb.h"
#include "solver/study/file/study_record.h"

#include <filesystem>

namespace throughbend
{
/// `read` reads the record of a study; null where no folder is one.
ExitCode make_card(const VerbArguments &given,
                   StudyRecord (*read)(const std::filesystem::path &));

Verb card_verb();
} // namespace throughbend
