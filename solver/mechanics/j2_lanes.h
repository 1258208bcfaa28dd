#pragma once
// j2_update of four points at once: the same law, return mapping and tangent, written
// without branches. Knows no element. A backstress is left out.

#include "solver/mechanics/flow_lanes.h"

namespace throughbend
{
/// Entries of a symmetric matrix that are not always 0: xx, yy, zz, xy and in space xz, yz.
template <int dim>
inline constexpr int n_symmetric = dim == 2 ? 4 : 6;

/// Where the entry (i, j), both below dim, stands among them.
constexpr int symmetric_index(int i, int j)
{
  return i == j ? i : i + j + 2;
}

/// Elastic constants and flow curves of four points.
struct MaterialLanes
{
  alignas(32) LaneArray shear; ///< G [MPa]
  alignas(32) LaneArray bulk;  ///< K [MPa]
  FlowLanes flow;
};

/// The accepted plastic state, with the flow curve there.
template <int dim>
struct PlasticLanes
{
  Lanes inverse_metric[n_symmetric<dim>]; ///< C_p^-1 [-]
  Lanes strain;                           ///< equivalent plastic strain [-]
  Lanes stress, slope;                    ///< of the flow curve there [MPa]
};

/// As J2Axes, without elastic constants.
template <int dim>
struct AxesLanes
{
  Lanes vectors[dim][dim]; ///< columns: the axes
  Lanes values[dim];       ///< trial b_e in the modelled directions [-]
  Lanes logs[dim];         ///< their logarithms
  Lanes deviator[dim];     ///< of the trial's log strain [-]
  Lanes shrink, along;     ///< [-], [MPa]
};

template <int dim>
struct J2Lanes
{
  Lanes          kirchhoff[n_symmetric<dim>];      ///< tau [MPa]
  Lanes          inverse_metric[n_symmetric<dim>]; ///< the new C_p^-1 [-]
  Lanes          strain;                           ///< new equivalent plastic strain [-]
  Lanes          elastic, plastic; ///< energy and work of this step [N mm/mm^3]
  AxesLanes<dim> axes;
};

/// a s a^T; a is 1 in z where dim = 2.
template <int dim>
THROUGHBEND_INLINED void congruence(const Lanes (&a)[dim][dim],
                                    const Lanes (&s)[n_symmetric<dim>],
                                    Lanes (&result)[n_symmetric<dim>])
{
  Lanes left[dim][dim]; // a s
  for (int i = 0; i < dim; ++i)
    for (int j = 0; j < dim; ++j)
    {
      left[i][j] = a[i][0] * s[symmetric_index(0, j)];
      for (int k = 1; k < dim; ++k)
        left[i][j] += a[i][k] * s[symmetric_index(k, j)];
    }
  for (int i = 0; i < dim; ++i)
    for (int j = i; j < dim; ++j)
    {
      Lanes sum = left[i][0] * a[j][0];
      for (int k = 1; k < dim; ++k)
        sum += left[i][k] * a[j][k];
      result[symmetric_index(i, j)] = sum;
    }
  if (dim == 2)
    result[2] = s[2];
}

/// The rotation that makes entry (p, q) of a symmetric matrix vanish: Golub & Van Loan,
/// Matrix Computations, sec. 8.5, with |2 m_pq| taken into the quotient. None where `still`
/// holds.
THROUGHBEND_INLINED void annihilate(Lanes &m_pp, Lanes &m_qq, Lanes &m_pq, Lanes &cosine,
                                    Lanes &sine, LaneMask still)
{
  constexpr double least = 1e-300; // 0 / 0 is no rotation
  const Lanes      d = m_qq - m_pp, twice = 2. * m_pq;
  const Lanes      t = with_sign(all_lanes(1), d) * twice /
                  (magnitude(d) + square_root(d * d + twice * twice) + least);
  const Lanes turn = still ? all_lanes(0) : t;
  cosine           = 1. / square_root(1. + turn * turn);
  sine             = turn * cosine;
  m_pp -= turn * m_pq;
  m_qq += turn * m_pq;
  m_pq = still ? m_pq : all_lanes(0);
}

/// The same on a matrix in space, with the axes found so far.
template <int p, int q>
THROUGHBEND_INLINED void rotate(Lanes (&m)[6], Lanes (&vectors)[3][3], LaneMask still)
{
  constexpr int rp = symmetric_index(3 - p - q, p), rq = symmetric_index(3 - p - q, q);
  Lanes         cosine, sine;
  annihilate(m[p], m[q], m[symmetric_index(p, q)], cosine, sine, still);
  const Lanes m_p = m[rp], m_q = m[rq];
  m[rp] = cosine * m_p - sine * m_q;
  m[rq] = sine * m_p + cosine * m_q;
  for (int k = 0; k < 3; ++k)
  {
    const Lanes v_p = vectors[k][p], v_q = vectors[k][q];
    vectors[k][p] = cosine * v_p - sine * v_q;
    vectors[k][q] = sine * v_p + cosine * v_q;
  }
}

/// Eigenvalues and vectors in the modelled directions.
template <int dim>
THROUGHBEND_INLINED void spectrum(const Lanes (&s)[n_symmetric<dim>], Lanes (&values)[dim],
                                  Lanes (&vectors)[dim][dim])
{
  Lanes m[n_symmetric<dim>];
  for (int i = 0; i < n_symmetric<dim>; ++i)
    m[i] = s[i];
  if constexpr (dim == 2)
  {
    Lanes cosine, sine;
    annihilate(m[0], m[1], m[3], cosine, sine, m[3] == 0.);
    vectors[0][0] = vectors[1][1] = cosine;
    vectors[0][1]                 = sine;
    vectors[1][0]                 = -sine;
  }
  else
  {
    for (int i = 0; i < dim; ++i)
      for (int j = 0; j < dim; ++j)
        vectors[i][j] = all_lanes(i == j ? 1 : 0);
    constexpr int sweeps = 8; // quadratic convergence
    for (int sweep = 0; sweep < sweeps; ++sweep)
    {
      const Lanes    off   = magnitude(m[3]) + magnitude(m[4]) + magnitude(m[5]);
      const Lanes    size  = magnitude(m[0]) + magnitude(m[1]) + magnitude(m[2]);
      const LaneMask still = off <= 1e-17 * size;
      if (!any(~still))
        break;
      rotate<0, 1>(m, vectors, still);
      rotate<0, 2>(m, vectors, still);
      rotate<1, 2>(m, vectors, still);
    }
  }
  for (int a = 0; a < dim; ++a)
    values[a] = m[a];
}

/// sum of values_a n_a n_a; the third axis is z where dim = 2.
template <int dim>
THROUGHBEND_INLINED void from_axes(const Lanes (&values)[3], const Lanes (&n)[dim][dim],
                                   Lanes (&result)[n_symmetric<dim>])
{
  for (int i = 0; i < dim; ++i)
    for (int j = i; j < dim; ++j)
    {
      Lanes sum = values[0] * n[i][0] * n[j][0];
      for (int a = 1; a < dim; ++a)
        sum += values[a] * n[i][a] * n[j][a];
      result[symmetric_index(i, j)] = sum;
    }
  if (dim == 2)
    result[2] = values[2];
}

/// The increment dg >= 0 with q - 3 G dg = s(p + dg) where `flowing`, by Newton kept inside
/// a bracket; 0 elsewhere. `end` is the flow curve at the end.
template <int dim>
THROUGHBEND_INLINED Lanes plastic_increment(Lanes q, Lanes three_shear, LaneMask flowing,
                                            const PlasticLanes<dim> &old,
                                            const FlowLanes &flow, FlowStateLanes &end)
{
  const Lanes none = all_lanes(0);
  Lanes       low = none, high = (q - old.stress) / three_shear;
  Lanes       size   = flowing ? (q - old.stress) / (three_shear + old.slope) : none;
  LaneMask    active = flowing;
  for (int i = 0;; ++i)
  {
    end                = flow_at(flow, old.strain + size);
    const Lanes excess = q - three_shear * size - end.stress;
    active             = active & (magnitude(excess) > 1e-13 * q);
    if (i == 60 || !any(active))
      return size;
    low              = excess > none ? size : low;
    high             = excess > none ? high : size;
    const Lanes next = size + excess / (three_shear + end.slope);
    const Lanes kept = (next > low) & (next < high) ? next : (low + high) / 2.;
    size             = active ? kept : size;
  }
}

/// From F_bar (1 in z where dim = 2) and its inverse to stress and new state.
template <int dim>
THROUGHBEND_INLINED void
j2_lanes(const Lanes (&F)[dim][dim], const Lanes (&inverse_F)[dim][dim],
         const PlasticLanes<dim> &old, const MaterialLanes &material, J2Lanes<dim> &result)
{
  const Lanes     G = loaded(material.shear), K = loaded(material.bulk);
  AxesLanes<dim> &axes = result.axes;
  Lanes           trial[n_symmetric<dim>];
  congruence<dim>(F, old.inverse_metric, trial);
  spectrum<dim>(trial, axes.values, axes.vectors);

  Lanes strain[3], deviator[3];
  for (int a = 0; a < dim; ++a)
  {
    axes.logs[a] = logarithm(axes.values[a]);
    strain[a]    = axes.logs[a] / 2.;
  }
  if (dim == 2)
    strain[2] = logarithm(trial[2]) / 2.;
  const Lanes volume = strain[0] + strain[1] + strain[2];
  Lanes       square = all_lanes(0);
  for (int a = 0; a < 3; ++a)
  {
    deviator[a] = strain[a] - volume / 3.;
    square += deviator[a] * deviator[a];
  }
  for (int a = 0; a < dim; ++a)
    axes.deviator[a] = deviator[a];
  const Lanes    q       = square_root(6. * square) * G; // sqrt(3/2) |2 G dev e|
  const LaneMask flowing = q > old.stress;

  axes.shrink    = all_lanes(1);
  axes.along     = all_lanes(0);
  result.strain  = old.strain;
  result.plastic = all_lanes(0);
  for (int i = 0; i < n_symmetric<dim>; ++i)
    result.inverse_metric[i] = old.inverse_metric[i];
  if (any(flowing))
  {
    FlowStateLanes end;
    const Lanes    dg = plastic_increment<dim>(q, 3. * G, flowing, old, material.flow, end);
    const Lanes    share = dg / q; // of lanes that flow only
    axes.shrink          = flowing ? 1. - 3. * G * share : axes.shrink;
    axes.along =
        flowing ? 6. * G * G * (share - 1. / (3. * G + end.slope)) / square : axes.along;
    result.strain += dg;
    result.plastic = (old.stress + end.stress) / 2. * dg;
    // C_p^-1 = F^-1 b_e F^-T with b_e = exp(2 e_e) on the trial axes.
    Lanes stretch[3], elastic[n_symmetric<dim>], metric[n_symmetric<dim>];
    for (int a = 0; a < 3; ++a)
      stretch[a] = exponential(2. * (volume / 3. + axes.shrink * deviator[a]));
    from_axes<dim>(stretch, axes.vectors, elastic);
    congruence<dim>(inverse_F, elastic, metric);
    for (int i = 0; i < n_symmetric<dim>; ++i)
      result.inverse_metric[i] = flowing ? metric[i] : old.inverse_metric[i];
  }
  Lanes tau[3];
  for (int a = 0; a < 3; ++a)
    tau[a] = K * volume + 2. * G * axes.shrink * deviator[a];
  from_axes<dim>(tau, axes.vectors, result.kirchhoff);
  result.elastic = K * volume * volume / 2. + G * axes.shrink * axes.shrink * square;
}

/// The tangent on the trial axes, where it has few entries: d tau_a / d e_b, and for two
/// axes a > b the modulus (tau_a - tau_b)/(b_a - b_b), at a (a - 1) / 2 + b.
template <int dim>
struct ModuliLanes
{
  Lanes normal[dim][dim];
  Lanes turning[dim * (dim - 1) / 2];
};

template <int dim>
THROUGHBEND_INLINED void j2_moduli(const AxesLanes<dim> &axes,
                                   const MaterialLanes &material, ModuliLanes<dim> &moduli)
{
  const Lanes G = loaded(material.shear), K = loaded(material.bulk);
  const Lanes own = 2. * G * axes.shrink;
  for (int a = 0; a < dim; ++a)
    for (int b = 0; b <= a; ++b)
    {
      const Lanes modulus = K - own / 3. + axes.along * axes.deviator[a] * axes.deviator[b];
      moduli.normal[a][b] = moduli.normal[b][a] = a == b ? modulus + own : modulus;
    }
  for (int a = 1; a < dim; ++a)
    for (int b = 0; b < a; ++b)
      moduli.turning[a * (a - 1) / 2 + b] =
          G * axes.shrink *
          log_difference_quotient(axes.values[a], axes.values[b], axes.logs[a],
                                  axes.logs[b]);
}
} // namespace throughbend
