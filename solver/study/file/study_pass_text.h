#pragma once
// A pass of a study as JSON, for its file and for messages between ranks. Figures and the
// force read back exactly, shapes to a ten-thousandth of a millimetre.

#include "solver/study/file/study_record.h"

#include <string>

namespace throughbend
{
std::string pass_text(const StudyPass &pass);

/// Throws InputError when the text is none that pass_text() gives.
StudyPass pass_of_text(const std::string &text);

/// A list of numbers, exact; NaN becomes null and back.
std::string         numbers_text(const std::vector<double> &numbers);
std::vector<double> numbers_of_text(const std::string &text);
} // namespace throughbend
