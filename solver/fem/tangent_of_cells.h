#pragma once
// The tangents of four cells at once, at their last evaluation. The density of a tangent is
//   h_i : a : h_j - tau : (l_i l_j) + (p - p*) tr(l_i l_j) + p* div_i div_j - p D_i D_j,
//   h = l + (D - div) / d on the diagonal,
// with l_i and div_i as in equilibrium.h and D_i the rate of dilatation. What it makes of
// slopes along the reference directions is a small matrix at each point; D is a sum of few
// functions, so all that has a D in it is a product of few columns.

#include "solver/fem/evaluate_cells.h"

namespace throughbend
{
/// A component of the displacement and a reference direction are one index here: i dim + l.
template <int dim>
inline constexpr int n_slopes = dim *dim;

/// The density at one point, times the weight.
template <int dim>
struct DensityLanes
{
  Lanes slopes[n_slopes<dim>][n_slopes<dim>];        ///< of slope and slope
  Lanes before[n_slopes<dim>], after[n_slopes<dim>]; ///< of slope and D, of D and slope
  Lanes rates;                                       ///< of D and D
};

/// Material part from few scalars on the trial axes: dyads of axes n_a n_b act on the
/// slopes of component i along l as y = n_a[i] (d xi_l/dx . n_b).
template <int dim>
THROUGHBEND_INLINED void
add_material(const AxesLanes<dim> &axes, const MaterialLanes &material, Lanes weight,
             const Lanes (&B)[dim][dim], DensityLanes<dim> &density)
{
  constexpr int    n = n_slopes<dim>;
  ModuliLanes<dim> moduli;
  j2_moduli<dim>(axes, material, moduli);
  Lanes turned[dim][dim]; // d xi_l/dx . n_b
  for (int l = 0; l < dim; ++l)
    for (int b = 0; b < dim; ++b)
    {
      turned[l][b] = B[l][0] * axes.vectors[0][b];
      for (int k = 1; k < dim; ++k)
        turned[l][b] += B[l][k] * axes.vectors[k][b];
    }
  // Normal dyads less their mean in the plane, which D takes over.
  Lanes normal[dim][n], of_normal[dim][n];
  for (int i = 0; i < dim; ++i)
    for (int l = 0; l < dim; ++l)
      for (int a = 0; a < dim; ++a)
        normal[a][i * dim + l] = axes.vectors[i][a] * turned[l][a] - B[l][i] / double(dim);
  Lanes row_sum[dim], both = all_lanes(0);
  for (int a = 0; a < dim; ++a)
  {
    row_sum[a] = all_lanes(0);
    for (int b = 0; b < dim; ++b)
      row_sum[a] += moduli.normal[a][b];
    row_sum[a] *= weight / double(dim);
    both += row_sum[a];
    for (int r = 0; r < n; ++r)
    {
      Lanes sum = moduli.normal[a][0] * normal[0][r];
      for (int b = 1; b < dim; ++b)
        sum += moduli.normal[a][b] * normal[b][r];
      of_normal[a][r] = weight * sum;
    }
  }
  for (int r = 0; r < n; ++r)
  {
    Lanes sum = row_sum[0] * normal[0][r];
    for (int a = 1; a < dim; ++a)
      sum += row_sum[a] * normal[a][r];
    density.before[r] = density.after[r] = sum;
  }
  density.rates += both / double(dim);

  constexpr int n_pairs = dim * (dim - 1) / 2;
  Lanes         shear[n_pairs][n], of_shear[n_pairs][n];
  for (int a = 1; a < dim; ++a)
    for (int b = 0; b < a; ++b)
    {
      const int   pair    = a * (a - 1) / 2 + b;
      const Lanes modulus = weight * moduli.turning[pair];
      const Lanes to_b = modulus * axes.values[b], to_a = modulus * axes.values[a];
      for (int i = 0; i < dim; ++i)
        for (int l = 0; l < dim; ++l)
        {
          const Lanes ab              = axes.vectors[i][a] * turned[l][b];
          const Lanes ba              = axes.vectors[i][b] * turned[l][a];
          shear[pair][i * dim + l]    = ab + ba;
          of_shear[pair][i * dim + l] = to_b * ab + to_a * ba;
        }
    }
  for (int r = 0; r < n; ++r)
    for (int s = r / dim * dim; s < n; ++s) // the other blocks are the same, transposed
    {
      Lanes sum = density.slopes[r][s];
      for (int a = 0; a < dim; ++a)
        sum += normal[a][r] * of_normal[a][s];
      for (int pair = 0; pair < n_pairs; ++pair)
        sum += shear[pair][r] * of_shear[pair][s];
      density.slopes[r][s] = sum;
    }
}

/// Material part of any kind.
template <int dim>
THROUGHBEND_INLINED void add_material(const TangentLanes<dim> &a, Lanes weight,
                                      const Lanes (&B)[dim][dim],
                                      DensityLanes<dim> &density)
{
  constexpr int n = n_slopes<dim>;
  Lanes         half[n][n]; // a with its second slope along the reference directions
  for (int r = 0; r < n; ++r)
    for (int j = 0; j < dim; ++j)
      for (int m = 0; m < dim; ++m)
      {
        half[r][j * dim + m] = all_lanes(0);
        for (int k = 0; k < dim; ++k)
          half[r][j * dim + m] += a.entry[r][j * dim + k] * B[m][k];
      }
  Lanes left[n], both = all_lanes(0); // a acting on the unit matrix from the left, and both
  for (int s = 0; s < n; ++s)
  {
    left[s] = all_lanes(0);
    for (int k = 0; k < dim; ++k)
      left[s] += half[k * dim + k][s];
  }
  for (int k = 0; k < dim; ++k)
    for (int l = 0; l < dim; ++l)
      both += a.entry[k * dim + k][l * dim + l];
  both /= double(dim * dim);
  for (int i = 0; i < dim; ++i)
    for (int l = 0; l < dim; ++l)
    {
      const int   r     = i * dim + l;
      Lanes       right = all_lanes(0);
      const Lanes div   = B[l][i];
      for (int k = 0; k < dim; ++k)
        for (int m = 0; m < dim; ++m)
          right += B[l][k] * a.entry[i * dim + k][m * dim + m];
      right /= double(dim);
      density.before[r] = weight * (right - both * div);
      density.after[r]  = weight * (left[r] / double(dim) - both * div);
      for (int j = 0; j < dim; ++j)
        for (int m = 0; m < dim; ++m)
        {
          const int   s     = j * dim + m;
          const Lanes other = B[m][j];
          Lanes sum = both * div * other - right * other - div * left[s] / double(dim);
          for (int k = 0; k < dim; ++k)
            sum += B[l][k] * half[i * dim + k][s];
          density.slopes[r][s] += weight * sum;
        }
    }
  density.rates += weight * both;
}

/// The density at point q. Blocks (i, j) with i > j are left out where it is symmetric.
template <int dim, bool symmetric>
THROUGHBEND_INLINED void form_density(const CellBatch<dim>  &batch,
                                      const BatchState<dim> &state, int q,
                                      DensityLanes<dim> &density)
{
  const auto &B      = state.to_reference[q];
  const auto &tau    = state.kirchhoff[q];
  const Lanes weight = batch.weight[q];
  const Lanes p      = mean_in_plane<dim>(tau);
  const Lanes p_star = weight * state.projected_pressure[q];
  Lanes       stress[dim][dim]; // (p - p*) - tau, its second index along xi_m
  for (int i = 0; i < dim; ++i)
    for (int m = 0; m < dim; ++m)
    {
      Lanes sum = (weight * p - p_star) * B[m][i];
      for (int k = 0; k < dim; ++k)
        sum -= weight * tau[symmetric_index(i, k)] * B[m][k];
      stress[i][m] = sum;
    }
  for (int i = 0; i < dim; ++i)
    for (int j = symmetric ? i : 0; j < dim; ++j)
      for (int l = 0; l < dim; ++l)
        for (int m = 0; m < dim; ++m)
          density.slopes[i * dim + l][j * dim + m] =
              p_star * B[l][i] * B[m][j] + B[l][j] * stress[i][m];
  density.rates = -weight * p;
  if constexpr (symmetric)
    add_material<dim>(state.axes[q], batch.material_at(q), weight, B, density);
  else
    add_material<dim>(state.tangent[static_cast<unsigned>(q)], weight, B, density);
}

template <int dim>
struct TangentScratch
{
  static constexpr int n = n_cell_nodes<dim>;
  Lanes                factor[dim][dim][dim][dim][n]; ///< [i][j][l][m][point]
  Lanes                before[dim][dim][n], after[dim][dim][n];
  Lanes                rates[n];
  Lanes                flux[dim][n];
  /// Columns: D of each unknown, and what goes with it, for each function of D.
  Lanes rate[1 << dim][dim][n], left[1 << dim][dim][n], right[1 << dim][dim][n];
};

/// What sum_slope_pairs() makes.
template <int dim>
struct PairSums
{
  Lanes entry[9][9];
};
template <>
struct PairSums<3>
{
  Lanes entry[9][9][9];
};

/// Node of pair (3 a + b) along each direction: a's or b's number along x, y(, z).
THROUGHBEND_INLINED const Lanes &pair_entry(const Lanes (&sum)[9][9], int a, int b)
{
  return sum[3 * (a % 3) + b % 3][3 * (a / 3) + b / 3];
}
THROUGHBEND_INLINED const Lanes &pair_entry(const Lanes (&sum)[9][9][9], int a, int b)
{
  return sum[3 * (a % 3) + b % 3][3 * (a / 3 % 3) + b / 3 % 3][3 * (a / 9) + b / 9];
}

/// The columns that D and its partners are made of: with D_J = sum over m of phi_m / theta
/// times rate_m,J, all terms with a D are
///   left_m,I rate_m,J + rate_m,I right_m,J.
template <int dim, bool symmetric>
THROUGHBEND_INLINED void form_columns(const CellBatch<dim>  &batch,
                                      const BatchState<dim> &state, TangentScratch<dim> &s)
{
  constexpr int n     = n_cell_nodes<dim>;
  const int     n_phi = batch.n_dilatations;
  for (int m = 0; m < n_phi; ++m)
    for (int i = 0; i < dim; ++i)
    {
      const auto &phi = batch.dilatation[m];
      for (int q = 0; q < n; ++q)
      {
        const Lanes factor = batch.weight[q] * phi[q] * state.jacobian[q];
        for (int l = 0; l < dim; ++l)
          s.flux[l][q] = factor * state.to_reference[q][l][i];
      }
      sum_slopes(s.flux, s.rate[m][i]);
      for (int q = 0; q < n; ++q)
        for (int l = 0; l < dim; ++l)
          s.flux[l][q] = phi[q] * s.before[i][l][q];
      sum_slopes(s.flux, s.left[m][i]);
      if (symmetric)
        continue;
      for (int q = 0; q < n; ++q)
        for (int l = 0; l < dim; ++l)
          s.flux[l][q] = phi[q] * s.after[i][l][q];
      sum_slopes(s.flux, s.right[m][i]);
    }
  // Half of what D makes with D goes to either side.
  for (int m = 0; m < n_phi; ++m)
    for (int k = 0; k < n_phi; ++k)
    {
      Lanes sum = all_lanes(0);
      for (int q = 0; q < n; ++q)
        sum += s.rates[q] * batch.dilatation[m][q] * batch.dilatation[k][q];
      sum *= 0.5;
      for (int i = 0; i < dim; ++i)
        for (int a = 0; a < n; ++a)
        {
          s.left[m][i][a] += sum * s.rate[k][i][a];
          if (!symmetric)
            s.right[m][i][a] += sum * s.rate[k][i][a];
        }
    }
}

/// Entry (i, j) of cell l's tangent, in the order of CellData, goes to
/// matrix[(i * n + j) * n_lanes + l].
template <int dim, bool symmetric>
THROUGHBEND_INLINED void form_tangents(const CellBatch<dim>  &batch,
                                       const BatchState<dim> &state, const int *numbers,
                                       Lanes *matrix)
{
  constexpr int       n = n_cell_nodes<dim>, n_unknown = dim * n;
  TangentScratch<dim> s;
  for (int q = 0; q < n; ++q)
  {
    DensityLanes<dim> density;
    form_density<dim, symmetric>(batch, state, q, density);
    const Lanes by_theta = 1. / state.theta[q];
    for (int i = 0; i < dim; ++i)
      for (int l = 0; l < dim; ++l)
      {
        const int r       = i * dim + l;
        s.before[i][l][q] = by_theta * density.before[r];
        if (!symmetric)
          s.after[i][l][q] = by_theta * density.after[r];
        for (int j = symmetric ? i : 0; j < dim; ++j)
          for (int m = 0; m < dim; ++m)
            s.factor[i][j][l][m][q] = density.slopes[r][j * dim + m];
      }
    s.rates[q] = by_theta * by_theta * density.rates;
  }
  form_columns<dim, symmetric>(batch, state, s);
  const auto &right = symmetric ? s.left : s.right;
  for (int i = 0; i < dim; ++i)
    for (int j = symmetric ? i : 0; j < dim; ++j)
    {
      PairSums<dim> sum;
      sum_slope_pairs(s.factor[i][j], sum.entry);
      for (int a = 0; a < n; ++a)
        for (int b = 0; b < n; ++b)
        {
          Lanes entry = pair_entry(sum.entry, a, b);
          for (int m = 0; m < batch.n_dilatations; ++m)
            entry += s.left[m][i][a] * s.rate[m][j][b] + s.rate[m][i][a] * right[m][j][b];
          const int row = i * n + numbers[a], column = j * n + numbers[b];
          matrix[row * n_unknown + column] = entry;
          if (symmetric && i != j)
            matrix[column * n_unknown + row] = entry;
        }
    }
}
} // namespace throughbend
