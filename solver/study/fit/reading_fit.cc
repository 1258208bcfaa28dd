#include "solver/study/fit/reading_fit.h"

#include <Eigen/Dense>
#include <boost/math/distributions/students_t.hpp>
#include <ceres/ceres.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double huber = 1.345;
/// Mean square of a standard normal variable that is clipped there:
/// 2 P(k) - 1 - 2 k p(k) + 2 k^2 (1 - P(k)).
constexpr double huber_square = 0.7102;

/// Steps of the difference quotients of the surface, which is smooth in the first two.
constexpr FitValues steps = {0.002, 0.002, 0.02, 1};

FitPoint point_of(const double *p)
{
  return {p[0], p[1]};
}

double model_force(const PassSurface &surface, const Reading &reading, const double *p)
{
  return p[3] + surface.force(reading.travel - p[2], point_of(p));
}

/// Slopes of (reading - model) / sigma by all keys, by central difference quotients.
template <typename Model>
void take_slopes(const Model &model, const double *p, const double sigma, double *slopes)
{
  for (std::size_t k = 0; k < fit_keys; ++k)
  {
    FitValues up{}, down{};
    std::copy(p, p + fit_keys, up.begin());
    down = up;
    up[k] += steps[k];
    down[k] -= steps[k];
    slopes[k] = -(model(up.data()) - model(down.data())) / (2 * steps[k] * sigma);
  }
}

/// (reading - model) / sigma, with derivatives.
class ForceResidual : public ceres::SizedCostFunction<1, fit_keys>
{
public:
  ForceResidual(const PassSurface &surface, const Reading &reading, const double sigma)
      : surface_(surface), reading_(reading), sigma_(sigma)
  {
  }
  bool Evaluate(double const *const *p, double *residual, double **slopes) const override
  {
    residual[0] = (reading_.force - model_force(surface_, reading_, p[0])) / sigma_;
    if (slopes != nullptr && slopes[0] != nullptr)
      take_slopes([&](const double *at) { return model_force(surface_, reading_, at); },
                  p[0], sigma_, slopes[0]);
    return std::isfinite(residual[0]);
  }

private:
  const PassSurface &surface_;
  Reading            reading_;
  double             sigma_;
};

class EndResidual : public ceres::SizedCostFunction<1, fit_keys>
{
public:
  EndResidual(const PassSurface &surface, const EndReading &reading, const double sigma)
      : surface_(surface), reading_(reading), sigma_(sigma)
  {
  }
  bool Evaluate(double const *const *p, double *residual, double **slopes) const override
  {
    residual[0] = (reading_.value - surface_.end(reading_.kind, point_of(p[0]))) / sigma_;
    if (slopes != nullptr && slopes[0] != nullptr)
      take_slopes([&](const double *at)
                  { return surface_.end(reading_.kind, point_of(at)); },
                  p[0], sigma_, slopes[0]);
    return std::isfinite(residual[0]);
  }

private:
  const PassSurface &surface_;
  EndReading         reading_;
  double             sigma_;
};

class Fitting
{
public:
  Fitting(const ShopReadings &readings, const PassSurface &surface, const FitBounds &bounds,
          const FitValues &start, const std::map<EndKind, double> &end_model_error)
      : readings_(readings), surface_(surface), bounds_(bounds)
  {
    fit_.estimate = start;
    choose(start);
    for (const EndReading &end : readings.ends)
    {
      const auto more = end_model_error.find(end.kind);
      end_sigma_.push_back(
          std::hypot(end.error, more == end_model_error.end() ? 0. : more->second));
    }
  }

  ReadingFit fitted()
  {
    if (fit_.used < fewest_readings)
      return fit_;
    // The forces' own scatter sets their scale, by Huber's Proposal 2 (1964); the measures
    // keep theirs. More rounds than a few change nothing.
    for (int round = 0; round < 8; ++round)
    {
      set_sigma();
      solve();
      note_residuals();
      double squares = 0;
      for (const std::size_t i : used_)
        squares += std::pow(std::clamp(fit_.scaled[i], -huber, huber), 2);
      const double freedom = std::max(1., static_cast<double>(used_.size()) - n_free());
      const double least   = 0.02; // readings made by a program have next to none
      const double before  = fit_.noise;
      fit_.noise = std::max(least, before * std::sqrt(squares / freedom / huber_square));
      if (std::abs(fit_.noise - before) < 0.01 * before)
        break;
    }
    set_sigma();
    note_residuals();
    covariance();
    return fit_;
  }

private:
  int n_free() const
  {
    return static_cast<int>(std::count(bounds_.held.begin(), bounds_.held.end(), false));
  }

