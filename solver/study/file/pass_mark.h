#pragma once
// What a pass of a study found as a short mark, the same in the terminal and on pages, and
// what it is that asks for a closer look. Decides nothing that the pass did not say.

#include "solver/study/file/study_record.h"

#include <string>
#include <vector>

namespace throughbend
{
struct PassMark
{
  /// T through, C the ram's capacity runs out, E its stroke runs out, J jammed, D dropped;
  /// H and S for C, E or J where the coupon is hooked or squeezed; ? no finding. ! after
  /// it: the metal is beyond its limits; else * after it: it asks for a closer look.
  std::string letters;
  int         rank = 0; ///< the higher, the more it asks to be looked at; 1: all is well
};
PassMark pass_mark(const StudyPass &pass);

/// Whether the pass has a finding that may be acted on.
bool has_finding(const StudyPass &pass);

/// Whether the ripple of the computed force could turn the finding.
bool is_close(const StudyPass &pass);

/// What a pass lacks that is sound, each in a few words. Of one that goes through: its
/// events, "close", "metal not known", "low accuracy". Of one that stops: "close" and
/// "low accuracy". Empty: nothing.
std::vector<std::string> doubts(const StudyPass &pass);
} // namespace throughbend
