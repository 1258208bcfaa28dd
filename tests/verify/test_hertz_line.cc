// A rigid roller on a block that is large against the contact: half-width, peak pressure
// and the shear below the surface against Hertz's line contact.

#include "solver/fem/contact_patch.h"
#include "tests/verify/ladder.h"
#include "tests/verify/pressed_body.h"

#include <catch2/catch.hpp>
#include <deal.II/grid/grid_generator.h>

#include <algorithm>
#include <cmath>

using namespace throughbend;

namespace
{
constexpr double pi = 3.14159265358979323846;
constexpr double R = 19.05, E = 200000, nu = 0.3;

struct Hertz
{
  double a = 0, p0 = 0; ///< half-width [mm], peak pressure [MPa]
};

struct Found
{
  double force = 0, a = 0, p0 = 0, travel = 0; ///< [N/mm], [mm], [MPa], [mm]
  double shear = 0, depth = 0;                 ///< largest below the middle [MPa], [mm]
  double patch = 0, smoothed = 0; ///< mean over the patch, and over half of it [MPa]
  double energy_error = 0;
};

/// Value and place of the top of the parabola through the highest point and its neighbours.
std::pair<double, double> top_of(const std::vector<std::pair<double, double>> &curve)
{
  std::size_t i = 1;
  for (std::size_t k = 1; k + 1 < curve.size(); ++k)
    if (curve[k].second > curve[i].second)
      i = k;
  const auto &[x0, y0] = curve[i - 1];
  const auto &[x1, y1] = curve[i];
  const auto &[x2, y2] = curve[i + 1];
  const double left = (y1 - y0) / (x1 - x0), right = (y2 - y1) / (x2 - x1);
  const double bend = (right - left) / (x2 - x0);
  const double x    = (x0 + x1) / 2 - left / (2 * bend);
  return {x, y0 + left * (x - x0) + bend * (x - x0) * (x - x1)};
}

/// Half the block, 200 a wide and deep, cells of a / `cells` under the roller.
class Indentation
{
public:
  Indentation(double a, int cells)
      : a_(a), body_(shape(a, cells),
                     [=](const dealii::Point<2> &x, unsigned c)
                     { return x[1] < -200 * a + 1e-9 || (c == 0 && x[0] < 1e-12); },
                     {E, nu}, {{tool_at::plunger, RigidProfile::disc({0, R}, R), 0.}},
                     // A depth of 1 % of a^2 / 2R, the height of the roller's arc over a.
                     {stiffness(a), stiffness(a), 1e-4 * a * a / R, 0}, {1e-5, 1., a, 40})
  {
    body_.start();
  }

  static double stiffness(double a)
  {
    const double p0 = E / (1 - nu * nu) * a / (2 * R);
    return p0 / (0.01 * a * a / (2 * R));
  }

  Found to_force(double force)
  {
    // In steps to about the force, then by secant.
    double travel = 0, now = 0, before = 0, before_travel = 0;
    double guess = a_ * a_ / (2 * R) * 6;
    int    steps = 12;
    for (int i = 0; i < 8 && std::abs(now - force) > 1e-3 * force; ++i)
    {
      before_travel = travel;
      before        = now;
      travel        = guess;
      body_.go(travel, steps);
      steps = 1;
      now   = -2 * body_.force(tool_at::plunger).force_y;
      guess = travel + (force - now) * (travel - before_travel) / (now - before);
    }
    return look(now);
  }

private:
  static dealii::Triangulation<2> shape(double a, int cells)
  {
    // Even cells over 1.5 a, then ever larger ones.
    std::vector<double> x(static_cast<std::size_t>(3 * cells / 2), a / cells);
    const auto          rest = graded_widths(a / cells, 1.4, 198.5 * a);
    x.insert(x.end(), rest.begin(), rest.end());
    std::vector<double> y(x);
    std::reverse(y.begin(), y.end()); // from the bottom up
    dealii::Triangulation<2> mesh;
    dealii::GridGenerator::subdivided_hyper_rectangle(
        mesh, {x, y}, dealii::Point<2>(0, -200 * a), dealii::Point<2>(200 * a, 0), true);
    for (const auto &face : mesh.active_face_iterators())
      if (face->at_boundary() && face->boundary_id() != 3)
        face->set_boundary_id(static_cast<dealii::types::boundary_id>(CouponFace::side));
    return mesh;
  }

