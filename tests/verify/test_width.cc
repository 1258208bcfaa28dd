// The bending force per width between that of a narrow bar, which is free to narrow on the
// stretched side (uniaxial), and that of a wide plate (plane strain), for widths of one to
// eight thicknesses; and how the edges curl.
//
// Sources: von Mises' plane strain level 2 / sqrt(3) of the uniaxial one; that a bar is as
// good as plane strain from w / t = 8 on: Dieter, Mechanical Metallurgy (from memory). The
// way edges curl, away from the centre of the bend: Searle, Experimental Elasticity (from
// memory).

#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace throughbend;

namespace
{
struct Bent
{
  double     force = 0, strain = 0; ///< [N/mm], at the crown [-]
  WidthShape width;
};

template <int dim>
Bent bent(double width, double travel)
{
  Case c           = reference_case();
  c.mesh.level     = dim == 3 ? MeshLevel::standard : MeshLevel::quick; // like cells
  c.mesh.dimension = dim;
  c.coupon.width   = width;
  c.ram.stroke     = travel;
  PassSimulation<dim> simulation(set_up(c), MPI_COMM_WORLD);
  REQUIRE(simulation.run().outcome == Outcome::stroke_out);
  Bent bent;
  for (const PassSample &sample : simulation.samples())
    if (sample.kind == StepKind::push)
    {
      bent.force  = sample.ram_force / width;
      bent.strain = sample.crown_strain;
      if (sample.width)
        bent.width = *sample.width;
    }
  return bent;
}

/// Plastic moment of a width that is free to narrow over that of plane strain, with the
/// same curvature: stress by the flow curve at the strain of each layer, Simpson's rule.
double free_over_plane(const FlowCurve &flow, double surface)
{
  const double  wide  = 2 / std::sqrt(3.);
  constexpr int parts = 200;
  double        free = 0, plane = 0;
  for (int i = 0; i <= parts; ++i)
  {
    const double y      = static_cast<double>(i) / parts;
    const double weight = i == 0 || i == parts ? 1 : i % 2 == 1 ? 4 : 2;
    free += weight * y * flow.stress(surface * y);
    plane += weight * y * wide * flow.stress(wide * surface * y);
  }
  return free / plane;
}
} // namespace

TEST_CASE("Bending force per width lies between that of a free and of a held width",
          "[.][verify-long][width]")
{
  constexpr double travel = 12; // the hinge is formed, the crown still on the nose
  const Bent       plane  = bent<2>(10, travel);
  const double     low    = free_over_plane(reference_case().material.flow, plane.strain);
  REQUIRE(low < std::sqrt(3.) / 2); // hardening adds to the level
  double before = 0;
  for (const double over : {1., 2., 4., 8.})
  {
    const Bent   body  = bent<3>(10 * over, travel);
    const double share = body.force / plane.force;
    WARN("w/t " << over << ": force / plane strain " << share << ", free width " << low
                << "; strain at mid-width " << body.strain << " (plane strain "
                << plane.strain << "), edge " << body.width.edge_strain << ", curl convex "
                << body.width.convex_curl << ", concave " << body.width.concave_curl
                << " mm, width convex " << body.width.convex_width << ", concave "
                << body.width.concave_width << " mm");
    // A per cent for the mesh, which is within 0.3 % of finer ones, and the steps.
    CHECK(share > low - 0.01);
    CHECK(share < 1.01);
    CHECK(share > before);
    before = share;
    CHECK(body.width.convex_curl > 0);
    CHECK(body.width.convex_width < 10 * over);
    CHECK(body.width.concave_width > 10 * over);
  }
  CHECK(before > 0.97); // w / t = 8 is as good as plane strain
}