  /// Readings that all passes reach, wherever the zero of travel ends up.
  void choose(const FitValues &)
  {
    const double reach = surface_.covered();
    for (std::size_t i = 0; i < readings_.push.size(); ++i)
      if (readings_.push[i].travel - bounds_.low[2] <= reach)
        used_.push_back(i);
    fit_.used  = used_.size();
    fit_.noise = 1;
  }

  void set_sigma()
  {
    const FitValues &p = fit_.estimate;
    fit_.peak          = 0;
    std::vector<double> model;
    for (const Reading &reading : readings_.push)
    {
      model.push_back(surface_.force(reading.travel - p[2], point_of(p.data())));
      if (std::isfinite(model.back()))
        fit_.peak = std::max(fit_.peak, model.back());
    }
    fit_.sigma.clear();
    for (std::size_t i = 0; i < readings_.push.size(); ++i)
    {
      const Reading &reading = readings_.push[i];
      const double   h       = std::max(0.2, readings_.travel_mark / 2);
      const double   slope =
          (surface_.force(reading.travel - p[2] + h, point_of(p.data())) -
           surface_.force(std::max(0., reading.travel - p[2] - h), point_of(p.data()))) /
          (2 * h);
      // A value rounded to marks is off by mark / sqrt(12) in the mean square.
      const double by_travel =
          std::isfinite(slope) ? slope * readings_.travel_mark / std::sqrt(12.) : 0;
      const double by_mark = readings_.force_mark / std::sqrt(12.);
      const double own     = fit_.noise * std::hypot(usual_noise * std::max(0., model[i]),
                                                     usual_floor * fit_.peak);
      fit_.sigma.push_back(
          std::sqrt(own * own + by_mark * by_mark + by_travel * by_travel));
    }
  }

  void solve()
  {
    ceres::Problem problem;
    FitValues     &p = fit_.estimate;
    for (const std::size_t i : used_)
      problem.AddResidualBlock(
          new ForceResidual(surface_, readings_.push[i], fit_.sigma[i]),
          new ceres::HuberLoss(huber), p.data());
    for (std::size_t i = 0; i < readings_.ends.size(); ++i)
      if (std::isfinite(surface_.end(readings_.ends[i].kind, point_of(p.data()))))
        problem.AddResidualBlock(
            new EndResidual(surface_, readings_.ends[i], end_sigma_[i]),
            new ceres::HuberLoss(huber), p.data());
    std::vector<int> held;
    for (std::size_t k = 0; k < fit_keys; ++k)
      if (bounds_.held[k])
        held.push_back(static_cast<int>(k));
      else
      {
        p[k] = std::clamp(p[k], bounds_.low[k], bounds_.high[k]);
        problem.SetParameterLowerBound(p.data(), static_cast<int>(k), bounds_.low[k]);
        problem.SetParameterUpperBound(p.data(), static_cast<int>(k), bounds_.high[k]);
      }
    if (held.size() == fit_keys)
      return;
    if (!held.empty())
      problem.SetManifold(p.data(), new ceres::SubsetManifold(fit_keys, held));
    ceres::Solver::Options options;
    options.linear_solver_type           = ceres::DENSE_QR;
    options.logging_type                 = ceres::SILENT;
    options.minimizer_progress_to_stdout = false;
    options.max_num_iterations           = 200;
    options.function_tolerance           = 1e-10;
    options.parameter_tolerance          = 1e-9;
    ceres::Solver::Summary summary;
    ceres::Solve(options, &problem, &summary);
    fit_.converged = summary.IsSolutionUsable();
  }

