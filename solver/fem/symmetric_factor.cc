#include "solver/fem/symmetric_factor.h"

#include "solver/fem/cholmod_factor.h"
#include "solver/fem/sole_mumps.h"

#include <cmath>
#include <new>
#include <stdexcept>

namespace throughbend
{
void scale_to_unit_diagonal(SymmetricTriangle &triangle)
{
  for (int j = 0; j < triangle.size(); ++j)
  {
    const double diagonal = std::abs(triangle.values[triangle.starts[j]]);
    triangle.scale[j]     = diagonal > 0 ? 1 / std::sqrt(diagonal) : 1.;
  }
  for (int j = 0; j < triangle.size(); ++j)
    for (int k = triangle.starts[j]; k < triangle.starts[j + 1]; ++k)
      triangle.values[k] =
          triangle.values[k] * triangle.scale[j] * triangle.scale[triangle.rows[k]];
}

SymmetricPart::SymmetricPart(const CompressedColumns &matrix)
{
  triangle_.starts.push_back(0);
  for (int j = 0; j < matrix.size(); ++j)
  {
    for (int k = matrix.starts()[j]; k < matrix.starts()[j + 1]; ++k)
      if (matrix.rows()[k] >= j)
      {
        triangle_.rows.push_back(matrix.rows()[k]);
        here_.push_back(static_cast<std::size_t>(k));
        mirrored_.push_back(matrix.rows()[k] == j
                                ? static_cast<std::size_t>(k)
                                : matrix.mirrored(j, static_cast<std::size_t>(k)));
      }
    triangle_.starts.push_back(static_cast<int>(triangle_.rows.size()));
  }
  triangle_.values.resize(triangle_.rows.size());
  triangle_.scale.resize(static_cast<std::size_t>(triangle_.size()));
}

void SymmetricPart::take(const CompressedColumns &matrix)
{
  const std::vector<double> &from = matrix.values();
  for (std::size_t k = 0; k < here_.size(); ++k)
    triangle_.values[k] = (from[here_[k]] + from[mirrored_[k]]) / 2;
  scale_to_unit_diagonal(triangle_);
}

namespace
{
/// CHOLMOD and MUMPS number with `int`, which overflows beyond 2^31 entries.
class MultifrontalFactor : public SymmetricFactor
{
public:
  explicit MultifrontalFactor(const SymmetricTriangle &pattern)
  {
    for (int j = 0; j < pattern.size(); ++j)
      for (int k = pattern.starts[j]; k < pattern.starts[j + 1]; ++k)
      {
        rows_.push_back(pattern.rows[k] + 1);
        columns_.push_back(j + 1);
      }
    values_.resize(rows_.size());
    right_.resize(static_cast<std::size_t>(pattern.size()));

    mumps_.sym          = 2; // symmetric, not necessarily definite
    mumps_.par          = 1;
    mumps_.comm_fortran = sole_world;
    call(-1);
    for (const int stream : {1, 2, 3, 4})
      control(stream) = 0; // says nothing
    control(7)  = 5;       // METIS
    control(8)  = 0;       // we scale
    control(10) = 0;       // no refinement
    control(12) = 1;       // the ordering of the pattern, also where a pivot is small
    control(14) = 40;      // per cent of working space for pivots put off
    mumps_.n    = pattern.size();
    mumps_.nnz  = static_cast<MUMPS_INT8>(rows_.size());
    mumps_.irn  = rows_.data();
    mumps_.jcn  = columns_.data();
    mumps_.a    = values_.data();
    mumps_.rhs  = right_.data();
  }
  ~MultifrontalFactor() override { call(-2); }
  MultifrontalFactor(const MultifrontalFactor &)            = delete;
  MultifrontalFactor &operator=(const MultifrontalFactor &) = delete;

  bool factorise(const SymmetricTriangle &matrix) override
  {
    for (std::size_t k = 0; k < values_.size(); ++k)
      values_[k] = static_cast<float>(matrix.values[k]);
    if (!analysed_)
    {
      call(1);
      check("analysis");
      analysed_ = true;
    }
    for (;;)
    {
      call(2);
      const bool too_small = mumps_.infog[0] == -8 || mumps_.infog[0] == -9;
      if (!too_small)
        break;
      if (control(14) > 1000)
        return false;   // without end: no pivot is any good
      control(14) *= 3; // more pivots were put off than there was room for
    }
    if (mumps_.infog[0] == -10) // numerically singular
      return false;
    check("factorisation");
    return true;
  }

  void solve(std::vector<double> &x) override
  {
    for (std::size_t i = 0; i < x.size(); ++i)
      right_[i] = static_cast<float>(x[i]);
    call(3);
    check("solution");
    for (std::size_t i = 0; i < x.size(); ++i)
      x[i] = right_[i];
  }

  std::string name() const override { return "MUMPS LDL^T"; }

private:
  MUMPS_INT &control(int number) { return mumps_.icntl[number - 1]; }
  void       call(int job)
  {
    mumps_.job = job;
    mumps_call_(&mumps_);
  }
  void check(const char *phase) const
  {
    const int error = mumps_.infog[0];
    if (error == -13 || error == -7)
      throw std::bad_alloc();
    if (error < 0)
      throw std::runtime_error("MUMPS stopped in its " + std::string(phase) +
                               ": INFOG(1) = " + std::to_string(error) +
                               ", INFOG(2) = " + std::to_string(mumps_.infog[1]));
  }

  const SoleMumps        mumps_call_ = sole_mumps();
  SMUMPS_STRUC_C         mumps_{};
  std::vector<MUMPS_INT> rows_, columns_; ///< from 1
  std::vector<float>     values_, right_;
  bool                   analysed_ = false;
};

class SimplicialFactor : public SymmetricFactor
{
public:
  explicit SimplicialFactor(const SymmetricTriangle &pattern)
  {
    factor_.analyse(view(pattern));
  }
  bool factorise(const SymmetricTriangle &matrix) override
  {
    return factor_.factorise(view(matrix));
  }
  void        solve(std::vector<double> &x) override { factor_.solve(CHOLMOD_A, x); }
  std::string name() const override { return "CHOLMOD LDL^T"; }

private:
  static cholmod_sparse view(const SymmetricTriangle &matrix)
  {
    return view_of(matrix.starts, matrix.rows, matrix.values, true);
  }

  CholmodFactor factor_{CHOLMOD_AMD};
};
} // namespace

std::unique_ptr<SymmetricFactor> make_multifrontal_factor(const SymmetricTriangle &pattern)
{
#ifdef __SANITIZE_ADDRESS__ // lets no library have names of its own (sole_mumps)
  return make_simplicial_factor(pattern);
#else
  return std::make_unique<MultifrontalFactor>(pattern);
#endif
}

std::unique_ptr<SymmetricFactor> make_simplicial_factor(const SymmetricTriangle &pattern)
{
  return std::make_unique<SimplicialFactor>(pattern);
}
} // namespace throughbend
