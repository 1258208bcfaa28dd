#pragma once
// 3x3 matrices for the constitutive update, where a general library's bounds checks and
// temporaries would cost more than the arithmetic. Only what the update needs.

#include <array>
#include <cmath>

namespace throughbend
{
using Matrix3 = std::array<std::array<double, 3>, 3>;

/// Components xx, yy, zz, xy, xz, yz of a symmetric 3x3 matrix.
using Symmetric3 = std::array<double, 6>;

inline constexpr Symmetric3 unit_symmetric3 = {1, 1, 1, 0, 0, 0};

inline Matrix3 full(const Symmetric3 &s)
{
  return {{{s[0], s[3], s[4]}, {s[3], s[1], s[5]}, {s[4], s[5], s[2]}}};
}

inline Symmetric3 symmetric_part(const Matrix3 &m)
{
  return {m[0][0],
          m[1][1],
          m[2][2],
          (m[0][1] + m[1][0]) / 2,
          (m[0][2] + m[2][0]) / 2,
          (m[1][2] + m[2][1]) / 2};
}

inline double determinant(const Matrix3 &m)
{
  return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
         m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
         m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
}

/// Inverse of a regular matrix whose determinant is `det`.
inline Matrix3 inverse(const Matrix3 &m, double det)
{
  const double f = 1 / det;
  return {{{f * (m[1][1] * m[2][2] - m[1][2] * m[2][1]),
            f * (m[0][2] * m[2][1] - m[0][1] * m[2][2]),
            f * (m[0][1] * m[1][2] - m[0][2] * m[1][1])},
           {f * (m[1][2] * m[2][0] - m[1][0] * m[2][2]),
            f * (m[0][0] * m[2][2] - m[0][2] * m[2][0]),
            f * (m[0][2] * m[1][0] - m[0][0] * m[1][2])},
           {f * (m[1][0] * m[2][1] - m[1][1] * m[2][0]),
            f * (m[0][1] * m[2][0] - m[0][0] * m[2][1]),
            f * (m[0][0] * m[1][1] - m[0][1] * m[1][0])}}};
}

/// a s a^T
inline Symmetric3 congruence(const Matrix3 &a, const Symmetric3 &s)
{
  const Matrix3 m = full(s);
  Matrix3       t{};
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j)
      t[i][j] = a[i][0] * m[0][j] + a[i][1] * m[1][j] + a[i][2] * m[2][j];
  const auto entry = [&](int i, int j)
  { return t[i][0] * a[j][0] + t[i][1] * a[j][1] + t[i][2] * a[j][2]; };
  return {entry(0, 0), entry(1, 1), entry(2, 2), entry(0, 1), entry(0, 2), entry(1, 2)};
}

/// (ln a - ln b) / (a - b) of eigenvalues a, b > 0, also when a = b.
inline double log_difference_quotient(double a, double b)
{
  const double x = (a - b) / b;
  return std::abs(x) < 1e-7 ? (1 - x / 2) / b : std::log1p(x) / (a - b);
}

/// Eigenvalues and orthonormal eigenvectors (columns of `vectors`) of a symmetric matrix.
struct Spectrum3
{
  std::array<double, 3> values;
  Matrix3               vectors;
};

/// dim = 2: s has no xz and yz part; one rotation, the third vector is z itself.
/// dim = 3: cyclic Jacobi rotations (Golub & Van Loan, Matrix Computations, sec. 8.5).
template <int dim>
Spectrum3 spectrum(const Symmetric3 &s);
} // namespace throughbend
