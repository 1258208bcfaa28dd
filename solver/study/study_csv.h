#pragma once
// study.csv: a row per pass for spreadsheets; keys, finding and figures, all in N, mm, MPa,
// s, deg, whatever the study was asked in. Written from the study's file, never read back.

#include "solver/study/file/study_record.h"

#include <string>

namespace throughbend
{
std::string study_csv(const StudyRecord &study);
} // namespace throughbend
