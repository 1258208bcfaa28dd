// What is read off a displaced coupon, on motions whose legs, ends and strains are known by
// geometry. Dimensions are invented.

#include "meshes/setup/placed_coupon.h"
#include "solver/pass/coupon_probe.h"
#include "tests/solver/fem/small_coupon.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
constexpr double degrees = 180 / 3.14159265358979323846;

/// The displacement that takes each node to map(x, y).
template <int dim, typename Map>
Vector moved(const CouponModel<dim> &model, Map map)
{
  Vector u(model.n_dofs());
  for (const auto &cell : model.cells())
    for (unsigned a = 0; a < model.n_nodes_per_cell(); ++a)
    {
      const unsigned    i = cell.dofs[a], j = cell.dofs[model.n_nodes_per_cell() + a];
      const auto       &X = model.nodes()[i];
      const PlaneVector x = map(X[0], X[1] - model.level());
      u[i]                = x.x - X[0];
      u[j]                = x.y - X[1];
    }
  return u;
}
} // namespace

TEMPLATE_TEST_CASE_SIG("A coupon at rest lies flat, unstrained, ends where they were cut",
                       "[fem][probe]", ((int dim), dim), 2, 3)
{
  Case c          = small_coupon<dim>(); // 24 x 8 mm
  c.coupon.offset = 2;
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_SELF);
  const CouponProbe<dim> probe(model, placed_coupon(c));
  const Vector           none(model.n_dofs());
  for (const Side side : {Side::left, Side::right})
  {
    const Leg leg = probe.leg(none, side);
    CHECK(leg.angle == Approx(0).margin(1e-9));
    CHECK(leg.tip_x == Approx(side == Side::left ? -10 : 14));
    CHECK(leg.tip_y == Approx(model.level()).margin(1e-9));
  }
  CHECK(probe.walk(none) == Approx(0).margin(1e-9));
  CHECK(probe.outermost_x(none) == Approx(14));
  for (const Face face : {Face::convex, Face::concave})
    for (const FaceStrain &point : probe.face_strains(none, face))
    {
      CHECK(point.strain == Approx(0).margin(1e-12));
      CHECK(point.x == Approx(point.position + 2));
    }
}

TEMPLATE_TEST_CASE_SIG(
    "Turned as a whole, both legs turn and each end's lower corner is told", "[fem][probe]",
    ((int dim), dim), 2, 3)
{
  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_SELF);
  const CouponProbe<dim> probe(model, placed_coupon(c));
  const double           turn = 0.3, C = std::cos(turn), S = std::sin(turn);
  const Vector           u = moved(model,
                                   [&](double x, double y) {
                           return PlaneVector{C * x + S * y + 1.5, -S * x + C * y - 4};
                         });
  // Clockwise: the right leg goes down by as much as the left one goes up.
  const Leg right = probe.leg(u, Side::right), left = probe.leg(u, Side::left);
  CHECK(right.angle == Approx(-turn * degrees));
  CHECK(left.angle == Approx(turn * degrees));
  // Corners on the convex face, (12, 0) and (-12, 0).
  CHECK(right.tip_y == Approx(-12 * S - 4));
  CHECK(left.tip_y == Approx(12 * S - 4));
  // Outermost: right (12, 8) turned, left (-12, 0) turned.
  CHECK(right.tip_x == Approx(12 * C + 8 * S + 1.5));
  CHECK(left.tip_x == Approx(-12 * C + 1.5));
  // The middle of the coupon is (0, 4).
  CHECK(probe.walk(u) == Approx(4 * S + 1.5));
  for (const FaceStrain &point : probe.face_strains(u, Face::convex))
    CHECK(point.strain == Approx(0).margin(1e-9));
}

TEST_CASE("Bent on a circle, faces show their logarithmic strains and legs their angle",
          "[fem][probe]")
{
  const Case           c = small_coupon<2>();
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_SELF);
  const CouponProbe<2> probe(model, placed_coupon(c));
  // The mid-line keeps its length on a circle of radius 40 mm, ends down: the upper face is
  // the longer one here, by 4 / 40; the lower one the shorter.
  const double radius = 40;
  const Vector u      = moved(model,
                              [&](double x, double y)
                              {
                           const double a = x / radius, r = radius + y - 4;
                           return PlaneVector{r * std::sin(a), r * std::cos(a) - radius};
                         });
  for (const FaceStrain &point : probe.face_strains(u, Face::concave))
    CHECK(point.strain == Approx(std::log(1.1)).epsilon(0.01));
  for (const FaceStrain &point : probe.face_strains(u, Face::convex))
    CHECK(point.strain == Approx(std::log(0.9)).epsilon(0.01));
  // The chord between 75 % and 93.75 % of the half length stands at the angle of its
  // middle; places between nodes lie on straight lines, which a degree allows for.
  const double middle = -(0.75 + 0.9375) / 2 * 12 / radius * degrees;
  CHECK(probe.leg(u, Side::right).angle == Approx(middle).margin(1));
  CHECK(probe.leg(u, Side::left).angle == Approx(middle).margin(1));
}

TEST_CASE("A half model's left leg is its right one, mirrored", "[fem][probe]")
{
  Case c       = small_coupon<2>();
  c.mesh.model = ModelChoice::automatic;
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_SELF);
  REQUIRE(model.extent() == Extent::half);
  const CouponProbe<2> probe(model, placed_coupon(c));
  const Vector         u     = moved(model,
                                     [](double x, double y) {
                           return PlaneVector{x, y - 0.2 * x};
                         });
  const Leg            right = probe.leg(u, Side::right), left = probe.leg(u, Side::left);
  CHECK(right.angle == Approx(-std::atan(0.2) * degrees).margin(1e-9));
  CHECK(left.angle == right.angle);
  CHECK(left.tip_x == -right.tip_x);
  CHECK(left.tip_y == right.tip_y);
  CHECK(probe.walk(u) == 0);
}
