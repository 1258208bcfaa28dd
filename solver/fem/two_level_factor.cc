#include "solver/fem/two_level_factor.h"

#include "solver/fem/node_triangle.h"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace throughbend
{
namespace
{
/// For each unknown of the coarse space the model's unknowns that move with it.
struct Support
{
  std::vector<int>    starts, unknown;
  std::vector<double> weight;
};

Support support_of(const CoarseSpace &space)
{
  Support support;
  support.starts.assign(static_cast<std::size_t>(space.size) + 1, 0);
  for (const int corner : space.corner)
    ++support.starts[static_cast<std::size_t>(corner) + 1];
  for (std::size_t i = 1; i < support.starts.size(); ++i)
    support.starts[i] += support.starts[i - 1];
  support.unknown.resize(space.corner.size());
  support.weight.resize(space.corner.size());
  std::vector<int> next = support.starts;
  for (int i = 0; i + 1 < static_cast<int>(space.starts.size()); ++i)
    for (int k = space.starts[i]; k < space.starts[i + 1]; ++k)
    {
      const int at        = next[space.corner[k]]++;
      support.unknown[at] = i;
      support.weight[at]  = space.weight[k];
    }
  return support;
}

/// P^T A P, its lower triangle, column by column (Gustavson 1978, ACM Trans. Math. Softw.
/// 4, 250).
class CoarseMatrix
{
public:
  CoarseMatrix(const CompressedColumns &fine, CoarseSpace space)
      : fine_(fine), space_(std::move(space)), support_(support_of(space_)),
        column_(static_cast<std::size_t>(fine.size()), 0.),
        seen_(static_cast<std::size_t>(fine.size()), -1),
        sum_(static_cast<std::size_t>(space_.size), 0.)
  {
    triangle_.starts.assign(1, 0);
    std::vector<int> last(static_cast<std::size_t>(space_.size), -1), rows;
    for (int J = 0; J < space_.size; ++J)
    {
      find_column(J);
      rows.clear();
      for (const int i : touched_)
        for (int k = space_.starts[i]; k < space_.starts[i + 1]; ++k)
          if (const int I = space_.corner[k]; I >= J && last[I] != J)
          {
            last[I] = J;
            rows.push_back(I);
          }
      std::sort(rows.begin(), rows.end());
      triangle_.rows.insert(triangle_.rows.end(), rows.begin(), rows.end());
      triangle_.starts.push_back(static_cast<int>(triangle_.rows.size()));
    }
    std::fill(seen_.begin(), seen_.end(), -1);
    triangle_.values.resize(triangle_.rows.size());
    triangle_.scale.resize(static_cast<std::size_t>(space_.size));
  }

  /// Of the values that the fine matrix has now.
  const SymmetricTriangle &take()
  {
    for (int J = 0; J < space_.size; ++J)
    {
      find_column(J);
      for (const int i : touched_)
        for (int k = space_.starts[i]; k < space_.starts[i + 1]; ++k)
          if (space_.corner[k] >= J)
            sum_[space_.corner[k]] += space_.weight[k] * column_[i];
      for (int k = triangle_.starts[J]; k < triangle_.starts[J + 1]; ++k)
        triangle_.values[k] = std::exchange(sum_[triangle_.rows[k]], 0.);
    }
    std::fill(seen_.begin(), seen_.end(), -1);
    scale_to_unit_diagonal(triangle_);
    return triangle_;
  }

  const CoarseSpace         &space() const { return space_; }
  const std::vector<double> &scale() const { return triangle_.scale; }

private:
  /// Column J of A P: its entries in column_, their places in touched_.
  void find_column(const int J)
  {
    touched_.clear();
    const std::vector<int>    &starts = fine_.starts(), &rows = fine_.rows();
    const std::vector<double> &values = fine_.values();
    for (int s = support_.starts[J]; s < support_.starts[J + 1]; ++s)
    {
      const int    j      = support_.unknown[s];
      const double weight = support_.weight[s];
      for (int k = starts[j]; k < starts[j + 1]; ++k)
      {
        const int i = rows[k];
        if (seen_[i] != J)
        {
          seen_[i]   = J;
          column_[i] = 0;
          touched_.push_back(i);
        }
        column_[i] += weight * values[k];
      }
    }
  }

  const CompressedColumns &fine_;
  CoarseSpace              space_;
  Support                  support_;
  SymmetricTriangle        triangle_;
  std::vector<double>      column_; ///< scratch
  std::vector<int>         seen_, touched_;
  std::vector<double>      sum_;
};

class TwoLevelFactor : public SymmetricFactor
{
public:
  TwoLevelFactor(const CompressedColumns &matrix, CoarseSpace space)
      : coarse_(matrix, std::move(space)),
        factor_(make_multifrontal_factor(coarse_.take())),
        fine_(make_node_triangle(coarse_.space().per_node))
  {
  }

  bool factorise(const SymmetricTriangle &matrix) override
  {
    fine_->take({matrix.size(), matrix.starts.data(), matrix.starts.data() + 1,
                 matrix.rows.data(), matrix.values.data()},
                {});
    scale_ = &matrix.scale;
    return factor_->factorise(coarse_.take());
  }

  void solve(std::vector<double> &x) override
  {
    std::vector<double>      &rest       = x;
    const std::vector<double> y          = fine_->forward(rest);
    const std::vector<double> correction = coarse_correction(rest);
    fine_->subtract_product(correction, rest);
    fine_->backward(rest);
    for (std::size_t i = 0; i < x.size(); ++i)
      x[i] += y[i] + correction[i];
  }

  std::string name() const override { return "two-level cycle"; }

private:
  std::vector<double> coarse_correction(const std::vector<double> &rest)
  {
    const CoarseSpace         &space = coarse_.space();
    const std::vector<double> &scale = coarse_.scale();
    std::vector<double>        g(static_cast<std::size_t>(space.size), 0.);
    for (std::size_t i = 0; i < rest.size(); ++i)
      for (int k = space.starts[i]; k < space.starts[i + 1]; ++k)
        g[space.corner[k]] += space.weight[k] * rest[i] / (*scale_)[i];
    for (std::size_t I = 0; I < g.size(); ++I)
      g[I] *= scale[I];
    factor_->solve(g);
    for (std::size_t I = 0; I < g.size(); ++I)
      g[I] *= scale[I];
    std::vector<double> correction(rest.size(), 0.);
    for (std::size_t i = 0; i < rest.size(); ++i)
      for (int k = space.starts[i]; k < space.starts[i + 1]; ++k)
        correction[i] += space.weight[k] * g[space.corner[k]] / (*scale_)[i];
    return correction;
  }

  CoarseMatrix                     coarse_;
  std::unique_ptr<SymmetricFactor> factor_; ///< of the coarse matrix
  std::unique_ptr<NodeTriangle>    fine_;
  const std::vector<double>       *scale_ = nullptr; ///< of the fine unknowns
};
} // namespace

std::unique_ptr<SymmetricFactor> make_two_level_factor(const CompressedColumns &matrix,
                                                       CoarseSpace              space)
{
  return std::make_unique<TwoLevelFactor>(matrix, std::move(space));
}
} // namespace throughbend
