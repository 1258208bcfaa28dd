#pragma once
// The mark of a pass with a colour, for maps. The mark alone tells findings apart in grey
// print, and is that of the map in the terminal; grounds are light enough for dark ink, a
// jam's is dark.

#include "solver/study/file/pass_mark.h"

#include <vector>

namespace throughbend
{
struct FindingMark
{
  std::string letters;  ///< "T", "T!", "C", "?"
  std::string ground;   ///< "#rrggbb"
  std::string ink;      ///< of the letters on it
  std::string brief;    ///< "over capacity, hooked", for a legend
  int         rank = 0; ///< order in a legend
};

FindingMark mark_of(const StudyPass &pass);

/// Whether two passes find the same: outcome, what holds the coupon, metal beyond its
/// limits or not. Borders run between those that don't.
bool find_the_same(const StudyPass &a, const StudyPass &b);

/// All answers of a pass in a line: "through; metal beyond limits; low accuracy".
std::string finding_words(const StudyPass &pass);

struct CountedMark
{
  FindingMark mark;
  std::size_t count = 0;
};
/// The marks that stand among the passes, in the order of a legend.
std::vector<CountedMark> count_marks(const std::vector<StudyPass> &passes);

std::string paler(const std::string &ground); ///< the colour mixed with white
} // namespace throughbend
