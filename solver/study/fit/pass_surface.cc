#include "solver/study/fit/pass_surface.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <stdexcept>

namespace throughbend
{
namespace
{
constexpr double not_known = std::numeric_limits<double>::quiet_NaN();

constexpr int power_count = 7;

double power(const int which, const double f, const double s)
{
  switch (which)
  {
  case 0:
    return 1;
  case 1:
    return f;
  case 2:
    return s;
  case 3:
    return f * s;
  case 4:
    return f * f;
  case 5:
    return s * s;
  default:
    return f * f * s;
  }
}

/// Distances in units of the size of a design.
constexpr double friction_unit = 0.1, factor_unit = 0.1;
} // namespace

double force_at(const FitPass &pass, const double travel)
{
  if (travel <= 0 || pass.travel.empty())
    return pass.travel.empty() ? not_known : 0;
  if (travel > pass.travel.back())
    return pass.lets_go ? 0 : not_known;
  const auto above     = std::lower_bound(pass.travel.begin(), pass.travel.end(), travel);
  const std::size_t i  = static_cast<std::size_t>(above - pass.travel.begin());
  const double      x0 = i == 0 ? 0 : pass.travel[i - 1], x1 = pass.travel[i];
  const double      y0 = i == 0 ? 0 : pass.force[i - 1], y1 = pass.force[i];
  return x1 > x0 ? y0 + (y1 - y0) * (travel - x0) / (x1 - x0) : y1;
}

PassSurface::PassSurface(std::vector<FitPass> passes) : passes_(std::move(passes))
{
  if (passes_.empty())
    throw std::logic_error("a surface needs passes");
  std::set<double> frictions, factors;
  for (const FitPass &pass : passes_)
  {
    frictions.insert(pass.point.friction);
    factors.insert(pass.point.factor);
    middle_.friction += pass.point.friction / static_cast<double>(passes_.size());
  }
  middle_.factor = 0;
  for (const FitPass &pass : passes_)
    middle_.factor += pass.point.factor / static_cast<double>(passes_.size());
  // In the order in which they matter; as many as the passes bear without a singular
  // matrix.
  const auto n     = static_cast<Eigen::Index>(passes_.size());
  const auto table = [&]
  {
    Eigen::MatrixXd m(n, static_cast<Eigen::Index>(powers_.size()));
    for (Eigen::Index i = 0; i < n; ++i)
    {
      const std::vector<double> row = powers(passes_[static_cast<std::size_t>(i)].point);
      for (std::size_t k = 0; k < row.size(); ++k)
        m(i, static_cast<Eigen::Index>(k)) = row[k];
    }
    return m;
  };
  for (int which = 0; which < power_count && powers_.size() < passes_.size(); ++which)
  {
    powers_.push_back(which);
    Eigen::ColPivHouseholderQR<Eigen::MatrixXd> rank(table());
    rank.setThreshold(1e-6);
    if (rank.rank() < static_cast<Eigen::Index>(powers_.size()))
      powers_.pop_back();
  }
  const Eigen::MatrixXd inverse = table().completeOrthogonalDecomposition().pseudoInverse();
  for (Eigen::Index k = 0; k < inverse.rows(); ++k)
  {
    inverse_.emplace_back();
    for (Eigen::Index i = 0; i < n; ++i)
      inverse_.back().push_back(inverse(k, i));
  }
}

std::vector<double> PassSurface::powers(const FitPoint &point) const
{
  std::vector<double> values;
  for (const int which : powers_)
    values.push_back(power(which, (point.friction - middle_.friction) / friction_unit,
                           (point.factor - middle_.factor) / factor_unit));
  return values;
}

std::vector<double> PassSurface::weights(const FitPoint &point) const
{
  const std::vector<double> basis = powers(point);
  std::vector<double>       weights(passes_.size(), 0.);
  for (std::size_t i = 0; i < passes_.size(); ++i)
    for (std::size_t k = 0; k < basis.size(); ++k)
      weights[i] += basis[k] * inverse_[k][i];
  return weights;
}

double PassSurface::force(const double travel, const FitPoint &point) const
{
  const std::vector<double> share = weights(point);
  double                    sum   = 0;
  for (std::size_t i = 0; i < passes_.size(); ++i)
    sum += share[i] * force_at(passes_[i], travel);
  if (!finer_.empty())
    sum += force_at(finer_.front(), travel) - force_at(below_, travel);
  return sum;
}

double PassSurface::end(const EndKind kind, const FitPoint &point) const
{
  const std::vector<double> share = weights(point);
  double                    sum   = 0;
  for (std::size_t i = 0; i < passes_.size(); ++i)
  {
    const auto found = passes_[i].ends.find(kind);
    sum += found == passes_[i].ends.end() ? not_known : share[i] * found->second;
  }
  if (!finer_.empty() && finer_.front().ends.count(kind) > 0 && below_.ends.count(kind) > 0)
    sum += finer_.front().ends.at(kind) - below_.ends.at(kind);
  return sum;
}

void PassSurface::correct_by(const FitPass &finer)
{
  finer_.clear();
  FitPass          below;
  std::set<double> travels(finer.travel.begin(), finer.travel.end());
  for (const FitPass &pass : passes_)
    travels.insert(pass.travel.begin(), pass.travel.end());
  below.lets_go = true;
  for (const double travel : travels)
    if (const double value = force(travel, finer.point); std::isfinite(value))
    {
      below.travel.push_back(travel);
      below.force.push_back(value);
    }
  below.lets_go = std::all_of(passes_.begin(), passes_.end(),
                              [](const FitPass &pass) { return pass.lets_go; });
  for (const auto &[kind, value] : finer.ends)
    if (const double own = end(kind, finer.point); std::isfinite(own))
      below.ends[kind] = own;
  below_ = below;
  finer_ = {finer};
}

double PassSurface::covered() const
{
  double least = std::numeric_limits<double>::infinity();
  for (const std::vector<FitPass> *list : {&passes_, &finer_})
    for (const FitPass &pass : *list)
      if (!pass.lets_go)
        least = std::min(least, pass.travel.empty() ? 0 : pass.travel.back());
  return least;
}
} // namespace throughbend
