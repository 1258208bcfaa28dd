#pragma once
// A study's folder as it is read back: study.db, a file of SQLite. Written by solver/study;
// whoever reads one links throughbend_study_file.

#include "solver/study/file/study_record.h"

#include <filesystem>

namespace throughbend
{
/// Name of the file in a study's folder.
constexpr const char *study_file_name = "study.db";

/// Whether the folder holds a study. False for a run and for anything else.
bool is_study(const std::filesystem::path &folder);

/// Throws InputError, with the cure, when there is no study of ours, or when its file is
/// broken or of a later version. A study that is under way is read as far as it is.
StudyRecord read_study(const std::filesystem::path &folder);

std::string to_text(StudyKind kind); ///< "limit", "map", "spread", "choice"

/// Keys as they stand in the file.
std::string keys_text(const std::vector<StudyKey> &keys);
} // namespace throughbend
