#pragma once
// Two runs side by side: in which keys of the case they differ, whether they came to the
// same finding, and which figures differ by more than the computation alone may make of
// them. Says nothing about which of them is right, and nothing of metal and friction, whose
// scatter is mostly wider than any band here.

#include "inputs/keys/differing_keys.h"
#include "postprocess/runs/run_figures.h"

#include <string>
#include <vector>

namespace throughbend
{
/// One answer of both runs: finding, held by, metal, accuracy.
struct AnswerPair
{
  std::string name, first, second;

  bool same() const { return first == second; }
};

struct FigurePair
{
  enum class Standing
  {
    beyond_band, ///< differs by more than both bands together
    within_band, ///< so small a difference may be of the computation alone
    no_band      ///< differs, and nobody knows how far the computation is off
  };

  std::string name;
  double      first = 0, second = 0;
  std::string (*text)(double, UnitSystem) = nullptr;
  double      band                        = 0; ///< of both together; NaN: not known
  std::string source;                          ///< of the band
  Standing    standing = Standing::within_band;

  double difference() const { return second - first; }
};

/// A figure that one of the runs has alone.
struct LoneFigure
{
  std::string name;
  bool        of_first                    = true;
  double      value                       = 0;
  std::string (*text)(double, UnitSystem) = nullptr;
};

struct RunComparison
{
  std::vector<DifferingKey> keys;
  std::vector<AnswerPair>   answers; ///< all of them, the same or not
  std::vector<FigurePair>   figures;
  std::vector<LoneFigure>   lone;
  /// Why figures are not compared: a run without a finding. A sentence each.
  std::vector<std::string> obstacles;

  bool same_answers() const;
  bool same() const; ///< in answers, and in all figures within the band; whatever the case
};

/// A difference in the figure's own unit; of shares in points.
std::string difference_text(const FigurePair &pair, double difference, UnitSystem units);

/// With + in front, unless it is below zero.
std::string signed_text(const std::string &text);

/// Difference and per cent of the first: "+8.1 kN, +27.2 %".
std::string difference_words(const FigurePair &pair, UnitSystem units);

RunComparison compared_runs(const RunRecord &first, const RunRecord &second);
} // namespace throughbend
