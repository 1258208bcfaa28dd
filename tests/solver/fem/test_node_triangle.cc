// Sweeps and products of a triangle in blocks against the same done entry by entry on the
// whole matrix. Definitions: Saad, Iterative Methods for Sparse Linear Systems, 2nd ed.
// (2003), 4.1.

#include "solver/fem/node_triangle.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
using Dense = std::vector<std::vector<double>>;

/// Symmetric, some couplings missing also within nodes; unknown 4 is coupled to nothing and
/// has a zero diagonal.
Dense matrix(const int n)
{
  Dense a(n, std::vector<double>(n, 0.));
  for (int i = 0; i < n; ++i)
    for (int j = 0; j <= i; ++j)
      if (i == j || (i * j) % 7 < 4)
        a[i][j] = a[j][i] = i == j ? 4. + i : std::sin(3. * i + j);
  for (int i = 0; i < n; ++i)
    a[i][4] = a[4][i] = 0;
  return a;
}

/// The lower triangle, without the zeros but for the diagonal.
struct Stored
{
  explicit Stored(const Dense &a)
  {
    const int n = static_cast<int>(a.size());
    for (int j = 0; j < n; ++j)
    {
      starts.push_back(static_cast<int>(places.size()));
      for (int i = j; i < n; ++i)
        if (i == j || a[i][j] != 0)
        {
          places.push_back(i);
          values.push_back(a[i][j]);
        }
      ends.push_back(static_cast<int>(places.size()));
    }
  }
  NodeTriangle::Columns columns() const
  {
    return {static_cast<int>(starts.size()), starts.data(), ends.data(), places.data(),
            values.data()};
  }
  std::vector<int>    starts, ends, places;
  std::vector<double> values;
};

double apart(const std::vector<double> &a, const std::vector<double> &b)
{
  double most = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    most = std::max(most, std::abs(a[i] - b[i]));
  return most;
}
} // namespace

TEST_CASE("A triangle in blocks sweeps and multiplies as the whole matrix does", "[fem]")
{
  const int           per_node = GENERATE(2, 3);
  const bool          adds     = GENERATE(false, true);
  const int           n        = 12;
  const auto          triangle = make_node_triangle(per_node);
  Dense               a        = matrix(n);
  std::vector<double> add(adds ? n : 0, 0.), right(n);
  for (int i = 0; i < n; ++i)
    right[i] = std::cos(5. * i);
  if (adds)
    for (int i = 0; i < n; ++i)
      add[i] = i == 4 ? 0. : 0.5 * i;
  triangle->take(Stored(matrix(n)).columns(), add);
  for (int again = 0; again < 2; ++again) // other values, the same places
  {
    for (auto &row : a)
      for (double &entry : row)
        entry *= 1.5;
    triangle->take(Stored(a).columns(), add);
  }

  const auto          diagonal = [&](int i) { return a[i][i] + (adds ? add[i] : 0.); };
  std::vector<double> forward(n, 0.), left = right, backward(n, 0.);
  for (int i = 0; i < n; ++i)
  {
    double sum = right[i];
    for (int j = 0; j < i; ++j)
      sum -= a[i][j] * forward[j];
    forward[i] = a[i][i] == 0 ? 0. : sum / diagonal(i);
  }
  for (int i = n - 1; i >= 0; --i)
  {
    double sum = right[i];
    for (int j = i + 1; j < n; ++j)
      sum -= a[i][j] * backward[j];
    backward[i] = a[i][i] == 0 ? 0. : sum / diagonal(i);
  }
  const auto product = [&](const std::vector<double> &x)
  {
    std::vector<double> y(n, 0.);
    for (int i = 0; i < n; ++i)
      for (int j = 0; j < n; ++j)
        y[i] += a[i][j] * x[j];
    return y;
  };
  const std::vector<double> of_forward = product(forward), of_right = product(right);

  constexpr double          single = 1e-5; // precision of the blocks
  std::vector<double>       rest   = right;
  const std::vector<double> found  = triangle->forward(rest);
  CHECK(apart(found, forward) < single);
  for (int i = 0; i < n; ++i)
    left[i] = i == 4 ? 0. : right[i] - of_forward[i]; // left out
  CHECK(apart(rest, left) < 10 * single);
  rest = right;
  triangle->backward(rest);
  CHECK(apart(rest, backward) < single);
  rest.assign(n, 0.);
  triangle->subtract_product(right, rest);
  for (int i = 0; i < n; ++i)
    CHECK(std::abs(rest[i] + of_right[i]) < 100 * single);
}

TEST_CASE("Unknowns that do not come node by node are refused", "[fem]")
{
  CHECK_THROWS_AS(make_node_triangle(4), std::logic_error);
  CHECK_THROWS_AS(make_node_triangle(3)->take(Stored(matrix(11)).columns(), {}),
                  std::logic_error);
}
