// A flaw of any depth, on any line, on any mesh: there is a mesh, a model, a reading of
// legs and middle, and a first step. Nothing is special about half the thickness, where the
// legs are read and a tip may take away the row of nodes. Dimensions are invented.

#include "meshes/setup/placed_coupon.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace throughbend;

namespace
{
Case flawed(FlawLine line, double from, double depth, MeshLevel level)
{
  Case c               = reference_case(); // 10 mm thick
  c.weld.width         = 10;
  c.mesh.level         = level;
  c.mesh.model         = ModelChoice::full; // it is turned as a whole
  c.flaws.each.front() = {line, BendKind::root, from, depth, 0};
  return c;
}

std::vector<double> depths(double from, double to, double step)
{
  std::vector<double> all;
  for (int i = 0; from + i * step < to + step / 2; ++i)
    all.push_back(from + i * step);
  return all;
}

std::string name(FlawLine line)
{
  return line == FlawLine::centre ? "centre" : line == FlawLine::left ? "left" : "right";
}

/// Both kinds of flaw down to a depth: from the root, and buried below 40 % of the depth.
template <typename Look>
void each_flaw(const std::vector<double> &depths, MeshLevel level, Look look)
{
  for (const FlawLine line : {FlawLine::centre, FlawLine::left, FlawLine::right})
    for (const double depth : depths)
      for (const double from : {0., 0.4 * depth})
      {
        if (from > 0 && from < 0.5)
          continue; // refused: less than 5 % of the thickness is too thin for cells
        INFO("line " << name(line) << ", from " << from << " to " << depth
                     << " mm, mesh level " << static_cast<int>(level));
        look(flawed(line, from, depth, level));
      }
}

/// At rest legs lie flat at half the thickness and the middle has not walked; turned as a
/// whole, both follow.
void read_shape(const Case &c)
{
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_SELF);
  const CouponProbe<2> probe(model, placed_coupon(c));
  Vector               u(model.n_dofs());
  REQUIRE(model.flaws().size() == 1);
  CHECK(probe.leg(u, Side::right).angle == Approx(0).margin(1e-9));
  CHECK(probe.walk(u) == Approx(0).margin(1e-9));

  const double turn = 0.2, C = std::cos(turn), S = std::sin(turn);
  for (const auto &cell : model.cells())
    for (unsigned a = 0; a < model.n_nodes_per_cell(); ++a)
    {
      const unsigned x = cell.dofs[a], y = cell.dofs[model.n_nodes_per_cell() + a];
      const double   X = model.nodes()[x][0], Y = model.nodes()[x][1] - model.level();
      u[x] = C * X - S * Y - X;
      u[y] = S * X + C * Y - Y;
    }
  constexpr double degrees = 180 / 3.14159265358979323846;
  CHECK(probe.leg(u, Side::right).angle == Approx(turn * degrees));
  CHECK(probe.leg(u, Side::left).angle == Approx(-turn * degrees));
  CHECK(probe.walk(u) == Approx(-S * c.coupon.thickness / 2));
}

/// The pass stops after its first step, which must have been taken.
void first_step(const Case &c)
{
  PassSimulation<2> simulation(set_up(c), MPI_COMM_SELF);
  simulation.stop_when([&] { return !simulation.samples().empty(); });
  simulation.run();
  REQUIRE(simulation.counts().steps == 1);
  CHECK(simulation.samples().back().ram_force > 0);
}

/// All of the plate, and half of its thickness more closely.
std::vector<double> all_depths()
{
  std::vector<double> all = depths(0.25, 9.5, 0.25);
  const auto          mid = depths(4.55, 5.45, 0.05);
  all.insert(all.end(), mid.begin(), mid.end());
  return all;
}
} // namespace

TEST_CASE("A flaw of any depth has a mesh whose legs and middle can be read", "[fem][flaw]")
{
  each_flaw(all_depths(), MeshLevel::quick, read_shape);
  for (const MeshLevel level : {MeshLevel::standard, MeshLevel::fine})
    each_flaw(depths(4.6, 5.4, 0.1), level, read_shape);
}

TEST_CASE("A flaw about half the thickness deep lets the first step be taken",
          "[fem][flaw]")
{
  each_flaw(depths(4.8, 5.2, 0.05), MeshLevel::quick, first_step);
}

TEST_CASE("A flaw of any depth lets the first step be taken on every mesh",
          "[.][verify-long]")
{
  const auto level = GENERATE(MeshLevel::quick, MeshLevel::standard, MeshLevel::fine);
  each_flaw(all_depths(), level, read_shape);
  each_flaw(all_depths(), level, first_step);
}
