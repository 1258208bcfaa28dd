// A thin elastic strip pressed down between two supports over which it slides without
// friction, far past the largest load: force, deflection and arc length over the slope at
// the support against the inextensible elastica.

#include "tests/verify/ladder.h"
#include "tests/verify/pressed_body.h"

#include <catch2/catch.hpp>
#include <deal.II/grid/grid_generator.h>
#include <deal.II/lac/full_matrix.h>

#include <algorithm>
#include <cmath>

using namespace throughbend;

namespace
{
constexpr double degree = 3.14159265358979323846 / 180;
constexpr double E = 200000, nu = 0.3, thickness = 0.5, support_radius = 2,
                 half_distance = 50;

/// One state of the strip, made dimensionless with what the elastica sees of it: the
/// support acts along its radius, so as at the point where that meets the middle line.
struct State
{
  double beta = 0;                          ///< slope at the support [deg]
  double load = 0, deflection = 0, arc = 0; ///< P L^2/EI, w/L, s/(L/2) [-]
  double slope_of_strip = 0;                ///< taken off the strip itself [deg]
};

class Strip
{
public:
  Strip()
      : body_(
            shape(),
            [](const dealii::Point<2> &x, unsigned c) { return c == 0 && x[0] < 1e-9; },
            {E, nu},
            {{tool_at::plunger, RigidProfile::disc({0, thickness / 2 + 2}, 2), 0.},
             {tool_at::right_shoulder,
              RigidProfile::disc({half_distance, -thickness / 2 - support_radius},
                                 support_radius),
              0.}},
            // So soft that the touching stretch spans several points of a face.
            {100, 100, 1e-3, 2e-3}, {1e-5, 1e-2, 2., 60}, 1e-9)
  {
    body_.start();
  }

  void press(double to)
  {
    const int steps = std::max(1, static_cast<int>(std::ceil((to - body_.travel()) / 0.5)));
    body_.go(to, steps, [&] { states_.push_back(look()); });
  }

  const std::vector<State> &states() const { return states_; }
  double                    energy_error() const { return body_.energy_error(); }
  int                       iterations() const { return body_.iterations(); }

private:
  static dealii::Triangulation<2> shape()
  {
    dealii::Triangulation<2> mesh;
    dealii::GridGenerator::subdivided_hyper_rectangle(
        mesh, {320, 1}, dealii::Point<2>(0, -thickness / 2),
        dealii::Point<2>(1.65 * half_distance, thickness / 2), true);
    for (const auto &face : mesh.active_face_iterators())
      if (face->at_boundary() && face->boundary_id() < 2)
        face->set_boundary_id(static_cast<dealii::types::boundary_id>(CouponFace::side));
    return mesh;
  }

  State look() const
  {
    // The middle line, from the plane of symmetry on.
    std::vector<std::pair<double, PlaneVector>> line;
    const auto                                 &model = body_.model();
    const auto                                  n     = model.n_nodes_per_cell();
    for (const auto &cell : model.cells())
      for (unsigned a = 0; a < n; ++a)
      {
        const unsigned i = cell.dofs[a], j = cell.dofs[n + a];
        if (std::abs(model.nodes()[i][1]) < 1e-9)
          line.emplace_back(model.nodes()[i][0],
                            PlaneVector{model.nodes()[i][0] + body_.displacement()[i],
                                        body_.displacement()[j]});
      }
    std::sort(line.begin(), line.end(),
              [](const auto &a, const auto &b) { return a.first < b.first; });

    const ToolForce   support = body_.force(tool_at::right_shoulder);
    const double      angle   = std::atan2(-support.force_x, support.force_y);
    const PlaneVector centre  = {half_distance, -thickness / 2 - support_radius};
    const PlaneVector out     = {-std::sin(angle), std::cos(angle)},
                      along   = {std::cos(angle), std::sin(angle)};
    // Where the middle line crosses the support's radius.
    PlaneVector at;
    double      arc = 0, slope = 0;
    for (std::size_t k = 0; k + 1 < line.size(); ++k)
    {
      const double before = dot(line[k].second - centre, along),
                   after  = dot(line[k + 1].second - centre, along);
      if (before > 0 || after <= 0 || dot(line[k].second - centre, out) < 0)
        continue;
      const double      share = before / (before - after);
      const PlaneVector chord = line[k + 1].second - line[k].second;
      at                      = line[k].second + share * chord;
      arc                     = line[k].first + share * (line[k + 1].first - line[k].first);
      slope                   = std::atan2(chord.y, chord.x);
    }
    const double L  = 2 * at.x;
    const double EI = E / (1 - nu * nu) * std::pow(thickness, 3) / 12;
    State        state;
    state.beta           = angle / degree;
    state.load           = -2 * body_.force(tool_at::plunger).force_y * L * L / EI;
    state.deflection     = (at.y - line.front().second.y) / L;
    state.arc            = arc / (L / 2);
    state.slope_of_strip = slope / degree;
    return state;
  }

