#pragma once
// study.csv: a row per pass for spreadsheets; keys in the units that are shown, then
// finding and figures. Written from the study's file, never read back.

#include "solver/study/file/study_record.h"

#include <string>

namespace throughbend
{
std::string study_csv(const StudyRecord &study);
} // namespace throughbend