  void note_residuals()
  {
    const FitValues &p = fit_.estimate;
    fit_.residual.clear();
    fit_.scaled.clear();
    fit_.model.clear();
    for (std::size_t i = 0; i < readings_.push.size(); ++i)
    {
      fit_.model.push_back(model_force(surface_, readings_.push[i], p.data()));
      fit_.residual.push_back(readings_.push[i].force - fit_.model.back());
      fit_.scaled.push_back(fit_.residual.back() / fit_.sigma[i]);
    }
    fit_.end_scaled.clear();
    for (std::size_t i = 0; i < readings_.ends.size(); ++i)
      fit_.end_scaled.push_back((readings_.ends[i].value -
                                 surface_.end(readings_.ends[i].kind, point_of(p.data()))) /
                                end_sigma_[i]);
  }

  void covariance()
  {
    std::vector<std::size_t> free;
    for (std::size_t k = 0; k < fit_keys; ++k)
      if (!bounds_.held[k])
        free.push_back(k);
    const auto          p = static_cast<Eigen::Index>(free.size());
    std::vector<double> r;
    Eigen::MatrixXd     h = Eigen::MatrixXd::Zero(p, p);
    fit_.slopes.assign(readings_.push.size(), FitValues{});
    const auto put = [&](const ceres::CostFunction &cost)
    {
      double        residual = 0;
      FitValues     slopes{};
      const double *at   = fit_.estimate.data();
      double       *into = slopes.data();
      cost.Evaluate(&at, &residual, &into);
      if (!std::isfinite(residual))
        return FitValues{};
      r.push_back(residual);
      Eigen::VectorXd row(p);
      for (Eigen::Index a = 0; a < p; ++a)
        row(a) = slopes[free[static_cast<std::size_t>(a)]];
      h += row * row.transpose();
      return slopes;
    };
    fit_.plastic = 0;
    for (const std::size_t i : used_)
    {
      fit_.slopes[i] = put(ForceResidual(surface_, readings_.push[i], fit_.sigma[i]));
      FitValues up   = fit_.estimate;
      up[1] += 0.02;
      const double force = fit_.model[i] - fit_.estimate[3];
      if (force > 0.2 * fit_.peak)
        fit_.plastic =
            std::max(fit_.plastic,
                     (model_force(surface_, readings_.push[i], up.data()) - fit_.model[i]) /
                         (0.02 / fit_.estimate[1] * force));
    }
    for (std::size_t i = 0; i < readings_.ends.size(); ++i)
      put(EndResidual(surface_, readings_.ends[i], end_sigma_[i]));
    const double n = static_cast<double>(r.size());
    fit_.freedom   = static_cast<int>(r.size()) - static_cast<int>(free.size());
    if (fit_.freedom < 1 || p == 0)
      return;
    // Huber (1981), 7.6: K^2 [sum psi^2 / (n - p)] / [mean psi']^2 (J^T J)^-1.
    double squares = 0, inside = 0;
    for (const double value : r)
    {
      squares += std::pow(std::clamp(value, -huber, huber), 2);
      inside += std::abs(value) <= huber ? 1 : 0;
    }
    const double m       = std::max(inside / n, 0.1);
    const double k       = 1 + static_cast<double>(p) / n * (1 - m) / m;
    const double scatter = k * k * squares / fit_.freedom / (m * m);
    fit_.lag             = lag();
    // Neighbours that go together are fewer than they look: Bayley & Hammersley (1946), J.
    // R. Statist. Soc. Suppl. 8, 184, for a first-order process (from memory).
    const double together = fit_.lag > 0 ? (1 + fit_.lag) / (1 - fit_.lag) : 1;
    fit_.inflation        = std::max(1., scatter) * together;
    for (Eigen::Index a = 0; a < p; ++a)
      for (Eigen::Index b = 0; b < p; ++b)
        fit_.information[free[static_cast<std::size_t>(a)]]
                        [free[static_cast<std::size_t>(b)]] = h(a, b) / fit_.inflation;
    fit_.covariance = covariance_of(fit_.information, bounds_.held);
    fit_.width      = boost::math::quantile(
             boost::math::students_t(static_cast<double>(fit_.freedom)), 0.975);
  }

