// The dense product of the tangent against three plain loops.

#include "solver/fem/stacked_product.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace throughbend;

TEMPLATE_TEST_CASE_SIG("A stacked product adds A^T B", "[fem]", ((int dim), dim), 2, 3)
{
  constexpr int n_rows = 31, width = padded_nodes<dim>, n = cell_nodes<dim>;
  static_assert(width >= n && width % 4 == 0);
  alignas(32) static double left[n_rows * width], right[n_rows * width], c[n * width];
  static double             before[n * width];
  std::mt19937              random(3);
  std::normal_distribution<double> number;
  for (double &value : left)
    value = number(random);
  for (double &value : right)
    value = number(random);
  for (int i = 0; i < n * width; ++i)
    c[i] = before[i] = number(random);
  add_stacked_product<dim>(left, right, n_rows, c);
  for (int a = 0; a < n; ++a)
    for (int b = 0; b < width; ++b)
    {
      double expected = before[a * width + b], size = std::abs(expected);
      for (int r = 0; r < n_rows; ++r)
      {
        expected += left[r * width + a] * right[r * width + b];
        size += std::abs(left[r * width + a] * right[r * width + b]);
      }
      CHECK(std::abs(c[a * width + b] - expected) < 1e-14 * size);
    }
}