  PressedBody<2>     body_;
  std::vector<State> states_;
};

/// Cubic through the four states about `beta`.
template <typename Quantity>
double at(const std::vector<State> &states, double beta, Quantity quantity)
{
  std::size_t i = 1;
  while (i + 3 < states.size() && states[i + 1].beta < beta)
    ++i;
  double value = 0;
  for (std::size_t k = i - 1; k < i + 3; ++k)
  {
    double share = 1;
    for (std::size_t m = i - 1; m < i + 3; ++m)
      if (m != k)
        share *= (beta - states[m].beta) / (states[k].beta - states[m].beta);
    value += share * quantity(states[k]);
  }
  return value;
}
} // namespace

TEST_CASE("A thin strip pressed between sliding supports follows the elastica past the "
          "largest load",
          "[verify]")
{
  Rung rung(
      "elastica", "Elastica: three-point bending over supports that the strip slides on",
      "Inextensible elastica, reaction normal to the strip, computed before and apart "
      "from this project's code to 1e-10; the largest load agrees with "
      "the classical value (Theocaris et al. 1977, from memory)");
  Strip strip;
  while (strip.states().empty() || strip.states().back().beta < 72)
  {
    REQUIRE(strip.states().size() < 400);
    strip.press((static_cast<double>(strip.states().size()) + 1) * 0.5);
  }
  const struct
  {
    double beta, load, deflection, arc;
  } published[]      = {{5, 1.3857, .02912, 1.0020},  {10, 2.7085, .05843, 1.0082},
                        {20, 4.9359, .11842, 1.0333}, {30, 6.3115, .18169, 1.0771},
                        {40, 6.6571, .25034, 1.1431}, {50, 6.0206, .32710, 1.2370},
                        {60, 4.6525, .41586, 1.3676}, {70, 2.9334, .52251, 1.5498}};
  const auto &states = strip.states();
  for (const auto &row : published)
  {
    const std::string where = " at " + std::to_string(std::lround(row.beta)) + " deg [-]";
    rung.row("P L^2/EI" + where, row.load,
             at(states, row.beta, [](const State &s) { return s.load; }),
             within_percent(1.5));
    rung.row("deflection / L" + where, row.deflection,
             at(states, row.beta, [](const State &s) { return s.deflection; }),
             within_percent(1.5));
    rung.row("arc length / (L/2)" + where, row.arc,
             at(states, row.beta, [](const State &s) { return s.arc; }),
             within_percent(1.5));
  }
  // The top, from the parabola of least squares through the uppermost 3 %.
  double highest = 0;
  for (const State &state : states)
    highest = std::max(highest, state.load);
  dealii::FullMatrix<double> normal(3, 3);
  Vector                     right(3), fit(3);
  for (const State &state : states)
    if (state.load > 0.97 * highest)
      for (unsigned i = 0; i < 3; ++i)
      {
        for (unsigned j = 0; j < 3; ++j)
          normal(i, j) += std::pow(state.deflection, i + j);
        right[i] += std::pow(state.deflection, i) * state.load;
      }
  normal.gauss_jordan();
  normal.vmult(fit, right);
  const double deflection = -fit[1] / (2 * fit[2]);
  const double load       = fit[0] + fit[1] * deflection / 2;
  rung.row("largest P L^2/EI [-]", 6.672, load, within_percent(1.5));
  rung.row("deflection / L there [-]", 0.2396, deflection, within_percent(1.5));
  double crooked = 0;
  for (const State &state : states)
    crooked = std::max(crooked, std::abs(state.beta - state.slope_of_strip));
  rung.row("support force against the strip's own normal, largest angle [deg]", 0, crooked,
           within(0.5));
  rung.row("energy error [-]", 0, strip.energy_error(), within(0.005));
  rung.note("Strip t/L = 1/200, plane strain (EI with E/(1-nu^2)), one cell through the "
            "thickness, no friction. Supports are round, r = 2 mm for L = 100 mm, and act "
            "along their radius, so L, deflection and arc length are taken at the point "
            "where that radius meets the middle line: no error of the support's size is "
            "left. The plunger touches at the middle only (its radius is 2 mm, the strip's "
            "never under 55 mm).");
}