  Found look(double force) const
  {
    Found found;
    found.force        = force;
    found.travel       = body_.travel();
    found.energy_error = body_.energy_error();
    const auto &model  = body_.model();
    // Half of the patch is modelled, from its middle on.
    const PatchFigures patch = contact_patches(model, body_.equations().contact(),
                                               a_ / 2)[tool_number(tool_at::plunger)];
    found.patch              = patch.pressure;
    found.smoothed           = patch.smoothed;
    // p^2 = p0^2 (1 - x^2 / a^2): a straight line in x^2, fitted where p is well above 0.
    for (std::size_t f = 0; f < model.faces().size(); ++f)
      for (std::size_t q = 0; q < model.faces()[f].weight.size(); ++q)
        found.p0 = std::max(found.p0, body_.equations().contact().latest(f, q, 0).pressure);
    double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (std::size_t f = 0; f < model.faces().size(); ++f)
      for (std::size_t q = 0; q < model.faces()[f].weight.size(); ++q)
      {
        const double p = body_.equations().contact().latest(f, q, 0).pressure;
        if (p < 0.3 * found.p0)
          continue;
        const double w = model.faces()[f].weight[q], x = model.faces()[f].position[q][0];
        n += w;
        sx += w * x * x;
        sy += w * p * p;
        sxx += w * x * x * x * x;
        sxy += w * x * x * p * p;
      }
    const double slope = (n * sxy - sx * sy) / (n * sxx - sx * sx);
    found.a            = std::sqrt(-(sy - slope * sx) / n / slope);

    std::vector<std::pair<double, double>> shear; // by depth, means of the cells at x = 0
    for (std::size_t c = 0; c < model.cells().size(); ++c)
    {
      const auto &cell = model.cells()[c].cell;
      if (cell->vertex(0)[0] > 1e-12 || cell->center()[1] < -3 * a_)
        continue;
      const auto &equilibrium = body_.equations().equilibrium();
      double      mean = 0, area = 0;
      for (std::size_t q = 0; q < model.n_points_per_cell(); ++q)
      {
        const Matrix3 &t = equilibrium.kirchhoff(equilibrium.point(c, q));
        mean += model.cells()[c].weight[q] * std::hypot((t[0][0] - t[1][1]) / 2, t[0][1]);
        area += model.cells()[c].weight[q];
      }
      shear.emplace_back(-cell->center()[1], mean / area);
    }
    std::sort(shear.begin(), shear.end());
    std::tie(found.depth, found.shear) = top_of(shear);
    return found;
  }

  double         a_;
  PressedBody<2> body_;
};

void rows_at(Rung &rung, double force, const Hertz &hertz, int cells)
{
  const Found found = Indentation(hertz.a, cells).to_force(force);
  const auto  name  = [&](const std::string &quantity)
  { return quantity + " at " + std::to_string(std::lround(force)) + " N/mm"; };
  rung.row(name("half-width [mm]"), hertz.a, found.a, within_percent(3));
  rung.row(name("peak pressure [MPa]"), hertz.p0, found.p0, within_percent(3));
  rung.row(name("largest shear below the middle / p0 [-]"), 0.300, found.shear / hertz.p0,
           within_percent(3));
  rung.row(name("its depth / a [-]"), 0.786, found.depth / hertz.a, within_percent(5));
  // Of a half circle over its width; of one over the middle half of its width by hand:
  // (u sqrt(1 - u^2) + asin u) / 2u with u = 1/2.
  rung.row(name("mean pressure of the patch / p0 [-]"), pi / 4, found.patch / hertz.p0,
           within_percent(4));
  rung.row(name("mean over the middle half / p0 [-]"), 0.9566, found.smoothed / hertz.p0,
           within_percent(3));
  rung.row(name("energy error [-]"), 0, found.energy_error, within(0.005));
}
} // namespace

TEST_CASE("A rigid roller on a large block presses as Hertz's line contact says",
          "[verify]")
{
  Rung rung("hertz_line", "Hertz line contact, rigid roller R 19.05 mm on steel",
            "Hertz (1882): a = sqrt(4 P' R / (pi E*)), p0 = 2 P' / (pi a), evaluated for E "
            "200 GPa, nu 0.3; shear below the surface: Johnson (1985) Contact "
            "Mechanics, sec. 4.2, from memory");
  rows_at(rung, 100, {0.1051, 606}, 8);
  rows_at(rung, 500, {0.2349, 1355}, 8);
  rung.note(
      "Half-width from the line that p^2 makes over x^2; 8 quadratic cells over a, "
      "block 200 a deep and twice as wide (at 40 a its edges still add 2 % to the shear); "
      "springs give way by 1 % of the roller's arc height "
      "over a, a^2 / 2R (k = 2.1e8 and 9.4e7 N/mm^3, some 1000 and 500 E per mm).");
}
