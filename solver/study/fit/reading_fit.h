#pragma once
// Nonlinear least squares of readings on a surface of passes: friction, flow-stress factor,
// and the zeros of travel and force. Minimised by Levenberg-Marquardt with bounds (Ceres
// Solver) under Huber's loss; the covariance of the estimate by the linear approximation at
// the minimum. Makes no passes and judges nothing.
//
// Sources: Bates & Watts (1988), Nonlinear Regression Analysis and Its Applications, 2.3
// (linear approximation intervals). Huber (1964), Ann. Math. Statist. 35, 73 (the loss);
// its covariance and the factor K: Huber (1981), Robust Statistics, 7.6; the
// constant 1.345, 95 % efficient under normal errors: Holland & Welsch (1977), Commun.
// Statist. A6, 813. All from memory.

#include "solver/study/fit/pass_surface.h"

#include <array>
#include <limits>
#include <vector>

namespace throughbend
{
/// What is looked for, in the order of estimates and covariances.
enum class FitKey
{
  friction,
  factor,
  travel_zero, ///< what the ruler shows at first touch [mm]
  force_zero   ///< what the gauge shows without load [N]
};
constexpr std::size_t fit_keys = 4;
using FitValues                = std::array<double, fit_keys>;
using FitMatrix                = std::array<FitValues, fit_keys>;
std::string to_text(FitKey key);

struct FitBounds
{
  FitValues low{}, high{};
  /// Kept at the value they start from.
  std::array<bool, fit_keys> held{};
};

struct ReadingFit
{
  FitValues estimate{};
  FitMatrix covariance{};  ///< of what is not held; all noise, no error of the model
  FitMatrix information{}; ///< its inverse: what further readings add to
  bool      converged = false;
  /// Of each reading, in their order: reading minus model [N] and over its standard error;
  /// NaN where no pass reaches.
  std::vector<double> residual, scaled;
  std::vector<double> sigma;      ///< standard error of each reading [N], as estimated
  std::vector<double> model;      ///< [N], the zeros put in
  std::vector<double> end_scaled; ///< of the measures of the bent coupon
  double              noise = 0;  ///< standard error of the forces over the usual one [-]
  /// Of each reading: slope of its scaled residual with each key; 0 where it is not used.
  std::vector<FitValues> slopes;
  double inflation    = 1; ///< of the covariance, over that of independent normal noise [-]
  double lag          = 0; ///< correlation of neighbouring residuals [-]
  double peak         = 0; ///< largest force of the model where it was read [N]
  std::size_t used    = 0; ///< readings that the passes reach
  int         freedom = 0; ///< readings and measures less what is looked for
  /// Half width of the 95 % interval over the standard error: Student's t.
  double width = 2;
  /// Largest change of the model's force with the factor, over the force [-]: below 1 where
  /// the metal is elastic.
  double plastic = 0;
};

/// What the noise of a force reading is taken to be before the residuals tell: this share
/// of the force, and this share of the largest force (common practice, no source).
constexpr double usual_noise = 0.02, usual_floor = 0.003;

/// Inverse over what is not held; infinite where the information leaves something open.
FitMatrix covariance_of(const FitMatrix                  &information,
                        const std::array<bool, fit_keys> &held);

/// What a force read at a travel to a standard error [N] would add to the information.
FitMatrix information_of_force(const PassSurface &surface, const FitValues &at,
                               double travel, double sigma);
FitMatrix information_of_end(const PassSurface &surface, const FitValues &at, EndKind kind,
                             double sigma);
FitMatrix sum_of(const FitMatrix &a, const FitMatrix &b);

/// `end_model_error`: of the measures, one standard error from the mesh, by kind.
ReadingFit fit_readings(const ShopReadings &readings, const PassSurface &surface,
                        const FitBounds &bounds, const FitValues &start,
                        const std::map<EndKind, double> &end_model_error = {});
} // namespace throughbend
