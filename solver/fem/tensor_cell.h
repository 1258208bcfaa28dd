#pragma once
// Quadratic shape functions of a line, a square and a cube as products of those of a line,
// and sums over the points of such a cell taken one direction after the other ("sum
// factorisation": Orszag 1980, J. Comput. Phys. 37, 70). Four cells at once; nodes and
// points are numbered along x first, then y, then z. Knows no mesh.

#include "solver/mechanics/lanes.h"

namespace throughbend
{
template <int dim>
inline constexpr int n_cell_nodes = dim == 2 ? 9 : 27; ///< and as many points

/// Shape functions with nodes 0, 1/2, 1, or their slopes, at Gauss' three points, and what
/// pairs of them make there.
struct LineShape
{
  double value[2][3][3];   ///< [derivative][node][point]
  double pair[2][2][3][9]; ///< [derivative of a][of b][point][3 a + b]
};

constexpr LineShape make_line_shape()
{
  constexpr double offset    = 0.387298334620741688518; // sqrt(3/5) / 2
  constexpr double points[3] = {0.5 - offset, 0.5, 0.5 + offset};
  LineShape        shape{};
  for (int q = 0; q < 3; ++q)
  {
    const double x       = points[q];
    shape.value[0][0][q] = (1 - x) * (1 - 2 * x);
    shape.value[0][1][q] = 4 * x * (1 - x);
    shape.value[0][2][q] = x * (2 * x - 1);
    shape.value[1][0][q] = 4 * x - 3;
    shape.value[1][1][q] = 4 - 8 * x;
    shape.value[1][2][q] = 4 * x - 1;
  }
  for (int s = 0; s < 2; ++s)
    for (int t = 0; t < 2; ++t)
      for (int q = 0; q < 3; ++q)
        for (int a = 0; a < 3; ++a)
          for (int b = 0; b < 3; ++b)
            shape.pair[s][t][q][3 * a + b] = shape.value[s][a][q] * shape.value[t][b][q];
  return shape;
}
inline constexpr LineShape line_shape = make_line_shape();

/// Slopes along the reference directions at the points, of nodal values u.
THROUGHBEND_INLINED void reference_slopes(const Lanes (&u)[9], Lanes (&slope)[2][9])
{
  const auto &N = line_shape.value[0], &G = line_shape.value[1];
  for (int b = 0; b < 3; ++b) // row of nodes, for now
    for (int q = 0; q < 3; ++q)
    {
      slope[0][3 * b + q] =
          u[3 * b] * G[0][q] + u[3 * b + 1] * G[1][q] + u[3 * b + 2] * G[2][q];
      slope[1][3 * b + q] =
          u[3 * b] * N[0][q] + u[3 * b + 1] * N[1][q] + u[3 * b + 2] * N[2][q];
    }
  for (int l = 0; l < 2; ++l)
    for (int x = 0; x < 3; ++x)
    {
      const Lanes a = slope[l][x], b = slope[l][3 + x], c = slope[l][6 + x];
      const auto &S = l == 1 ? G : N;
      for (int q = 0; q < 3; ++q)
        slope[l][3 * q + x] = a * S[0][q] + b * S[1][q] + c * S[2][q];
    }
}

THROUGHBEND_INLINED void reference_slopes(const Lanes (&u)[27], Lanes (&slope)[3][27])
{
  const auto &N = line_shape.value[0], &G = line_shape.value[1];
  for (int row = 0; row < 9; ++row) // of nodes along x
    for (int q = 0; q < 3; ++q)
    {
      const Lanes *const v  = u + 3 * row;
      slope[0][3 * row + q] = v[0] * G[0][q] + v[1] * G[1][q] + v[2] * G[2][q];
      slope[2][3 * row + q] = v[0] * N[0][q] + v[1] * N[1][q] + v[2] * N[2][q];
    }
  for (int z = 0; z < 3; ++z)
    for (int x = 0; x < 3; ++x)
    {
      const int   at = 9 * z + x;
      const Lanes a = slope[0][at], b = slope[0][at + 3], c = slope[0][at + 6];
      const Lanes d = slope[2][at], e = slope[2][at + 3], f = slope[2][at + 6];
      for (int q = 0; q < 3; ++q)
      {
        slope[0][at + 3 * q] = a * N[0][q] + b * N[1][q] + c * N[2][q];
        slope[1][at + 3 * q] = d * G[0][q] + e * G[1][q] + f * G[2][q];
        slope[2][at + 3 * q] = d * N[0][q] + e * N[1][q] + f * N[2][q];
      }
    }
  for (int l = 0; l < 3; ++l)
    for (int at = 0; at < 9; ++at)
    {
      const Lanes a = slope[l][at], b = slope[l][at + 9], c = slope[l][at + 18];
      const auto &S = l == 2 ? G : N;
      for (int q = 0; q < 3; ++q)
        slope[l][at + 9 * q] = a * S[0][q] + b * S[1][q] + c * S[2][q];
    }
}

/// The transpose: sum over points q and directions l of flux[l][q] times the slope along l
/// of the shape function of each node. `flux` is used up.
THROUGHBEND_INLINED void sum_slopes(Lanes (&flux)[2][9], Lanes (&sum)[9])
{
  const auto &N = line_shape.value[0], &G = line_shape.value[1];
  for (int l = 0; l < 2; ++l)
    for (int x = 0; x < 3; ++x)
    {
      const Lanes a = flux[l][x], b = flux[l][3 + x], c = flux[l][6 + x];
      const auto &S = l == 1 ? G : N;
      for (int n = 0; n < 3; ++n)
        flux[l][3 * n + x] = a * S[n][0] + b * S[n][1] + c * S[n][2];
    }
  for (int row = 0; row < 3; ++row)
    for (int n = 0; n < 3; ++n)
    {
      const Lanes *const f = flux[0] + 3 * row, *const g = flux[1] + 3 * row;
      sum[3 * row + n] = f[0] * G[n][0] + f[1] * G[n][1] + f[2] * G[n][2] + g[0] * N[n][0] +
                         g[1] * N[n][1] + g[2] * N[n][2];
    }
}

THROUGHBEND_INLINED void sum_slopes(Lanes (&flux)[3][27], Lanes (&sum)[27])
{
  const auto &N = line_shape.value[0], &G = line_shape.value[1];
  for (int l = 0; l < 3; ++l)
    for (int at = 0; at < 9; ++at)
    {
      const Lanes a = flux[l][at], b = flux[l][at + 9], c = flux[l][at + 18];
      const auto &S = l == 2 ? G : N;
      for (int n = 0; n < 3; ++n)
        flux[l][at + 9 * n] = a * S[n][0] + b * S[n][1] + c * S[n][2];
    }
  for (int z = 0; z < 3; ++z)
    for (int x = 0; x < 3; ++x)
    {
      const int   at = 9 * z + x;
      const Lanes a = flux[0][at], b = flux[0][at + 3], c = flux[0][at + 6];
      const Lanes d = flux[1][at], e = flux[1][at + 3], f = flux[1][at + 6];
      const Lanes g = flux[2][at], h = flux[2][at + 3], i = flux[2][at + 6];
      for (int n = 0; n < 3; ++n)
      {
        flux[0][at + 3 * n] = a * N[n][0] + b * N[n][1] + c * N[n][2];
        flux[1][at + 3 * n] = d * G[n][0] + e * G[n][1] + f * G[n][2] + g * N[n][0] +
                              h * N[n][1] + i * N[n][2];
      }
    }
  for (int row = 0; row < 9; ++row)
    for (int n = 0; n < 3; ++n)
    {
      const Lanes *const f = flux[0] + 3 * row, *const g = flux[1] + 3 * row;
      sum[3 * row + n] = f[0] * G[n][0] + f[1] * G[n][1] + f[2] * G[n][2] + g[0] * N[n][0] +
                         g[1] * N[n][1] + g[2] * N[n][2];
    }
}

/// sum over points q and directions s, t of factor[s][t][q] (slope along s of node a)
/// (slope along t of node b), at (3 a_x + b_x, 3 a_y + b_y).
THROUGHBEND_INLINED void sum_slope_pairs(const Lanes (&factor)[2][2][9], Lanes (&sum)[9][9])
{
  const auto &P = line_shape.pair;
  Lanes       row[2][2][3][9]; // summed along x: [s][t][point along y][pair along x]
  for (int s = 0; s < 2; ++s)
    for (int t = 0; t < 2; ++t)
      for (int q = 0; q < 3; ++q)
      {
        const Lanes *const f = factor[s][t] + 3 * q;
        const auto        &p = P[s == 0][t == 0];
        for (int ab = 0; ab < 9; ++ab)
          row[s][t][q][ab] = f[0] * p[0][ab] + f[1] * p[1][ab] + f[2] * p[2][ab];
      }
  for (int x = 0; x < 9; ++x)
    for (int y = 0; y < 9; ++y)
    {
      Lanes entry = all_lanes(0);
      for (int s = 0; s < 2; ++s)
        for (int t = 0; t < 2; ++t)
          for (int q = 0; q < 3; ++q)
            entry += row[s][t][q][x] * P[s == 1][t == 1][q][y];
      sum[x][y] = entry;
    }
}

/// The same in space, at (3 a_x + b_x, 3 a_y + b_y, 3 a_z + b_z).
THROUGHBEND_INLINED void sum_slope_pairs(const Lanes (&factor)[3][3][27],
                                         Lanes (&sum)[9][9][9])
{
  const auto &P = line_shape.pair;
  // Summed along x and y: [derivative of a along z][of b][point along z][pair x][pair y].
  Lanes slab[2][2][3][9][9];
  for (int z = 0; z < 3; ++z)
  {
    Lanes row[3][3][3][9]; // summed along x: [s][t][point along y][pair along x]
    for (int s = 0; s < 3; ++s)
      for (int t = 0; t < 3; ++t)
        for (int q = 0; q < 3; ++q)
        {
          const Lanes *const f = factor[s][t] + 9 * z + 3 * q;
          const auto        &p = P[s == 0][t == 0];
          for (int ab = 0; ab < 9; ++ab)
            row[s][t][q][ab] = f[0] * p[0][ab] + f[1] * p[1][ab] + f[2] * p[2][ab];
        }
    for (int x = 0; x < 9; ++x)
      for (int y = 0; y < 9; ++y)
      {
        Lanes none = all_lanes(0), left = none, right = none, both = none;
        for (int q = 0; q < 3; ++q)
        {
          for (int s = 0; s < 2; ++s)
          {
            for (int t = 0; t < 2; ++t)
              none += row[s][t][q][x] * P[s == 1][t == 1][q][y];
            left += row[2][s][q][x] * P[0][s == 1][q][y];
            right += row[s][2][q][x] * P[s == 1][0][q][y];
          }
          both += row[2][2][q][x] * P[0][0][q][y];
        }
        slab[0][0][z][x][y] = none;
        slab[1][0][z][x][y] = left;
        slab[0][1][z][x][y] = right;
        slab[1][1][z][x][y] = both;
      }
  }
  for (int x = 0; x < 9; ++x)
    for (int y = 0; y < 9; ++y)
      for (int ab = 0; ab < 9; ++ab)
      {
        Lanes entry = all_lanes(0);
        for (int s = 0; s < 2; ++s)
          for (int t = 0; t < 2; ++t)
            for (int z = 0; z < 3; ++z)
              entry += slab[s][t][z][x][y] * P[s][t][z][ab];
        sum[x][y][ab] = entry;
      }
}
} // namespace throughbend
