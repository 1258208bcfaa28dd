// Does the element lock, and has it hourglass modes? Mesh series on bending and on the
// shear panel with cells of aspect 1 to 6, Poisson's ratio up to a half, the pressure
// between neighbours, and the zero modes of one cell after plastic flow.

#include "tests/solver/fem/dense_system.h"
#include "tests/verify/bent_strip.h"
#include "tests/verify/ladder.h"
#include "tests/verify/shear_panel.h"

#include <deal.II/lac/lapack_full_matrix.h>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <memory>
#include <random>
#include <string>
#include <vector>

using namespace throughbend;

namespace
{
constexpr double Y = 250, t = BentStrip::thickness;
const double     full_moment = 2 / std::sqrt(3.) * Y * t * t / 4;

/// Published values at one bending.
struct Ring
{
  double bending, moment, outer_log, inner_log;
};

struct BendingError
{
  double moment = 0, strain = 0, spread = 0;
  double relative_moment = 0; ///< ours / published

  void take_worst(const BendingError &other)
  {
    moment = std::max(moment, other.moment);
    strain = std::max(strain, other.strain);
    spread = std::max(spread, other.spread);
  }
};

BendingError bend(const StripMesh &mesh, const FlowCurve &flow, const Ring &ring)
{
  BentStrip strip(mesh, metal(200000, 0.4999, flow));
  strip.bend(ring.bending, static_cast<int>(std::lround(100 * ring.bending)));
  return {std::abs(strip.moment() / full_moment / ring.moment - 1),
          std::max(std::abs(strip.outer_log() - ring.outer_log),
                   std::abs(strip.inner_log() - ring.inner_log)),
          strip.spread_along() / strip.body().largest_plastic_strain(),
          strip.moment() / full_moment / ring.moment};
}

/// Three cells along the strip, each `aspect` times as long as high.
StripMesh strip_mesh(int layers, double aspect)
{
  return {layers, 3, aspect * t / layers};
}

template <typename Panel>
std::vector<double> mean_pressures(const Panel &panel)
{
  const auto         &model = panel.body().model();
  std::vector<double> means;
  for (std::size_t c = 0; c < model.cells().size(); ++c)
  {
    double sum = 0, volume = 0;
    for (std::size_t q = 0; q < model.n_points_per_cell(); ++q)
    {
      const Matrix3 &tau =
          panel.body().equilibrium().kirchhoff(panel.body().equilibrium().point(c, q));
      const double weight = model.cells()[c].weight[q];
      sum += weight * (tau[0][0] + tau[1][1] + tau[2][2]) / 3;
      volume += weight;
    }
    means.push_back(sum / volume);
  }
  return means;
}

/// The part of the cells' pressures that alternates like the fields of a chessboard, over
/// the blocks of two by two clear of the clamped edge, whose corner is singular, relative
/// to the pressures (root mean squares) [-].
double chessboard(const ShearPanel<> &panel)
{
  const auto p        = mean_pressures(panel);
  const auto pressure = [&](int i, int j)
  { return p[static_cast<std::size_t>(j * panel.along() + i)]; };
  double alternating = 0, all = 0;
  for (const double value : p)
    all += value * value / static_cast<double>(p.size());
  int blocks = 0;
  for (int j = 0; j + 1 < panel.up(); ++j)
    for (int i = panel.along() / 4; i + 1 < panel.along(); ++i, ++blocks)
    {
      const double part = (pressure(i, j) - pressure(i + 1, j) - pressure(i, j + 1) +
                           pressure(i + 1, j + 1)) /
                          4;
      alternating += part * part;
    }
  return std::sqrt(alternating / blocks / all);
}

/// Held so that the cell cannot move as a whole, and no more.
bool holds_rigid(const dealii::Point<2> &node, unsigned component)
{
  return (node.norm() < 1e-9) || (component == 1 && node[1] < 1e-9 && node[0] > 1 - 1e-9);
}
bool holds_rigid(const dealii::Point<3> &node, unsigned component)
{
  const bool origin = node.norm() < 1e-9,
             along  = std::abs(node[0] - 1) < 1e-9 && node[1] < 1e-9 && node[2] < 1e-9,
             up     = std::abs(node[1] - 1) < 1e-9 && node[0] < 1e-9 && node[2] < 1e-9;
  return origin || (along && component > 0) || (up && component == 2);
}

/// Loads one cell by random balanced forces until it has flowed, takes them away, and looks
/// at the eigenvalues of its tangent: where no force acts, rigid motions cost nothing.
template <int dim>
void zero_modes(Rung &rung)
{
  dealii::Triangulation<dim> shape;
  std::vector<unsigned>      cells(dim, 1u);
  dealii::Point<dim>         corner;
  for (unsigned k = 0; k < dim; ++k)
    corner[k] = 1;
  dealii::GridGenerator::subdivided_hyper_rectangle(shape, cells, dealii::Point<dim>(),
                                                    corner);
  FlowCurve flow = linear_hardening(Y, 1000);
  Body<dim> body(
      shape,
      [](const dealii::Point<dim> &node, unsigned component)
      { return holds_rigid(node, component); },
      metal(210000, 0.3, flow), [](const auto &...) { return 0.; });
  Vector                                 load(body.model().n_dofs());
  std::mt19937                           random(dim);
  std::uniform_real_distribution<double> entry(-1, 1);
  for (double &f : load)
    f = entry(random);
  body.hang(load);
  while (body.largest_plastic_strain() < 0.01)
    body.go(body.load() + 2, 1);
  const double flowed = body.largest_plastic_strain();
  body.go(0, 5);

  DenseSystem<dim> dense(body.model());
  body.equilibrium().add_tangent(dense);
  const unsigned                   n = body.model().n_dofs();
  dealii::LAPACKFullMatrix<double> matrix(n, n);
  matrix = dense.matrix();
  dealii::Vector<double>     values;
  dealii::FullMatrix<double> vectors;
  matrix.compute_eigenvalues_symmetric(-1e9, 1e9, 1e-9, values, vectors);
  std::vector<double> sizes;
  for (const double value : values)
    sizes.push_back(std::abs(value));
  std::sort(sizes.begin(), sizes.end());
  constexpr std::size_t rigid = dim == 2 ? 3 : 6;
  const std::string     model = dim == 2 ? ", one cell, 2D [-]" : ", one cell, 3D [-]";
  rung.row("largest plastic strain before unloading" + model, 0.01, flowed, no_less());
  rung.row("eigenvalues below 1e-9 of the largest" + model, rigid,
           static_cast<double>(std::count_if(sizes.begin(), sizes.end(),
                                             [&](double value)
                                             { return value < 1e-9 * sizes.back(); })),
           within(0));
  rung.row("the next eigenvalue / the largest" + model, 1e-3, sizes[rigid] / sizes.back(),
           no_less());
}
struct Bounds
{
  int    layers;
  double slight_moment, slight_strain, slight_spread; ///< at k t0 = 0.1
  double sharp_moment, sharp_strain;                  ///< at k t0 = 0.4
};

void bending_rows(Rung &rung)
{
  const FlowCurve flow = linear_hardening(Y, 1000);
  const Ring      slight{0.1, 1.1450, .0499, -.0500};
  const Ring      sharp{0.4, 1.5638, .1894, -.2073};
  for (const Bounds &bound : {Bounds{1, 0.15, 0.007, 0.4, 0.05, 0.04},
                              Bounds{2, 0.015, 0.0035, 0.15, 0.05, 0.015},
                              Bounds{3, 0.01, 0.003, 0.12, 0.02, 0.012},
                              Bounds{4, 0.005, 0.001, 0.05, 0.02, 0.018},
                              Bounds{6, 0.005, 0.001, 0.02, 0.015, 0.008},
                              Bounds{8, 0.005, 0.001, 0.012, 0.01, 0.004}})
  {
    BendingError slightly, sharply;
    double       square = 0, slender = 0;
    for (const double aspect : {1., 2., 4., 6.})
    {
      const auto mesh = strip_mesh(bound.layers, aspect);
      const auto bent = bend(mesh, flow, slight);
      slightly.take_worst(bent);
      (aspect == 1 ? square : slender) = bent.relative_moment;
      // A cell that turns by more than this is no picture of an arc.
      if (sharp.bending * aspect / bound.layers < 0.61)
        sharply.take_worst(bend(mesh, flow, sharp));
    }
    const std::string layers = std::to_string(bound.layers) + " layers, aspect 1 to 6, ";
    rung.row(layers + "k t0 0.1: worst relative error of the moment [-]", 0,
             slightly.moment, no_more(bound.slight_moment));
    rung.row(layers + "k t0 0.1: worst error of the log strain [-]", 0, slightly.strain,
             no_more(bound.slight_strain));
    rung.row(layers +
                 "k t0 0.1: worst spread of the plastic strain along the strip / largest "
                 "plastic strain [-]",
             0, slightly.spread, no_more(bound.slight_spread));
    if (bound.layers > 1)
      rung.row(
          std::to_string(bound.layers) +
              " layers, k t0 0.1: moment with cells of aspect 6 / with square ones [-]",
          1, slender / square, within_percent(0.2));
    rung.row(layers + "k t0 0.4: worst relative error of the moment [-]", 0, sharply.moment,
             no_more(bound.sharp_moment));
    rung.row(layers + "k t0 0.4: worst error of the log strain [-]", 0, sharply.strain,
             no_more(bound.sharp_strain));
  }
  rung.note(
      "Bending: three cells along the strip, H 1000 MPa, nu 0.4999; at k t0 = 0.4 only "
      "aspects with which a cell turns by at most 0.6 rad. The error is that of the "
      "neutral layer inside a cell; it comes with few layers, not with long cells.");
  for (const int layers : {4, 6, 8})
  {
    const auto spread = [&](double aspect)
    {
      const Ring soft{0.1, .9974, .0499, -.0500};
      return bend(strip_mesh(layers, aspect), perfectly_plastic(Y), soft).spread;
    };
    const auto at = std::to_string(layers) + " layers, k t0 0.1, no hardening, aspect ";
    rung.row(at + "up to 4: spread of the plastic strain along the strip / largest [-]", 0,
             std::max(spread(2), spread(4)), no_more(0.03));
  }
  rung.note(
      "A limit was found: with cells longer than some 4.5 times their height the bend of a "
      "metal that does not harden gathers in parts of the cells (spread 0.9 at aspect 6, "
      "moment up to 0.8 percent low at k t0 = 0.1, 1.5 percent at 0.5), while two cells of "
      "half the length bend evenly. Hardening of 1000 MPa suppresses it. Keep cells in the "
      "bend shorter than four times their height.");
}

void poisson_rows(Rung &rung)
{
  for (const int layers : {1, 2, 4})
  {
    const auto moment = [&](double poisson)
    {
      BentStrip strip(strip_mesh(layers, 2), metal(200000, poisson, perfectly_plastic(Y)));
      strip.bend(0.1, 10);
      return strip.moment();
    };
    const double usual = moment(0.3);
    for (const double poisson : {0.49, 0.4999, 0.49999})
      rung.row(std::to_string(layers) + " layers, k t0 0.1: moment with nu " +
                   std::to_string(poisson).substr(0, 7) + " / with nu 0.3 [-]",
               1, moment(poisson) / usual, within_percent(0.2));
  }
}

void panel_rows(Rung &rung)
{
  const auto pulled = [](int along, int up)
  {
    auto panel =
        std::make_unique<ShearPanel<>>(along, up, metal(206900, 0.29, necking_steel()));
    panel->pull(312.5, 8);
    return panel;
  };
  const auto   coarse = pulled(4, 4), middle = pulled(8, 8), fine = pulled(16, 16);
  const double tip                    = fine->tip();
  const std::pair<int, int> slender[] = {{16, 8}, {8, 16}, {16, 4},
                                         {4, 16}, {24, 4}, {6, 24}};
  for (const auto &[along, up] : slender)
    rung.row("panel, " + std::to_string(along) + " x " + std::to_string(up) +
                 " cells: tip displacement against 16 x 16 [mm]",
             tip, pulled(along, up)->tip(), within_percent(2));
  rung.row("panel: alternating part of the cells' pressure, 8 x 8 / 4 x 4 cells [-]", 1,
           chessboard(*middle) / chessboard(*coarse), no_more(-0.2));
  rung.row("panel: alternating part of the cells' pressure, 16 x 16 / 8 x 8 cells [-]", 1,
           chessboard(*fine) / chessboard(*middle), no_more(-0.2));
  rung.row("panel: alternating part of the cells' pressure / pressure, 16 x 16 cells [-]",
           0, chessboard(*fine), no_more(0.05));
  rung.note(
      "Panel: cells of mean aspect up to 6.4. A chessboard of pressures would stay as "
      "the mesh gets finer; here it fades.");
}
} // namespace

TEST_CASE("The element does not lock", "[verify]")
{
  Rung rung(
      "locking", "Locking: layers, aspect, Poisson's ratio",
      "Bending: the integration over the thickness of the rung finite_bending (computed "
      "independently, k t0 = 0.1 with H 1000 MPa for this rung); panel: our own mesh of "
      "16 x 16 cells");
  bending_rows(rung);
  poisson_rows(rung);
  panel_rows(rung);
}

TEST_CASE("The element has no hourglass modes", "[verify]")
{
  Rung rung(
      "hourglass", "Zero modes of one cell after plastic flow",
      "A cell may have its rigid motions as zero modes and no others, 3 in the plane and "
      "6 in space (common knowledge of the trade)");
  zero_modes<2>(rung);
  zero_modes<3>(rung);
  rung.note(
      "Random forces until the plastic strain reaches 1 percent, then none: eigenvalues of "
      "the tangent in the balanced state with the stresses that are left.");
}
