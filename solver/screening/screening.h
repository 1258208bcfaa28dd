#pragma once
// The instant answer to a case: what closed forms and a beam can say before anything is
// simulated, line by line, each with its formula, band and verdict, and what they cannot
// say. Computes in a few milliseconds; needs neither mesh nor deal.II. Words and layout:
// check_text.

#include "inputs/case/case.h"
#include "inputs/catalogue/fixture_by_rule.h"
#include "solver/screening/force_band.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
enum class Verdict
{
  ok,
  close, ///< the margin is smaller than what the formula or the shop may be off by
  no,
  figure ///< a number with nothing to weigh it against
};
std::string to_text(Verdict verdict); ///< "ok", "close", "no", "-"

/// What a number measures, and with that how it is shown.
enum class Measure
{
  length,    ///< [mm]
  force,     ///< [N]
  line_load, ///< [N/mm]
  stress,    ///< [MPa]
  energy,    ///< [N mm]
  speed,     ///< [m/s]
  angle,     ///< [deg]
  share,     ///< [-], shown in per cent
  count      ///< [-]
};

/// A formula with its source and where it holds.
struct Formula
{
  std::string name, source, limits;
};

/// The number that decides, with the words in front of it.
struct Weighed
{
  std::string words; ///< `of the ram's`
  double      value   = 0;
  Measure     measure = Measure::length;
  std::string tail    = {}; ///< behind the number, with its blank: ` or more`
};

struct ScreenLine
{
  std::string            key;      ///< for machines: `peak_force`
  std::string            quantity; ///< for people: `peak ram force`
  Measure                measure = Measure::length;
  double                 value   = 0;
  std::optional<double>  low, high; ///< band of the value; none: exact for what it says
  Verdict                verdict = Verdict::figure;
  std::string            shown; ///< words in place of a value that is none; may be empty
  std::optional<Weighed> against, also;
  Formula                formula;
  std::string            note; ///< a few words more, without a figure; may be empty
};

struct ScreenSection
{
  std::string             title;
  std::vector<ScreenLine> lines;
};

struct Screening
{
  std::string                   title;
  std::vector<ScreenSection>    sections;
  std::vector<ForcePoint>       force;  ///< along the travel, some ten points
  std::optional<RuleComparison> rule;   ///< with fixture.rule, if one is named
  std::vector<std::string> not_cleared; ///< what nobody told, so that no line clears it
  std::vector<std::string> cautions;    ///< what of this case the formulas leave out
  std::vector<std::string> only_push;   ///< questions that only the simulation answers

  /// The line with this key, or null.
  const ScreenLine *find(const std::string &key) const;
  Verdict           worst() const; ///< of all lines and the rule: no over close over ok
};

/// The case must be valid (see inputs/keys/validation). Throws InputError for a
/// fixture.rule that the catalogue does not have.
Screening screen(const Case &c);
} // namespace throughbend
