#include "solver/fem/halved_factor.h"

#include "solver/fem/cholmod_factor.h"
#include "solver/fem/strip_cut.h"

#include <deal.II/lac/lapack_full_matrix.h>

#include <algorithm>
#include <array>
#include <limits>
#include <utility>

namespace throughbend
{
namespace
{
/// One half and the cut: its factor, and the cut's part of a solution.
class Half
{
public:
  Half(const SymmetricTriangle &whole, const std::vector<int> &inner,
       const std::vector<int> &cut);

  bool factorise(const SymmetricTriangle &whole);

  /// What the half leaves of the cut's matrix, (cut, cut) in the order of the cut.
  double left_of_cut(int i, int j) const
  {
    return left_[static_cast<std::size_t>(place_in_cut_[i]) * n_cut_ + place_in_cut_[j]];
  }

  /// L^-1 of the half's part of a right side.
  void go_down(const std::vector<double> &right);

  /// What that takes from the cut's right side, at number i of the cut.
  double taken_from_cut(int i) const { return taken_[place_in_cut_[i]]; }

  /// The half's part of the solution, from that at the cut.
  void go_up(const std::vector<double> &at_cut, std::vector<double> &solution);

private:
  void order(const SymmetricTriangle &whole, const std::vector<int> &local);
  void take_pattern(const SymmetricTriangle &whole, const std::vector<int> &local);
  void leave_cut();

  /// Column `a` of the cut in L: rows from the diagonal, where D stands, on.
  struct Column
  {
    const int    *rows;
    const double *values;
    int           size;
  };
  Column column(int a) const;

