#include "solver/fem/halved_factor.h"

#include "solver/fem/strip_cut.h"

#include <deal.II/lac/lapack_full_matrix.h>

#include <cholmod.h>

#include <algorithm>
#include <array>
#include <limits>
#include <new>
#include <stdexcept>
#include <string>
#include <utility>

namespace throughbend
{
namespace
{
/// CHOLMOD's settings and memory, one for each thread.
class Cholmod
{
public:
  Cholmod()
  {
    cholmod_start(&common_);
    common_.supernodal         = CHOLMOD_SIMPLICIAL;
    common_.nmethods           = 1;
    common_.method[0].ordering = CHOLMOD_NATURAL;
    common_.postorder          = 0; // it would move the cut
    common_.print              = 0;
  }
  ~Cholmod() { cholmod_finish(&common_); }
  Cholmod(const Cholmod &)            = delete;
  Cholmod &operator=(const Cholmod &) = delete;

  cholmod_common *settings() { return &common_; }
  /// Operations of a factorisation in this order.
  double work(cholmod_sparse &matrix, std::vector<int> &order)
  {
    common_.method[0].ordering = CHOLMOD_GIVEN;
    cholmod_factor *factor = cholmod_analyze_p(&matrix, order.data(), nullptr, 0, &common_);
    common_.method[0].ordering = CHOLMOD_NATURAL;
    check();
    cholmod_free_factor(&factor, &common_);
    return common_.fl;
  }
  bool good() const { return common_.status == CHOLMOD_OK; }
  void check() const
  {
    if (common_.status == CHOLMOD_OUT_OF_MEMORY || common_.status == CHOLMOD_TOO_LARGE)
      throw std::bad_alloc();
    if (common_.status < 0)
      throw std::runtime_error("CHOLMOD stopped with status " +
                               std::to_string(common_.status));
  }

private:
  cholmod_common common_{};
};

/// CHOLMOD's description of one triangle; it only reads. `lower`: else upper.
cholmod_sparse view(const std::vector<int> &starts, const std::vector<int> &rows,
                    const std::vector<double> &values, const bool lower)
{
  cholmod_sparse sparse{};
  sparse.nrow = sparse.ncol = starts.size() - 1;
  sparse.nzmax              = rows.size();
  sparse.p                  = const_cast<int *>(starts.data());
  sparse.i                  = const_cast<int *>(rows.data());
  sparse.x                  = const_cast<double *>(values.data());
  sparse.stype              = lower ? -1 : 1;
  sparse.itype              = CHOLMOD_INT;
  sparse.xtype              = CHOLMOD_REAL;
  sparse.dtype              = CHOLMOD_DOUBLE;
  sparse.sorted             = 1;
  sparse.packed             = 1;
  return sparse;
}

/// One half and the cut: its factor, and the cut's part of a solution.
class Half
{
public:
  Half(const SymmetricTriangle &whole, const std::vector<int> &inner,
       const std::vector<int> &cut);
  ~Half();
  Half(const Half &)            = delete;
  Half &operator=(const Half &) = delete;

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
  void solve(int system);
  void leave_cut();

  /// Column `a` of the cut in L: rows from the diagonal, where D stands, on.
  struct Column
  {
    const int    *rows;
    const double *values;
    int           size;
  };
  Column column(int a) const;

  Cholmod                  cholmod_;
  cholmod_factor          *factor_ = nullptr;
  cholmod_dense           *x_ = nullptr, *scratch_ = nullptr, *more_scratch_ = nullptr;
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
  cholmod_sparse upper = view(starts_, rows_, values_, false);
  factor_              = cholmod_analyze(&upper, cholmod_.settings());
  cholmod_.check();
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

Half::~Half()
{
  cholmod_free_dense(&x_, cholmod_.settings());
  cholmod_free_dense(&scratch_, cholmod_.settings());
  cholmod_free_dense(&more_scratch_, cholmod_.settings());
  cholmod_free_factor(&factor_, cholmod_.settings());
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
  cholmod_sparse            lower = view(starts, rows, none, true);
  // Either of the two may be better by a fifth.
  std::vector<int> best;
  double           least = std::numeric_limits<double>::infinity();
  for (const bool first : {true, false})
  {
    std::vector<int> order(unknowns_.size());
    if (first)
      cholmod_camd(&lower, nullptr, 0, when.data(), order.data(), cholmod_.settings());
    else
      cholmod_csymamd(&lower, when.data(), order.data(), cholmod_.settings());
    cholmod_.check();
    if (const double work = cholmod_.work(lower, order); work < least)
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
  const int *const starts = static_cast<const int *>(factor_->p);
  const int        k      = static_cast<int>(n_inner_) + a;
  return {static_cast<const int *>(factor_->i) + starts[k],
          static_cast<const double *>(factor_->x) + starts[k],
          static_cast<const int *>(factor_->nz)[k]};
}

bool Half::factorise(const SymmetricTriangle &whole)
{
  for (std::size_t k = 0; k < from_.size(); ++k)
    values_[k] = whole.values[from_[k]];
  cholmod_sparse upper = view(starts_, rows_, values_, false);
  cholmod_factorize(&upper, factor_, cholmod_.settings());
  cholmod_.check();
  if (!cholmod_.good() || factor_->minor != factor_->n)
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

/// Replaces y by the solution of one of CHOLMOD's systems.
void Half::solve(const int system)
{
  cholmod_dense right{};
  right.nrow = right.nzmax = right.d = y_.size();
  right.ncol                         = 1;
  right.x                            = y_.data();
  right.xtype                        = CHOLMOD_REAL;
  right.dtype                        = CHOLMOD_DOUBLE;
  cholmod_solve2(system, factor_, &right, nullptr, &x_, nullptr, &scratch_, &more_scratch_,
                 cholmod_.settings());
  cholmod_.check();
  const double *const solution = static_cast<const double *>(x_->x);
  std::copy(solution, solution + y_.size(), y_.begin());
}

void Half::go_down(const std::vector<double> &right)
{
  for (std::size_t k = 0; k < n_inner_; ++k)
    y_[k] = right[unknowns_[k]];
  std::fill(y_.begin() + static_cast<std::ptrdiff_t>(n_inner_), y_.end(), 0.);
  solve(CHOLMOD_L);
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
  solve(CHOLMOD_D);
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
  solve(CHOLMOD_Lt);
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
