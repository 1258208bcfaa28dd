#pragma once
// What a pass of a study found as one letter and one colour, for maps. The letter alone
// tells findings apart in grey print; colours are light enough for dark ink.

#include "inputs/study_record.h"

#include <vector>

namespace throughbend
{
enum class FindingMark
{
  sound,        ///< through as a sound pass goes, metal within its limits, figures sound
  open,         ///< through, but something is not known or is to be looked at
  metal_beyond, ///< through, the metal beyond its limits
  over_capacity,
  stroke_out,
  jammed,
  dropped,
  none ///< no finding, or none that may rest on the record
};

/// In the order of a legend.
const std::vector<FindingMark> &finding_marks();

FindingMark mark_of(const StudyPass &pass);

/// Whether the pass has a finding that may be acted on.
bool has_finding(const StudyPass &pass);

std::string letter_of(FindingMark mark);
std::string colour_of(FindingMark mark);     ///< of the ground, "#rrggbb"
std::string ink_of(FindingMark mark);        ///< of the letter on it
std::string name_of(FindingMark mark);       ///< "over capacity"
std::string brief_name_of(FindingMark mark); ///< for a legend in a few letters

/// All answers of a pass in a line: "through; metal beyond limits; low accuracy".
std::string finding_words(const StudyPass &pass);

/// How often each mark stands, in the order of finding_marks().
std::vector<std::size_t> count_marks(const std::vector<StudyPass> &passes);
} // namespace throughbend
