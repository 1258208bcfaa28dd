#include "solver/mechanics/small_matrix.h"

#include <cmath>

namespace throughbend
{
namespace
{
/// Rotates rows/columns p and q of m so that m[p][q] vanishes; collects the rotation in v.
void annihilate(Matrix3 &m, Matrix3 &v, int p, int q)
{
  if (m[p][q] == 0)
    return;
  const double tau = (m[q][q] - m[p][p]) / (2 * m[p][q]);
  const double t   = (tau >= 0 ? 1 : -1) / (std::abs(tau) + std::sqrt(1 + tau * tau));
  const double c = 1 / std::sqrt(1 + t * t), s = t * c;
  for (int k = 0; k < 3; ++k)
  {
    const double mkp = m[k][p], mkq = m[k][q];
    m[k][p] = c * mkp - s * mkq;
    m[k][q] = s * mkp + c * mkq;
  }
  for (int k = 0; k < 3; ++k)
  {
    const double mpk = m[p][k], mqk = m[q][k];
    m[p][k]          = c * mpk - s * mqk;
    m[q][k]          = s * mpk + c * mqk;
    const double vkp = v[k][p], vkq = v[k][q];
    v[k][p] = c * vkp - s * vkq;
    v[k][q] = s * vkp + c * vkq;
  }
}
} // namespace

template <int dim>
Spectrum3 spectrum(const Symmetric3 &s)
{
  if constexpr (dim == 2)
  {
    const double xy = s[3];
    if (xy == 0)
      return {{s[0], s[1], s[2]}, {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}};
    const double tau  = (s[1] - s[0]) / (2 * xy);
    const double t    = (tau >= 0 ? 1 : -1) / (std::abs(tau) + std::sqrt(1 + tau * tau));
    const double c    = 1 / std::sqrt(1 + t * t);
    const double sine = t * c;
    return {{s[0] - t * xy, s[1] + t * xy, s[2]},
            {{{c, sine, 0}, {-sine, c, 0}, {0, 0, 1}}}};
  }
  Matrix3 m = full(s);
  Matrix3 v = {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
  annihilate(m, v, 0, 1);
  annihilate(m, v, 0, 2);
  annihilate(m, v, 1, 2);
  constexpr int sweeps = 8; // quadratic convergence; 4 suffice in practice
  for (int sweep = 1; sweep < sweeps; ++sweep)
  {
    const double off  = std::abs(m[0][1]) + std::abs(m[0][2]) + std::abs(m[1][2]);
    const double size = std::abs(m[0][0]) + std::abs(m[1][1]) + std::abs(m[2][2]);
    if (off <= 1e-17 * size)
      break;
    annihilate(m, v, 0, 1);
    annihilate(m, v, 0, 2);
    annihilate(m, v, 1, 2);
  }
  return {{m[0][0], m[1][1], m[2][2]}, v};
}

template Spectrum3 spectrum<2>(const Symmetric3 &);
template Spectrum3 spectrum<3>(const Symmetric3 &);
} // namespace throughbend
