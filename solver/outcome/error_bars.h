#pragma once
// How far the figures of a pass may be off: what each setting of the computation, and what
// nobody knows exactly of metal and grease, changes in the force and the strain. Each by a
// further pass; added up here, shown in run.json and at the end of a run.

#include "inputs/text/json.h"
#include "inputs/units/units.h"

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// What a pass came to, as far as bars go.
struct BarFigures
{
  std::string outcome;    ///< as in run.json; empty: no pass was made
  double      force  = 0; ///< that it takes: the ram's largest, beyond its capacity too [N]
  double      strain = 0; ///< largest on the convex face, likewise [log]

  bool known() const { return !outcome.empty() && outcome != "undecided"; }
};

/// One further pass.
struct BarPass
{
  enum class Kind
  {
    numerics, ///< finer mesh, shorter steps, harder contact
    shop      ///< friction, flow stress
  };
  std::string what; ///< `finer mesh`, `friction + 0.03`
  Kind        kind = Kind::numerics;
  BarFigures  figures{};
};

struct Bar
{
  double low = 0, high = 0; ///< how far down (at most 0) and up (at least 0)
  bool   whole = true;      ///< every pass of it has a finding
};

struct ErrorBars
{
  BarFigures           own;
  std::vector<BarPass> passes;

  /// Numerics: the differences of all settings added up, either way. Shop: the largest fall
  /// and the largest rise by friction, and those by flow stress, added up.
  Bar force(BarPass::Kind kind) const;  ///< [N]
  Bar strain(BarPass::Kind kind) const; ///< [log]
  /// Those whose finding is another one.
  std::vector<BarPass> turned() const;

private:
  Bar bar(BarPass::Kind kind, double BarFigures::*figure) const;
};

Json        error_bars_json(const ErrorBars &bars);
std::string error_bars_text(const ErrorBars &bars, UnitSystem units); ///< lines, each ended
} // namespace throughbend