  CholmodFactor            factor_{CHOLMOD_NATURAL};
  std::vector<int>         unknowns_; ///< of the whole, in the order of the factor
  std::size_t              n_inner_, n_cut_;
  std::vector<int>         place_in_cut_;  ///< of each of the cut's, in that order
  std::vector<int>         starts_, rows_; ///< upper triangle in the order of the factor
  std::vector<double>      values_, y_, left_, taken_;
  std::vector<std::size_t> from_; ///< entry of the whole triangle
};

Half::Half(const SymmetricTriangle &whole, const std::vector<int> &inner,
           const std::vector<int> &cut)
    : unknowns_(inner), n_inner_(inner.size()), n_cut_(cut.size())
{
  unknowns_.insert(unknowns_.end(), cut.begin(), cut.end());
  std::vector<int> local(static_cast<std::size_t>(whole.size()), -1);
  const auto       number = [&]
  {
    for (std::size_t k = 0; k < unknowns_.size(); ++k)
      local[unknowns_[k]] = static_cast<int>(k);
  };
  number();
  order(whole, local);
  number();
  take_pattern(whole, local);
  for (const int unknown : cut)
    place_in_cut_.push_back(local[unknown] - static_cast<int>(n_inner_));
  factor_.analyse(view_of(starts_, rows_, values_, false));
  y_.resize(unknowns_.size());
  left_.resize(n_cut_ * n_cut_);
  taken_.resize(n_cut_);
}

/// The upper triangle in the order of the factor, and where each entry comes from.
void Half::take_pattern(const SymmetricTriangle &whole, const std::vector<int> &local)
{
  struct Entry
  {
    int         row;
    std::size_t from;
  };
  std::vector<std::vector<Entry>> columns(unknowns_.size());
  for (int j = 0; j < whole.size(); ++j)
    for (int k = whole.starts[j]; k < whole.starts[j + 1]; ++k)
      if (const int a = local[whole.rows[k]], b = local[j]; a >= 0 && b >= 0)
        columns[std::max(a, b)].push_back({std::min(a, b), static_cast<std::size_t>(k)});
  starts_.push_back(0);
  for (std::vector<Entry> &column : columns)
  {
    std::sort(column.begin(), column.end(),
              [](const Entry &a, const Entry &b) { return a.row < b.row; });
    for (const Entry &entry : column)
    {
      rows_.push_back(entry.row);
      from_.push_back(entry.from);
    }
    starts_.push_back(static_cast<int>(rows_.size()));
  }
  values_.resize(rows_.size());
}

/// Puts the unknowns into the order of the factor: little fill, the cut last.
void Half::order(const SymmetricTriangle &whole, const std::vector<int> &local)
{
  std::vector<std::vector<int>> columns(unknowns_.size());
  for (int j = 0; j < whole.size(); ++j)
    for (int k = whole.starts[j]; k < whole.starts[j + 1]; ++k)
      if (const int a = local[whole.rows[k]], b = local[j]; a >= 0 && b >= 0)
        columns[std::min(a, b)].push_back(std::max(a, b));
  std::vector<int> starts = {0}, rows;
  for (std::vector<int> &column : columns)
  {
    std::sort(column.begin(), column.end());
    rows.insert(rows.end(), column.begin(), column.end());
    starts.push_back(static_cast<int>(rows.size()));
  }
  std::vector<int> when(unknowns_.size(), 0);
  std::fill(when.begin() + static_cast<std::ptrdiff_t>(n_inner_), when.end(), 1);
  const std::vector<double> none(rows.size());
  cholmod_sparse            lower = view_of(starts, rows, none, true);
  // Either of the two may be better by a fifth.
  std::vector<int> best;
  double           least = std::numeric_limits<double>::infinity();
  for (const bool first : {true, false})
  {
    std::vector<int> order(unknowns_.size());
    if (first)
      cholmod_camd(&lower, nullptr, 0, when.data(), order.data(), factor_.settings());
    else
      cholmod_csymamd(&lower, when.data(), order.data(), factor_.settings());
    factor_.check();
    if (const double work = factor_.work(lower, order); work < least)
    {
      least = work;
      best  = order;
    }
  }
  std::vector<int> ordered;
  for (const int k : best)
    ordered.push_back(unknowns_[k]);
  unknowns_ = std::move(ordered);
}

Half::Column Half::column(const int a) const
{
  const int *const starts = static_cast<const int *>(factor_.factor().p);
  const int        k      = static_cast<int>(n_inner_) + a;
  return {static_cast<const int *>(factor_.factor().i) + starts[k],
          static_cast<const double *>(factor_.factor().x) + starts[k],
          static_cast<const int *>(factor_.factor().nz)[k]};
}

bool Half::factorise(const SymmetricTriangle &whole)
{
  for (std::size_t k = 0; k < from_.size(); ++k)
    values_[k] = whole.values[from_[k]];
  if (!factor_.factorise(view_of(starts_, rows_, values_, false)))
    return false;
  leave_cut();
  return true;
}

/// The factors of the cut's block multiplied again: L_CC D_C L_CC^T is what elimination of
/// the inner unknowns leaves there.
void Half::leave_cut()
{
  std::fill(left_.begin(), left_.end(), 0.);
  const int inner = static_cast<int>(n_inner_);
  for (int a = 0; a < static_cast<int>(n_cut_); ++a)
  {
    const Column        c = column(a);
    const double        d = c.values[0];
    std::vector<double> l(c.values, c.values + c.size);
    l[0] = 1;
    for (int p = 0; p < c.size; ++p)
      for (int q = 0; q < c.size; ++q)
        left_[static_cast<std::size_t>(c.rows[p] - inner) * n_cut_ + (c.rows[q] - inner)] +=
            l[p] * d * l[q];
  }
}

void Half::go_down(const std::vector<double> &right)
{
  for (std::size_t k = 0; k < n_inner_; ++k)
    y_[k] = right[unknowns_[k]];
  std::fill(y_.begin() + static_cast<std::ptrdiff_t>(n_inner_), y_.end(), 0.);
  factor_.solve(CHOLMOD_L, y_);
  // L_CC y_C = - L_CI y_I is what the inner unknowns take from the cut, as it began with 0.
  std::fill(taken_.begin(), taken_.end(), 0.);
  const int inner = static_cast<int>(n_inner_);
  for (int a = 0; a < static_cast<int>(n_cut_); ++a)
  {
    const Column c = column(a);
    taken_[a] += y_[n_inner_ + a];
    for (int p = 1; p < c.size; ++p)
      taken_[c.rows[p] - inner] += c.values[p] * y_[n_inner_ + a];
  }
  factor_.solve(CHOLMOD_D, y_);
}

void Half::go_up(const std::vector<double> &at_cut, std::vector<double> &solution)
{
  // L_CC^T x_C in the place of the cut, so that L^T gives x_C there.
  const int           inner = static_cast<int>(n_inner_);
  std::vector<double> x(n_cut_);
  for (std::size_t i = 0; i < n_cut_; ++i)
    x[place_in_cut_[i]] = at_cut[i];
  for (int a = 0; a < static_cast<int>(n_cut_); ++a)
  {
    const Column c   = column(a);
    double       sum = x[a];
    for (int p = 1; p < c.size; ++p)
      sum += c.values[p] * x[c.rows[p] - inner];
    y_[n_inner_ + a] = sum;
  }
  factor_.solve(CHOLMOD_Lt, y_);
  for (std::size_t k = 0; k < n_inner_; ++k)
    solution[unknowns_[k]] = y_[k];
}

class HalvedFactor : public SymmetricFactor
{
public:
  HalvedFactor(const SymmetricTriangle &pattern, StripCut parts, CellCrew &crew);

