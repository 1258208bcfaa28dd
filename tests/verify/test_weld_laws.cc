// What order strains and forces must stand in when a zone is made softer or harder, and
// what the stress on a stretched face must be. Orders follow from mechanics; the cases are
// invented.

#include "tests/support/reference_case.h"
#include "tests/verify/face_watch.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

using namespace throughbend;

namespace
{
/// A square weld, 12 mm, with bands of 3 mm, pushed past the largest force.
Case welded(const double weld, const double haz)
{
  Case c                    = reference_case();
  c.mesh.level              = MeshLevel::quick;
  c.ram.stroke              = 45;
  c.weld.width              = 12;
  c.weld.haz_width          = 3;
  c.weld.transition         = 1;
  c.weld.strength_ratio     = weld;
  c.weld.haz_ratio          = haz;
  c.inspection.gauge_length = 40;
  return c;
}

double elongation(const FaceFigures &face, const FaceZone zone)
{
  return face.zone(zone)->peak.elongation();
}

/// Largest elongation between two places on the flat coupon.
double largest_between(const std::vector<SurfaceRow> &rows, const double from,
                       const double to)
{
  double largest = -1;
  for (const SurfaceRow &row : rows)
    if (row.face == Face::convex && row.position > from && row.position < to)
      largest = std::max(largest, std::expm1(row.axial_strain));
  return largest;
}
} // namespace

// Weakening a part of a body cannot raise the load under which it first gives way:
// Drucker, Prager & Greenberg (1952), Q. Appl. Math. 9, 381 (from memory). That holds while
// the coupon has kept its shape, as when the hinge forms. The largest force comes later,
// when nose and coupon touch in the plate on either side of the weld, and the weld between
// them matters no more: it must only be nearly the same.
constexpr double hinge_travel = 3; // [mm]

TEST_CASE("The softer the HAZ, the more it is stretched and the sooner the hinge forms",
          "[verify]")
{
  const FaceRecord even = push_and_look(welded(1, 1)), soft = push_and_look(welded(1, 0.9)),
                   softer = push_and_look(welded(1, 0.8));
  for (const auto &[less, more] : {std::pair{&soft, &even}, std::pair{&softer, &soft}})
  {
    CHECK(elongation(less->at_end, FaceZone::right_haz) >
          1.05 * elongation(more->at_end, FaceZone::right_haz));
    CHECK(force_at(less->pass, hinge_travel) < force_at(more->pass, hinge_travel));
    CHECK(peak(less->pass).force == Approx(peak(more->pass).force).epsilon(0.01));
  }
  CHECK(softer.at_end.peak.zone == FaceZone::right_haz);
}

TEST_CASE("A weld stronger than the plate: less strain in it than beside it, two largest",
          "[verify]")
{
  Case c                 = welded(1.3, 1);
  c.mesh.model           = ModelChoice::full;
  const FaceRecord full  = push_and_look(c);
  const double     left  = largest_between(full.rows_at_end, -30, -6);
  const double     right = largest_between(full.rows_at_end, 6, 30);
  CHECK(left > 1.1 * full.at_end.zone(FaceZone::weld)->mean_elongation);
  CHECK(left > 1.1 * largest_between(full.rows_at_end, -3, 3));
  CHECK(left == Approx(right).epsilon(1e-3));
  CHECK(full.at_end.peak.zone != FaceZone::weld);
  CHECK(full.at_end.from_fusion_line(full.at_end.peak.position) > 0);

  // Half of it says the same.
  c.mesh.model          = ModelChoice::automatic;
  const FaceRecord half = push_and_look(c);
  CHECK(peak(half.pass).force == Approx(peak(full.pass).force).epsilon(1e-3));
  for (const FaceZone zone : {FaceZone::left_haz, FaceZone::weld, FaceZone::right_haz})
  {
    CHECK(elongation(half.at_end, zone) ==
          Approx(elongation(full.at_end, zone)).epsilon(1e-3));
    CHECK(half.at_end.zone(zone)->mean_elongation ==
          Approx(full.at_end.zone(zone)->mean_elongation).epsilon(1e-3));
  }
  CHECK(half.at_end.gauge_mean == Approx(full.at_end.gauge_mean).epsilon(1e-3));
  CHECK(half.at_end.bend_to == Approx(full.at_end.bend_to).epsilon(1e-3));
}

TEST_CASE("A weld weaker than the plate: one largest strain, in the weld", "[verify]")
{
  const FaceRecord weak = push_and_look(welded(0.8, 1)), even = push_and_look(welded(1, 1));
  CHECK(weak.at_end.peak.zone == FaceZone::weld);
  CHECK(weak.at_end.from_fusion_line(weak.at_end.peak.position) < 0);
  CHECK(elongation(weak.at_end, FaceZone::weld) >
        1.1 * elongation(even.at_end, FaceZone::weld));
  CHECK(elongation(weak.at_end, FaceZone::weld) >
        1.2 * largest_between(weak.rows_at_end, 9, 40));
  CHECK(force_at(weak.pass, hinge_travel) < 0.95 * force_at(even.pass, hinge_travel));
  CHECK(peak(weak.pass).force == Approx(peak(even.pass).force).epsilon(0.02));
}

TEST_CASE("Where the bend is even, the gauge's mean is the bar's own strain", "[verify]")
{
  // Against a bar wrapped on the nose with its middle fibre unstretched, t / (A + t): what
  // wraps is stretched by that on the average, within the kink of the first touch and the
  // lift-off beside it.
  const FaceRecord even = push_and_look(welded(1, 1));
  CHECK(even.at_end.gauge_mean == Approx(even.at_end.nominal_elongation).epsilon(0.1));
}

TEST_CASE("Triaxiality on a stretched face is that of plane strain", "[verify]")
{
  // A free surface, stretched along by stress s, held across the width.
  // Elastic: across the width nu s, so mean s (1 + nu) / 3, von Mises s sqrt(1 - nu +
  // nu^2). Plastic flow, volume kept: no strain rate across the width means no deviator
  // there, so the stress across is s / 2, the mean s / 2, von Mises s sqrt(3) / 2: 1 /
  // sqrt(3).
  const double nu       = reference_case().material.poisson;
  const double elastic  = (1 + nu) / 3 / std::sqrt(1 - nu + nu * nu);
  const auto   expected = [&](const std::vector<SurfaceRow> &rows, double from, double to,
                            double triaxiality, double tolerance)
  {
    double sum = 0;
    int    n   = 0;
    for (const SurfaceRow &row : rows)
      if (row.face == Face::convex && row.axial_strain > from && row.axial_strain < to)
      {
        CHECK(row.triaxiality == Approx(triaxiality).epsilon(4 * tolerance));
        sum += row.triaxiality;
        ++n;
      }
    REQUIRE(n > 3);
    CHECK(sum / n == Approx(triaxiality).epsilon(tolerance));
  };

  Case c                = reference_case();
  c.ram.stroke          = 40; // the face is still loading
  const FaceRecord bent = push_and_look(c);
  expected(bent.rows_at_end, 0.05, 1, 1 / std::sqrt(3.), 0.015);
  CHECK(bent.at_end.peak.triaxiality == Approx(1 / std::sqrt(3.)).epsilon(0.04));

  c.ram.stroke              = 0.2; // below first yield
  const FaceRecord straight = push_and_look(c);
  CHECK(straight.pass.samples.back().plastic_strain == 0);
  double most = 0;
  for (const SurfaceRow &row : straight.rows_at_end)
    most = std::max(most, row.face == Face::convex ? row.axial_strain : 0.);
  expected(straight.rows_at_end, 0.5 * most, 1, elastic, 0.01);
}
