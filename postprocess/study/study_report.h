#pragma once
// Carries out `report` for the folder of a study: its page, its class page, its pictures.

#include "postprocess/verbs/report_words.h"

namespace throughbend
{
/// Whether any folder of the order holds a study. Throws InputError where it stands beside
/// other folders, or with options that only runs have.
bool is_study_order(const ReportOrder &order);

/// Says on standard output where everything is, and notes on standard error.
void report_study(const ReportOrder &order);
} // namespace throughbend