  bool        factorise(const SymmetricTriangle &matrix) override;
  void        solve(std::vector<double> &x) override;
  std::string name() const override { return "CHOLMOD LDL^T by halves"; }

private:
  struct CutEntry
  {
    unsigned    row, column; ///< in the cut
    std::size_t from;        ///< in the whole triangle
  };
  std::vector<int>                 cut_;
  std::vector<CutEntry>            own_; ///< both halves had them
  std::array<Half, 2>              halves_;
  dealii::LAPACKFullMatrix<double> dense_;
  CellCrew                        &crew_;
};

HalvedFactor::HalvedFactor(const SymmetricTriangle &pattern, StripCut parts, CellCrew &crew)
    : cut_(std::move(parts.cut)), halves_{Half(pattern, parts.halves[0], cut_),
                                          Half(pattern, parts.halves[1], cut_)},
      crew_(crew)
{
  std::vector<int> number(static_cast<std::size_t>(pattern.size()), -1);
  for (std::size_t i = 0; i < cut_.size(); ++i)
    number[cut_[i]] = static_cast<int>(i);
  for (const int j : cut_)
    for (int k = pattern.starts[j]; k < pattern.starts[j + 1]; ++k)
      if (const int i = number[pattern.rows[k]]; i >= 0)
        own_.push_back({static_cast<unsigned>(i), static_cast<unsigned>(number[j]),
                        static_cast<std::size_t>(k)});
}

bool HalvedFactor::factorise(const SymmetricTriangle &matrix)
{
  std::array<char, 2> good{};
  crew_.each(2, [&](std::size_t h) { good[h] = halves_[h].factorise(matrix); });
  if (!good[0] || !good[1])
    return false;
  const unsigned n = static_cast<unsigned>(cut_.size());
  dense_.reinit(n);
  for (unsigned i = 0; i < n; ++i)
    for (unsigned j = 0; j < n; ++j)
      dense_(i, j) = halves_[0].left_of_cut(static_cast<int>(i), static_cast<int>(j)) +
                     halves_[1].left_of_cut(static_cast<int>(i), static_cast<int>(j));
  for (const CutEntry &entry : own_)
  {
    dense_(entry.row, entry.column) -= matrix.values[entry.from];
    if (entry.row != entry.column)
      dense_(entry.column, entry.row) -= matrix.values[entry.from];
  }
  try
  {
    dense_.compute_lu_factorization();
  }
  catch (const dealii::LACExceptions::ExcSingular &)
  {
    return false;
  }
  return true;
}

void HalvedFactor::solve(std::vector<double> &x)
{
  crew_.each(2, [&](std::size_t h) { halves_[h].go_down(x); });
  dealii::Vector<double> at_cut(static_cast<unsigned>(cut_.size()));
  for (unsigned i = 0; i < at_cut.size(); ++i)
    at_cut[i] = x[cut_[i]] + halves_[0].taken_from_cut(static_cast<int>(i)) +
                halves_[1].taken_from_cut(static_cast<int>(i));
  dense_.solve(at_cut);
  const std::vector<double> found(at_cut.begin(), at_cut.end());
  crew_.each(2, [&](std::size_t h) { halves_[h].go_up(found, x); });
  for (std::size_t i = 0; i < cut_.size(); ++i)
    x[cut_[i]] = found[i];
}
} // namespace

std::unique_ptr<SymmetricFactor> make_halved_factor(const SymmetricTriangle &pattern,
                                                    CellCrew                &crew)
{
  StripCut parts = cut_across(pattern);
  return parts.pays() ? std::make_unique<HalvedFactor>(pattern, std::move(parts), crew)
                      : nullptr;
}
} // namespace throughbend
