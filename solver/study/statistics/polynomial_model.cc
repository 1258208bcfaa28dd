#include "solver/study/statistics/polynomial_model.h"

#include <boost/math/distributions/normal.hpp>

#include <cmath>
#include <numeric>
#include <stdexcept>

namespace throughbend
{
namespace
{
constexpr unsigned    largest_degree = 10;
constexpr std::size_t passes_a_term  = 3;
constexpr std::size_t too_many_terms = 300; // beyond, a fit takes seconds

void add_terms(TermPowers begun, const std::size_t keys, const unsigned left,
               std::vector<TermPowers> &terms)
{
  if (begun.size() == keys)
  {
    terms.push_back(std::move(begun));
    return;
  }
  for (unsigned power = 0; power <= left; ++power)
  {
    TermPowers next = begun;
    next.push_back(power);
    add_terms(std::move(next), keys, left - power, terms);
  }
}

/// The first is the constant.
std::vector<TermPowers> terms_of(const std::size_t keys, const unsigned degree)
{
  std::vector<TermPowers> terms;
  add_terms({}, keys, degree, terms);
  return terms;
}

/// Legendre's: (n + 1) P_{n+1} = (2n + 1) x P_n - n P_{n-1}, times sqrt(2n + 1). Hermite's
/// (for the normal law): H_{n+1} = x H_n - n H_{n-1}, over sqrt(n!).
std::vector<double> basis_values(const KeyBasis basis, const double u,
                                 const unsigned degree)
{
  std::vector<double> p(degree + 1, 1.);
  const bool          legendre = basis == KeyBasis::legendre;
  const double x = legendre ? 2 * u - 1 : boost::math::quantile(boost::math::normal(), u);
  if (degree > 0)
    p[1] = x;
  for (unsigned n = 1; n < degree; ++n)
    p[n + 1] = legendre ? ((2 * n + 1) * x * p[n] - n * p[n - 1]) / (n + 1)
                        : x * p[n] - n * p[n - 1];
  double factorial = 1;
  for (unsigned n = 0; n <= degree; ++n)
  {
    factorial *= n > 0 ? n : 1;
    p[n] *= legendre ? std::sqrt(2. * n + 1) : 1 / std::sqrt(factorial);
  }
  return p;
}

/// A symmetric positive matrix as L L^T, in place; row-major, lower half.
void factorise(std::vector<double> &a, const std::size_t n)
{
  for (std::size_t j = 0; j < n; ++j)
  {
    double *const rj = &a[j * n];
    for (std::size_t k = 0; k < j; ++k)
      rj[j] -= rj[k] * rj[k];
    if (!(rj[j] > 1e-10))
      throw std::runtime_error("the points do not tell the terms of a polynomial apart");
    rj[j] = std::sqrt(rj[j]);
    for (std::size_t i = j + 1; i < n; ++i)
    {
      double *const ri = &a[i * n];
      for (std::size_t k = 0; k < j; ++k)
        ri[j] -= ri[k] * rj[k];
      ri[j] /= rj[j];
    }
  }
}

void solve_lower(const std::vector<double> &l, std::vector<double> &x)
{
  const std::size_t n = x.size();
  for (std::size_t i = 0; i < n; ++i)
  {
    for (std::size_t k = 0; k < i; ++k)
      x[i] -= l[i * n + k] * x[k];
    x[i] /= l[i * n + i];
  }
}

void solve_upper(const std::vector<double> &l, std::vector<double> &x)
{
  const std::size_t n = x.size();
  for (std::size_t i = n; i-- > 0;)
  {
    for (std::size_t k = i + 1; k < n; ++k)
      x[i] -= l[k * n + i] * x[k];
    x[i] /= l[i * n + i];
  }
}

double dot(const std::vector<double> &a, const std::vector<double> &b)
{
  return std::inner_product(a.begin(), a.end(), b.begin(), 0.);
}
} // namespace

PolynomialModel::PolynomialModel(const CubePoints          &points,
                                 const std::vector<double> &figures,
                                 std::vector<KeyBasis> bases, const unsigned degree)
    : bases_(std::move(bases)), degree_(degree), terms_(terms_of(bases_.size(), degree))
{
  const std::size_t n = terms_.size(), all = points.size();
  if (all <= n)
    throw std::logic_error("a polynomial needs more points than terms");
  std::vector<std::vector<double>> rows;
  std::vector<double>              gram(n * n), right(n);
  for (std::size_t i = 0; i < all; ++i)
  {
    rows.push_back(row(points[i]));
    const std::vector<double> &r = rows.back();
    for (std::size_t a = 0; a < n; ++a)
    {
      right[a] += r[a] * figures[i] / static_cast<double>(all);
      for (std::size_t b = 0; b <= a; ++b)
        gram[a * n + b] += r[a] * r[b] / static_cast<double>(all);
    }
  }
  factorise(gram, n);
  factors_ = right;
  solve_lower(gram, factors_);
  solve_upper(gram, factors_);

  const double mean =
      std::accumulate(figures.begin(), figures.end(), 0.) / static_cast<double>(all);
  double errors = 0, about_mean = 0;
  for (std::size_t i = 0; i < all; ++i)
  {
    const double error = figures[i] - dot(rows[i], factors_);
    solve_lower(gram, rows[i]);
    const double own   = dot(rows[i], rows[i]) / static_cast<double>(all);
    const double apart = error / std::max(1e-12, 1 - own);
    errors += apart * apart;
    about_mean += (figures[i] - mean) * (figures[i] - mean);
  }
  left_out_share_ = about_mean > 0 ? 1 - errors / about_mean : 0;
}

std::vector<double> PolynomialModel::row(const std::vector<double> &point) const
{
  std::vector<std::vector<double>> values;
  for (std::size_t d = 0; d < bases_.size(); ++d)
    values.push_back(basis_values(bases_[d], point[d], degree_));
  std::vector<double> products;
  products.reserve(terms_.size());
  for (const TermPowers &term : terms_)
  {
    double product = 1;
    for (std::size_t d = 0; d < term.size(); ++d)
      product *= values[d][term[d]];
    products.push_back(product);
  }
  return products;
}

double PolynomialModel::value(const std::vector<double> &point) const
{
  return dot(row(point), factors_);
}

double PolynomialModel::variance() const
{
  double sum = 0;
  for (std::size_t t = 1; t < factors_.size(); ++t)
    sum += factors_[t] * factors_[t];
  return sum;
}

double PolynomialModel::first(const std::size_t key) const
{
  double sum = 0;
  for (std::size_t t = 1; t < terms_.size(); ++t)
  {
    bool alone = terms_[t][key] > 0;
    for (std::size_t d = 0; d < terms_[t].size(); ++d)
      alone = alone && (d == key || terms_[t][d] == 0);
    sum += alone ? factors_[t] * factors_[t] : 0;
  }
  return variance() > 0 ? sum / variance() : 0;
}

double PolynomialModel::total(const std::size_t key) const
{
  double sum = 0;
  for (std::size_t t = 1; t < terms_.size(); ++t)
    sum += terms_[t][key] > 0 ? factors_[t] * factors_[t] : 0;
  return variance() > 0 ? sum / variance() : 0;
}

std::size_t term_count(const std::size_t keys, const unsigned degree)
{
  double count = 1; // (keys + degree)! / (keys! degree!)
  for (unsigned k = 1; k <= degree; ++k)
    count *= static_cast<double>(keys + k) / k;
  return static_cast<std::size_t>(std::lround(count));
}

unsigned best_degree(const CubePoints &points, const std::vector<double> &figures,
                     const std::vector<KeyBasis> &bases)
{
  unsigned best  = 0;
  double   share = 0;
  for (unsigned degree = 1; degree <= largest_degree; ++degree)
  {
    const std::size_t terms = term_count(bases.size(), degree);
    if (terms > too_many_terms || terms * passes_a_term > points.size())
      break;
    try
    {
      const double here = PolynomialModel(points, figures, bases, degree).left_out_share();
      if (best == 0 || here > share)
      {
        best  = degree;
        share = here;
      }
    }
    catch (const std::runtime_error &)
    {
      break;
    }
  }
  return best;
}
} // namespace throughbend
