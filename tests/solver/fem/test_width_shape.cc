// What is read off a coupon with width, on motions whose curl, width, gaps and strains are
// known by geometry. Dimensions are invented.

#include "meshes/setup/placed_coupon.h"
#include "solver/pass/coupon_probe.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
/// The displacement that takes each node at (x, y, z) to map(x, y, z).
template <typename Map>
Vector moved(const CouponModel<3> &model, Map map)
{
  Vector u(model.n_dofs());
  for (const auto &cell : model.cells())
    for (unsigned a = 0; a < model.n_nodes_per_cell(); ++a)
    {
      const auto &X = model.nodes()[cell.dofs[a]];
      const auto  x = map(X[0], X[1] - model.level(), X[2]);
      for (unsigned c = 0; c < 3; ++c)
        u[cell.dofs[c * model.n_nodes_per_cell() + a]] =
            x[c] - X[c] + (c == 1 ? model.level() : 0.);
    }
  return u;
}
using Place = std::array<double, 3>;
} // namespace

TEST_CASE("Lines along the coupon go from mid-width to the free edge", "[fem][probe]")
{
  const Case           c = small_coupon<3>();
  const CouponModel<3> model(placed_coupon(c), MPI_COMM_SELF);
  const CouponProbe<3> probe(model, placed_coupon(c));
  REQUIRE(probe.lines().size() >= 3);
  CHECK(probe.lines().front() == Approx(0).margin(1e-12));
  CHECK(probe.lines().back() == Approx(c.coupon.width / 2));
  const Vector none(model.n_dofs());
  for (std::size_t line = 0; line < probe.lines().size(); ++line)
    CHECK(probe.face_strains(none, Face::convex, line).size() ==
          probe.face_strains(none, Face::convex).size());
  CHECK(probe.section(none, Face::convex).width == Approx(c.coupon.width));
  CHECK(probe.section(none, Face::concave).curl == Approx(0).margin(1e-12));
}

TEST_CASE("Edges that curl down, a face that narrows, and a strain that grows to the edge "
          "are told as they are",
          "[fem][probe]")
{
  const Case           c = small_coupon<3>();
  const CouponModel<3> model(placed_coupon(c), MPI_COMM_SELF);
  const CouponProbe<3> probe(model, placed_coupon(c));
  const double         half = c.coupon.width / 2, t = c.coupon.thickness;
  // A twentieth longer at the edge than at mid-width, where it keeps its length; the convex
  // face a tenth narrower, the concave one as wide as before; edges 0.3 mm down.
  const Vector u       = moved(model,
                               [&](double x, double y, double z)
                               {
                           const double out = z / half;
                           return Place{x * (1 + 0.05 * out * out), y - 0.3 * out * out,
                                        z * (1 - 0.1 * (1 - y / t))};
                         });
  const auto   convex  = probe.section(u, Face::convex);
  const auto   concave = probe.section(u, Face::concave);
  CHECK(convex.width == Approx(0.9 * c.coupon.width));
  CHECK(concave.width == Approx(c.coupon.width));
  CHECK(convex.curl == Approx(0.3));
  CHECK(concave.curl == Approx(0.3));
  const std::size_t edge = probe.lines().size() - 1;
  for (const FaceStrain &point : probe.face_strains(u, Face::convex))
    CHECK(point.strain == Approx(0).margin(1e-9));
  for (const FaceStrain &point : probe.face_strains(u, Face::convex, edge))
    CHECK(point.strain == Approx(std::log(1.05)));
}

TEST_CASE("The largest gap under the nose counts the free edge", "[fem][probe]")
{
  Case c           = reference_case();
  c.ram.stroke     = 4;
  c.mesh.dimension = 3;
  c.mesh.level     = MeshLevel::quick;
  PassSimulation<3> simulation(set_up(c), MPI_COMM_SELF);
  simulation.run();
  double at_edge = 0;
  for (const PassSample &sample : simulation.samples())
  {
    CHECK(sample.nose_gap >= sample.width->nose_gap_edge);
    CHECK(sample.nose_gap >= sample.width->nose_gap_middle);
    at_edge = std::max(at_edge, sample.width->nose_gap_edge);
  }
  CHECK(at_edge > 0.01); // edges curl up by then
}
