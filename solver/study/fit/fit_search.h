#pragma once
// From readings to an estimate, by passes: a wide design of few passes, a narrow one about
// what it says, and one pass on a finer mesh that corrects the mesh of all others. The
// passes are made by whoever calls, several at once; tests make them up.

#include "solver/study/fit/reading_fit.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
enum class FitMesh
{
  own,  ///< of all designs
  finer ///< one level finer, or where there is none the next coarser
};
enum class FitLength
{
  whole, ///< as far as the case's stroke goes
  read   ///< as far as readings reach
};
struct FitAsk
{
  FitPoint  point;
  FitMesh   mesh   = FitMesh::own;
  FitLength length = FitLength::read;
};
/// Passes in the order in which they were asked for; nothing: interrupted.
using FitMaker =
    std::function<std::optional<std::vector<FitPass>>(const std::vector<FitAsk> &)>;

struct FitQuestion
{
  ShopReadings               readings;
  double                     friction = 0; ///< the case's own, where it is held [-]
  std::array<bool, fit_keys> held{};
  /// Travel over which what a mesh is off by goes together: about a thickness [mm].
  double coherence       = 10;
  bool   finer_is_better = true; ///< false: the other mesh is coarser
};

/// Between these the estimates are looked for; at one of the outer ends it is none.
constexpr double least_friction = 0, most_friction = 0.6;
constexpr double least_factor = 0.5, most_factor = 2;

struct FitSearch
{
  bool       interrupted = false;
  ReadingFit fit; ///< by the corrected surface
  FitBounds  bounds;
  FitMatrix  covariance{};  ///< noise and mesh together
  FitValues  by_mesh{};     ///< how far the finer mesh moved the estimate
  double surface_error = 0; ///< of the surface against a pass at the estimate, rms / peak
  double mesh_change   = 0; ///< of the force from own to finer mesh, rms / peak
  std::size_t            rounds = 0;
  std::vector<FitPass>   wide, narrow; ///< the passes of the first and of the last design
  std::optional<FitPass> own, finer;   ///< at the estimate
  /// Slips of unit that would explain the readings, the likeliest first.
  std::vector<std::string> wrong_units;
};

/// What the readings' force and travel would have to be multiplied by if `says` were so.
struct OtherUnit
{
  double      force = 1, travel = 1;
  std::string says; ///< the forces were in kgf and not in kN
};

FitSearch fit_search(const FitQuestion &question, const std::vector<OtherUnit> &other_units,
                     const FitMaker &make);
} // namespace throughbend