  double lag() const
  {
    double both = 0, own = 0, mean = 0;
    for (const std::size_t i : used_)
      mean += std::clamp(fit_.scaled[i], -2., 2.) / static_cast<double>(used_.size());
    for (std::size_t k = 0; k < used_.size(); ++k)
    {
      const double now = std::clamp(fit_.scaled[used_[k]], -2., 2.) - mean;
      own += now * now;
      if (k > 0)
        both += now * (std::clamp(fit_.scaled[used_[k - 1]], -2., 2.) - mean);
    }
    return own > 0 ? std::clamp(both / own, -0.9, 0.9) : 0;
  }

  const ShopReadings      &readings_;
  const PassSurface       &surface_;
  const FitBounds         &bounds_;
  std::vector<std::size_t> used_;
  std::vector<double>      end_sigma_;
  ReadingFit               fit_;
};
} // namespace

std::string to_text(const FitKey key)
{
  switch (key)
  {
  case FitKey::friction:
    return "friction";
  case FitKey::factor:
    return "flow-stress factor";
  case FitKey::travel_zero:
    return "zero of travel";
  case FitKey::force_zero:
    return "zero of force";
  }
  return "";
}

FitMatrix covariance_of(const FitMatrix                  &information,
                        const std::array<bool, fit_keys> &held)
{
  std::vector<std::size_t> free;
  for (std::size_t k = 0; k < fit_keys; ++k)
    if (!held[k])
      free.push_back(k);
  const auto      p = static_cast<Eigen::Index>(free.size());
  Eigen::MatrixXd h(p, p);
  for (Eigen::Index a = 0; a < p; ++a)
    for (Eigen::Index b = 0; b < p; ++b)
      h(a, b) =
          information[free[static_cast<std::size_t>(a)]][free[static_cast<std::size_t>(b)]];
  Eigen::MatrixXd inverse =
      Eigen::MatrixXd::Constant(p, p, std::numeric_limits<double>::infinity());
  // Scaled to ones on the diagonal: the unknowns have different units.
  const Eigen::VectorXd scale = h.diagonal().cwiseSqrt();
  if (p > 0 && scale.minCoeff() > 0)
  {
    const auto            by   = scale.cwiseInverse().asDiagonal();
    const Eigen::MatrixXd unit = by * h * by;
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> own(unit);
    if (own.eigenvalues().minCoeff() > 1e-12)
      inverse = by * unit.inverse() * by;
  }
  FitMatrix covariance{};
  for (Eigen::Index a = 0; a < p; ++a)
    for (Eigen::Index b = 0; b < p; ++b)
      covariance[free[static_cast<std::size_t>(a)]][free[static_cast<std::size_t>(b)]] =
          inverse(a, b);
  return covariance;
}

namespace
{
FitMatrix information_of(const ceres::CostFunction &cost, const FitValues &at)
{
  double        residual = 0;
  FitValues     slopes{};
  const double *place = at.data();
  double       *into  = slopes.data();
  FitMatrix     information{};
  cost.Evaluate(&place, &residual, &into);
  for (std::size_t a = 0; a < fit_keys; ++a)
    for (std::size_t b = 0; b < fit_keys; ++b)
      if (std::isfinite(slopes[a] * slopes[b]))
        information[a][b] = slopes[a] * slopes[b];
  return information;
}
} // namespace

FitMatrix information_of_force(const PassSurface &surface, const FitValues &at,
                               const double travel, const double sigma)
{
  return information_of(ForceResidual(surface, {travel + at[2], 0, 0}, sigma), at);
}

FitMatrix information_of_end(const PassSurface &surface, const FitValues &at,
                             const EndKind kind, const double sigma)
{
  return information_of(EndResidual(surface, {kind, 0, sigma, 0}, sigma), at);
}

FitMatrix sum_of(const FitMatrix &a, const FitMatrix &b)
{
  FitMatrix sum = a;
  for (std::size_t i = 0; i < fit_keys; ++i)
    for (std::size_t k = 0; k < fit_keys; ++k)
      sum[i][k] += b[i][k];
  return sum;
}

ReadingFit fit_readings(const ShopReadings &readings, const PassSurface &surface,
                        const FitBounds &bounds, const FitValues &start,
                        const std::map<EndKind, double> &end_model_error)
{
  return Fitting(readings, surface, bounds, start, end_model_error).fitted();
}
} // namespace throughbend
