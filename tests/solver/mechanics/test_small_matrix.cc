// 3x3 algebra against its own definitions: A A^-1 = 1, S v = lambda v, and matrices whose
// eigenvalues are known by construction.

#include "tests/support/matrices.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

using namespace throughbend;

namespace
{
Matrix3 rotation(double a, double b, double c)
{
  const Matrix3 x = {
      {{1, 0, 0}, {0, std::cos(a), -std::sin(a)}, {0, std::sin(a), std::cos(a)}}};
  const Matrix3 y = {
      {{std::cos(b), 0, std::sin(b)}, {0, 1, 0}, {-std::sin(b), 0, std::cos(b)}}};
  const Matrix3 z = {
      {{std::cos(c), -std::sin(c), 0}, {std::sin(c), std::cos(c), 0}, {0, 0, 1}}};
  return product(x, product(y, z));
}

/// Checks that the spectrum rebuilds s from an orthonormal frame, and returns its values.
template <int dim>
std::array<double, 3> checked_values(const Symmetric3 &s, double size)
{
  const Spectrum3 found = spectrum<dim>(s);
  Matrix3         transposed{}, scaled{};
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j)
    {
      transposed[i][j] = found.vectors[j][i];
      scaled[i][j]     = found.vectors[i][j] * found.values[j];
    }
  CHECK(worst(product(transposed, found.vectors), unit) < 1e-14);
  CHECK(worst(product(scaled, transposed), full(s)) < 1e-14 * size);
  std::array<double, 3> values = found.values;
  std::sort(values.begin(), values.end());
  return values;
}
} // namespace

TEST_CASE("A matrix times its inverse is the unit matrix", "[unit][matrix]")
{
  std::mt19937                           random(1);
  std::uniform_real_distribution<double> entry(-1, 1);
  for (int i = 0; i < 200; ++i)
  {
    Matrix3 m{};
    for (auto &row : m)
      for (double &value : row)
        value = entry(random);
    const double det = determinant(m);
    if (std::abs(det) < 0.05)
      continue;
    CHECK(worst(product(m, inverse(m, det)), unit) < 1e-13);
  }
  CHECK(determinant({{{2, 1, 0}, {0, 3, 0}, {5, 7, -4}}}) == Approx(-24));
}

TEST_CASE("The congruence of a symmetric matrix is a S a^T", "[unit][matrix]")
{
  const Symmetric3 s = {1, 2, 3, 0.4, -0.5, 0.6};
  const Matrix3    a = {{{1, 2, 0.5}, {-0.3, 1, 4}, {0.2, 0.1, -1}}};
  Matrix3          t{};
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j)
      t[i][j] = a[j][i];
  CHECK(worst(full(congruence(a, s)), product(a, product(full(s), t))) < 1e-13);
  CHECK(symmetric_part({{{1, 2, 3}, {4, 5, 6}, {7, 8, 9}}}) ==
        Symmetric3{1, 5, 9, 3, 5, 7});
}

TEST_CASE("Eigenvalues of turned diagonal matrices are found, repeated and nearly repeated "
          "ones too",
          "[unit][matrix]")
{
  const std::vector<std::array<double, 3>> cases = {
      {1, 2, 3},  {1, 1, 1},      {0.8, 0.8, 1.7},   {1, 1 + 1e-12, 1 + 2e-12},
      {-4, 0, 9}, {1e-6, 1, 1e6}, {1, 1 + 1e-8, 2.5}};
  for (const auto &values : cases)
    for (const double angle : {0.0, 0.3, 1.2, 2.9})
    {
      const Matrix3    turn  = rotation(angle, 1.7 * angle, -0.6 * angle);
      const Symmetric3 s     = congruence(turn, {values[0], values[1], values[2], 0, 0, 0});
      const double     size  = std::max(std::abs(values[0]), std::abs(values[2]));
      const auto       found = checked_values<3>(s, size);
      for (std::size_t a = 0; a < 3; ++a)
        CHECK(found[a] == Approx(values[a]).margin(4e-15 * size));
    }
}

TEST_CASE("The plane spectrum is the full one when nothing shears out of the plane",
          "[unit][matrix]")
{
  std::mt19937                           random(2);
  std::uniform_real_distribution<double> entry(-2, 2);
  for (int i = 0; i < 200; ++i)
  {
    const Symmetric3 s = {entry(random), entry(random), entry(random), entry(random), 0, 0};
    const auto       plane = checked_values<2>(s, 4), space = checked_values<3>(s, 4);
    for (std::size_t a = 0; a < 3; ++a)
      CHECK(plane[a] == Approx(space[a]).margin(1e-14));
    const Spectrum3 raw = spectrum<2>(s);
    CHECK(raw.values[2] == s[2]); // the third stays the one across
    CHECK(std::abs(raw.vectors[2][2]) == 1);
  }
}

TEST_CASE("Random symmetric matrices are rebuilt from their spectrum", "[unit][matrix]")
{
  std::mt19937                           random(4);
  std::uniform_real_distribution<double> entry(-1, 1), exponent(-6, 3);
  for (int i = 0; i < 500; ++i)
  {
    Symmetric3 s{};
    double     size = 0;
    for (double &value : s)
    {
      value = entry(random) * std::pow(10, exponent(random));
      size  = std::max(size, 3 * std::abs(value));
    }
    checked_values<3>(s, size);
  }
}
