#pragma once
// What the passes of a spread say together: probabilities, quantiles, what matters; as
// numbers, as JSON for the store, and as text.

#include "inputs/case/case.h"
#include "inputs/units/units.h"
#include "solver/study/spread_design.h"
#include "solver/study/statistics/chance.h"
#include "solver/study/statistics/key_weights.h"
#include "solver/study/statistics/quantile_band.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
struct NamedChance
{
  std::string what; ///< `not through`
  Chance      chance;
};

/// A figure of all passes that have it.
struct FigureSpread
{
  std::string               name;       ///< as in run.json: peak_ram_force_N
  std::size_t               passes = 0; ///< that have it
  std::vector<QuantileBand> quantiles;
  FigureWeights             weights;
};

struct SpreadAnswers
{
  std::size_t done = 0, undecided = 0, low_accuracy = 0, close = 0;
  std::vector<std::pair<std::string, std::size_t>> outcomes; ///< the most frequent first
  std::vector<NamedChance>                         chances;
  /// peak_ram_force_N: of every decided pass, what it takes beyond the ram's capacity
  /// included; a jam counts as more than any force. peak_face_strain_log: of passes that
  /// went through.
  std::vector<FigureSpread> figures;
  bool metal_known = false; ///< whether any pass could say what the metal bears
};

/// `passes[i]` is that of design point i; null: not made, yet. A study that was broken off
/// says what the passes made so far say.
SpreadAnswers spread_answers(const SpreadDesign                   &design,
                             const std::vector<const StudyPass *> &passes);

/// As solver/study/answers.md has it.
std::string spread_json(const SpreadDesign &design, const SpreadAnswers &answers);

std::string spread_words(const SpreadDesign &design, const SpreadAnswers &answers,
                         const Case &own, UnitSystem units);
} // namespace throughbend
