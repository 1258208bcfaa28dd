// Bodies with rounded long edges: as much metal as the section has, sound cells, and a
// bending force that falls as the section's plastic modulus. Areas and moduli by hand.

#include "meshes/cells/coupon_mesh.h"
#include "meshes/setup/placed_coupon.h"
#include "solver/pass/coupon_probe.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace throughbend;

namespace
{
constexpr double pi = 3.14159265358979323846;

Case body(double radius)
{
  Case c               = reference_case();
  c.mesh.dimension     = 3;
  c.mesh.level         = MeshLevel::quick;
  c.coupon.edge_radius = radius;
  return c;
}

double volume(const CouponModel<3> &model)
{
  double sum = 0;
  for (const CellData<3> &cell : model.cells())
    for (const double weight : cell.weight)
      sum += weight;
  return sum;
}

/// Of the quarter that is modelled [mm^3].
double volume_by_hand(const Case &c)
{
  const double r = c.coupon.edge_radius;
  return c.coupon.length / 2 * (c.coupon.width * c.coupon.thickness - (4 - pi) * r * r) / 2;
}

/// Plastic modulus of the section, by layers [mm^3].
double plastic_modulus(const Coupon &coupon)
{
  constexpr int layers = 20000;
  const double  r = coupon.edge_radius, t = coupon.thickness;
  double        sum = 0;
  for (int i = 0; i < layers; ++i)
  {
    const double y    = (i + 0.5) / layers * t;
    const double in   = r - std::min(y, t - y);
    const double lost = in > 0 ? r - std::sqrt(r * r - in * in) : 0.;
    sum += (coupon.width - 2 * lost) * std::abs(y - t / 2) * t / layers;
  }
  return sum;
}

double force_at_end(const Case &c)
{
  PassSimulation<3> simulation(set_up(c), MPI_COMM_SELF);
  REQUIRE(simulation.run().outcome == Outcome::stroke_out);
  double force = 0;
  for (const PassSample &sample : simulation.samples())
    if (sample.kind == StepKind::push)
      force = sample.ram_force;
  return force;
}
} // namespace

TEST_CASE("Rounded edges take away the metal that the arcs do", "[fem][edges]")
{
  for (const double radius : {0., 1., 2., 3.})
  {
    const Case           c = body(radius);
    const CouponModel<3> model(placed_coupon(c), MPI_COMM_SELF);
    CHECK(volume(model) == Approx(volume_by_hand(c)).epsilon(1e-9));
  }
  // Cells beside a weld cut the rounding in two or more over its height, and one cell is
  // left across: corners lie on the arc, and chords take more away. By hand: one chord of
  // 45 deg and two of 22.5 deg enclose (sin 45 + 2 sin 22.5) / 2 = 0.736 r^2 of the arc's
  // 0.785 r^2, so 0.264 in place of 0.215 r^2 is lost.
  Case c                = body(3);
  c.weld.preparation    = Preparation::single_v;
  c.weld.root_opening   = 2;
  c.weld.root_face      = 1.5;
  c.weld.included_angle = 1.0472;
  c.weld.haz_width      = 3;
  c.weld.transition     = 1;
  c.weld.strength_ratio = 1.3;
  const CouponModel<3> model(placed_coupon(c), MPI_COMM_SELF);
  const double         lost =
      c.coupon.length / 2 * c.coupon.width / 2 * c.coupon.thickness - volume(model);
  const double by_hand = c.coupon.length / 2 * (4 - pi) / 2 * 9;
  CHECK(lost > by_hand);
  CHECK(lost < 0.264 / 0.2146 * by_hand);
  for (const CellData<3> &cell : model.cells())
    for (const double weight : cell.weight)
      CHECK(weight > 0);
}

TEST_CASE("A flat coupon with rounded edges shows no curl and its own width",
          "[fem][edges]")
{
  const Case           c      = body(3);
  const PlacedCoupon   coupon = placed_coupon(c);
  const CouponModel<3> model(coupon, MPI_COMM_SELF);
  const CouponProbe<3> probe(model, coupon);
  const Vector         flat(model.n_dofs());
  for (const Face face : {Face::convex, Face::concave})
  {
    CHECK(probe.section(flat, face).curl == Approx(0).margin(1e-12));
    CHECK(probe.section(flat, face).width == Approx(38));
  }
  CHECK(coupon.flat_half_width() == 16);
  CHECK(std::any_of(probe.lines().begin(), probe.lines().end(),
                    [](double line) { return std::abs(line - 16) < 1e-9; }));
}

TEST_CASE("Rounded edges lower the bending force as they lower the plastic modulus",
          "[fem][edges]")
{
  // A hinge just formed: the whole section flows, and tools do not yet reach the edges.
  Case sharp = body(0), round = body(3);
  sharp.ram.stroke = round.ram.stroke = 4;
  const double share                  = force_at_end(round) / force_at_end(sharp);
  const double by_hand = plastic_modulus(round.coupon) / plastic_modulus(sharp.coupon);
  REQUIRE(by_hand < 0.97); // else nothing is shown
  CHECK(share == Approx(by_hand).margin(0.006));
}
