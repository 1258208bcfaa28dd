// Figures of the convex face, from rows whose strains are made up so that every figure is
// known by hand.

#include "solver/outcome/face_figures.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

using namespace throughbend;

namespace
{
/// 10 mm over a plunger of 40 mm: nominal elongation 0.2. Weld 12 mm, HAZ 4 mm on either
/// side, off the centre, so that the whole coupon is modelled.
Case welded(const double offset)
{
  Case c;
  c.coupon                  = {160, 38, 10};
  c.fixture.plunger         = {40, 20};
  c.weld.width              = 12;
  c.weld.haz_width          = 4;
  c.weld.offset             = offset;
  c.inspection.gauge_length = 40;
  return c;
}

using Elongation = std::function<double(double)>;

/// A row every `step` mm of either face; the concave one must not be taken for the convex.
std::vector<SurfaceRow> rows_of(const Elongation &elongation, const double from,
                                const double to, const double step)
{
  std::vector<SurfaceRow> rows;
  for (const Face face : {Face::convex, Face::concave})
    for (double x = from + step / 2; x < to; x += step)
    {
      SurfaceRow row;
      row.face         = face;
      row.position     = x;
      row.axial_strain = face == Face::convex ? std::log1p(elongation(x)) : 9.;
      row.triaxiality  = x / 1000;
      rows.push_back(row);
    }
  return rows;
}

std::vector<SurfaceRow> whole(const Elongation &elongation)
{
  return rows_of(elongation, -80, 80, 0.1);
}

/// 0.2 within 30 mm of the centre, straight down to nothing over the next 10 mm.
double bar(const double x)
{
  return std::min(0.2, std::max(0., 0.02 * (40 - std::abs(x))));
}

/// In 38 mm of width, with a HAZ of 4 mm and fusion lines of 30 deg. Opening [mm].
Case side_bent_double_v(const double root_opening)
{
  Case c                = welded(0);
  c.mesh.dimension      = 3;
  c.weld.bend           = BendKind::side;
  c.weld.preparation    = Preparation::double_v;
  c.weld.root_opening   = root_opening;
  c.weld.root_face      = 1.5;
  c.weld.included_angle = std::acos(-1.) / 3;
  return c;
}
} // namespace

TEST_CASE("A bar bent evenly: base alone, means and the bend by hand", "[unit][faces]")
{
  Case c        = welded(0);
  c.weld        = {};
  c.mesh.model  = ModelChoice::full;
  const auto at = face_figures(c, whole(bar), 71).value();
  CHECK(at.travel == 71);
  REQUIRE(at.zones.size() == 1);
  const ZoneFigures &base = *at.zone(FaceZone::right_base);
  CHECK(base.peak.elongation() == Approx(0.2));
  CHECK(at.over_nominal(base.peak.elongation()) == Approx(1));
  // Half of 0.2 is reached 5 mm down the slopes.
  CHECK(at.bend_from == Approx(-35).margin(0.01));
  CHECK(at.bend_to == Approx(35).margin(0.01));
  // 60 mm of 0.2 and 10 mm of 0.15 on the average.
  CHECK(base.mean_elongation == Approx((60 * 0.2 + 10 * 0.15) / 70).epsilon(1e-4));
  CHECK(std::isnan(at.gauge_mean));
  CHECK(std::isnan(at.weld_inside_bend));
  CHECK(std::isnan(at.over_base(FaceZone::weld)));
  CHECK(std::isnan(at.from_fusion_line(3)));
  CHECK(std::isnan(base.inside_bend));
}

TEST_CASE("Each zone's peak, its place and its mean", "[unit][faces]")
{
  // Weld from -4 to 8, bands from -8 and to 12. A soft right band whose strain peaks at its
  // middle, 2 mm outside of the fusion line.
  const Case c    = welded(2);
  const auto soft = [](double x)
  { return bar(x) + 0.1 * std::max(0., 1 - std::abs(x - 10) / 2); };
  const auto at = face_figures(c, whole(soft), 71).value();
  REQUIRE(at.zones.size() == 4);
  CHECK(zone_name(at.zones[0].peak.zone) == "base");
  CHECK(at.peak.zone == FaceZone::right_haz);
  CHECK(at.peak.position == Approx(10).margin(0.051)); // rows stand 0.1 mm apart
  CHECK(at.peak.elongation() == Approx(0.3).margin(0.003));
  CHECK(at.peak.triaxiality == Approx(0.01).margin(1e-4)); // of that row
  CHECK(at.from_weld_middle(at.peak.position) == Approx(8).margin(0.051));
  CHECK(at.from_fusion_line(at.peak.position) == Approx(2).margin(0.051));
  CHECK(at.from_fusion_line(7) == Approx(-1));
  CHECK(at.from_fusion_line(-5) == Approx(1));

  const ZoneFigures &right = *at.zone(FaceZone::right_haz);
  CHECK(right.from == Approx(8));
  CHECK(right.to == Approx(12));
  CHECK(right.mean_elongation == Approx(0.25).epsilon(1e-3)); // a triangle on 0.2
  CHECK(at.zone(FaceZone::left_haz)->mean_elongation == Approx(0.2));
  CHECK(at.zone(FaceZone::weld)->mean_elongation == Approx(0.2).epsilon(1e-4));
  CHECK(at.over_base(FaceZone::weld) == Approx(1));
  CHECK(at.over_base(FaceZone::right_haz) == Approx(1.5).margin(0.015));
  // 40 mm from -18 to 22: 0.2 throughout, and the triangle's 0.1 x 4 / 2.
  CHECK(at.gauge_mean == Approx(0.2 + 0.2 / 40).epsilon(1e-4));
}

TEST_CASE("In or out of the bend, and by how much", "[unit][faces]")
{
  const auto near = face_figures(welded(2), whole(bar), 71).value();
  CHECK(near.weld_inside_bend == Approx(35 - 12).margin(0.01));
  CHECK(near.zone(FaceZone::weld)->inside_bend == Approx(35 - 8).margin(0.01));
  CHECK(near.zone(FaceZone::left_haz)->inside_bend == Approx(35 - 8).margin(0.01));

  // Weld 22 to 34, band to 38: out by 3 mm, while the weld itself is in by 1 mm.
  const auto off = face_figures(welded(28), whole(bar), 71).value();
  CHECK(off.weld_inside_bend == Approx(-3).margin(0.01));
  CHECK(off.zone(FaceZone::weld)->inside_bend == Approx(1).margin(0.01));
  CHECK(off.zone(FaceZone::right_haz)->inside_bend == Approx(-3).margin(0.01));

  // A stiff weld that is hardly stretched lies in the bend when the bend goes on beyond it.
  const auto stiff = face_figures(
      welded(2), whole([](double x) { return x > -4 && x < 8 ? 0.05 : bar(x); }), 71);
  CHECK(stiff->weld_inside_bend > 0);

  // Hardly begun: no bend, so neither in nor out.
  const auto flat = face_figures(welded(2), whole([](double) { return 0.01; }), 1).value();
  CHECK(std::isnan(flat.bend_from));
  CHECK(std::isnan(flat.weld_inside_bend));
  CHECK(std::isnan(flat.zone(FaceZone::left_base)->mean_elongation));
}

TEST_CASE("A half model's rows are told of both sides", "[unit][faces]")
{
  Case       c    = welded(0);
  const auto bent = [](double x) { return bar(x) + (x > 6 && x < 10 ? 0.05 : 0.); };
  const auto half = face_figures(c, rows_of(bent, 0, 80, 0.1), 71).value();
  CHECK(half.bend_from == Approx(-half.bend_to));
  CHECK(half.peak.position > 0); // where it was computed
  CHECK(half.zone(FaceZone::left_haz)->mean_elongation ==
        Approx(half.zone(FaceZone::right_haz)->mean_elongation));

  c.mesh.model    = ModelChoice::full;
  const auto both = face_figures(c, whole([&](double x) { return bent(std::abs(x)); }), 71);
  CHECK(both->gauge_mean == Approx(half.gauge_mean));
  CHECK(both->zone(FaceZone::weld)->mean_elongation ==
        Approx(half.zone(FaceZone::weld)->mean_elongation));
}

TEST_CASE("Ductility used: a stated limit strain takes precedence over an elongation",
          "[unit][faces]")
{
  Case c                         = welded(2);
  c.material.elongation          = 0.25;
  c.weld.metal_flow.elongation   = 0.4;
  c.weld.metal_flow.limit_strain = 0.5;
  const auto at                  = face_figures(c, whole(bar), 71).value();
  // Elongation against elongation, log strain against log strain.
  CHECK(at.zone(FaceZone::left_base)->ductility_used == Approx(0.2 / 0.25));
  CHECK(at.zone(FaceZone::weld)->limit->measure == DuctilityLimit::Measure::local_strain);
  CHECK(at.zone(FaceZone::weld)->ductility_used == Approx(std::log(1.2) / 0.5));
  CHECK_FALSE(at.zone(FaceZone::left_haz)->limit.has_value());
  CHECK(std::isnan(at.zone(FaceZone::left_haz)->ductility_used));
}

TEST_CASE("The mean of a zone's bent part leaves its straight part out", "[unit][faces]")
{
  // The bend ends at 35 mm; a weld of 100 mm reaches to 50.
  Case c                 = welded(0);
  c.weld.width           = 100;
  c.weld.haz_width       = 0;
  const ZoneFigures weld = *face_figures(c, whole(bar), 71).value().zone(FaceZone::weld);
  CHECK(weld.bent_mean == Approx((60 * 0.2 + 10 * 0.15) / 70).epsilon(1e-3));
  CHECK(weld.mean_elongation == Approx((60 * 0.2 + 20 * 0.1) / 100).epsilon(1e-3));
}

TEST_CASE("What dents an end of the coupon is none of the bend's", "[unit][faces]")
{
  Case c          = welded(0); // 160 mm long, 10 mm thick
  c.weld          = {};
  c.mesh.model    = ModelChoice::full;
  const auto dent = [](double x) { return std::abs(x) > 75 ? 0.6 : bar(x); };
  const auto at   = face_figures(c, whole(dent), 71).value();
  CHECK(at.peak.elongation() == Approx(0.2));
  CHECK(at.zone(FaceZone::right_base)->peak.elongation() == Approx(0.2));
  CHECK(at.bend_to == Approx(35).margin(0.01));
}

TEST_CASE("Rows without a convex face give no figures", "[unit][faces]")
{
  std::vector<SurfaceRow> rows = whole(bar);
  rows.erase(rows.begin(), rows.begin() + static_cast<std::ptrdiff_t>(rows.size() / 2));
  CHECK_FALSE(face_figures(welded(0), rows, 1).has_value());
  CHECK_FALSE(face_figures(welded(0), {}, 1).has_value());
}

TEST_CASE("A face with width tells its edge and its largest strain beside the mid-width",
          "[unit][face]")
{
  // Along the edge 0.02 more than at mid-width, and 15 mm out 0.03 more; the largest of
  // each is where the bar is bent. Stress across the width by place: -100 at the crown,
  // which is now at -5 mm.
  const Case              c    = welded(2);
  std::vector<SurfaceRow> rows = whole(bar);
  for (SurfaceRow &row : rows)
  {
    row.x                       = row.position - 5;
    AcrossRow &across           = row.across.emplace();
    across.edge_axial_strain    = row.axial_strain + 0.02;
    across.edge_triaxiality     = 0.4;
    across.largest_axial_strain = row.axial_strain + 0.03;
    across.largest_across       = 15;
    across.largest_triaxiality  = 0.45;
    across.width_stress         = -100 - 10 * std::abs(row.x);
  }
  const FaceFigures figures = face_figures(c, rows, 40).value();
  REQUIRE(figures.across);
  CHECK(figures.peak.strain == Approx(std::log(1.2)));
  CHECK(figures.across->edge.strain == Approx(std::log(1.2) + 0.02));
  CHECK(figures.across->edge.triaxiality == 0.4);
  CHECK(std::abs(figures.across->edge.position) <= 30);
  CHECK(figures.across->edge_across == 19); // half of 38 mm
  CHECK(figures.across->largest.strain == Approx(std::log(1.2) + 0.03));
  CHECK(figures.across->largest.triaxiality == 0.45);
  CHECK(figures.across->largest_across == 15);
  CHECK(figures.across->crown_width_stress == Approx(-100).margin(1));
}

TEST_CASE("A face with width tells each of its metals, wherever across it lies",
          "[unit][face]")
{
  Case c           = welded(2);
  c.mesh.dimension = 3;
  c.weld.offset    = 0;
  c.weld.run       = WeldRun::longitudinal;
  auto rows        = whole(bar);
  for (SurfaceRow &row : rows)
  {
    AcrossRow &across           = row.across.emplace();
    across.edge_axial_strain    = row.axial_strain + 0.02;
    across.largest_axial_strain = row.axial_strain + 0.03;
    across.largest_across       = 15;
  }
  constexpr double haz = 8; // from the mid-width [mm]
  const auto metals    = [&] { return face_figures(c, rows, 40).value().across->metals; };
  const auto strain    = [&](FaceZone zone)
  {
    for (const FacePeak &peak : metals())
      if (zone_words(peak.zone) == zone_words(zone))
        return peak.strain;
    return -1.;
  };
  // 8 mm of weld and bands of 2 mm on 38 mm: only the plate reaches the edge.
  REQUIRE(metals().size() == 3);
  CHECK(strain(FaceZone::weld) == Approx(std::log(1.2)));
  CHECK(strain(FaceZone::left_base) == Approx(std::log(1.2) + 0.03));
  CHECK(std::isnan(strain(FaceZone::left_haz)));
  CHECK(face_figures(c, rows, 40).value().across->edge.zone != FaceZone::weld);
  // Where the bend fades the largest of a row may lie in the HAZ: that is not its peak.
  for (SurfaceRow &row : rows)
    row.across->largest_across = std::abs(row.position) > 35 ? haz : 15;
  CHECK(std::isnan(strain(FaceZone::left_haz)));
  for (SurfaceRow &row : rows)
    row.across->largest_across = 15;
  // Across the coupon each metal has its edge.
  c.weld.run = WeldRun::transverse;
  REQUIRE(metals().size() == 3);
  CHECK(strain(FaceZone::weld) == Approx(std::log(1.2) + 0.03));
  CHECK(strain(FaceZone::left_haz) == Approx(std::log(1.2) + 0.03));
}

TEST_CASE("The edge tells its own mean over each metal's bent part", "[unit][face]")
{
  const Case c    = welded(2);
  auto       rows = whole(bar);
  for (SurfaceRow &row : rows)
    row.across.emplace().edge_axial_strain =
        row.axial_strain > 0.01 ? std::log1p(std::expm1(row.axial_strain) + 0.05) : 0.;
  const FaceFigures figures = face_figures(c, rows, 40).value();
  // As at mid-width, and 0.05 more.
  REQUIRE(figures.across->edge_means.size() == 3);
  for (const EdgeMean &mean : figures.across->edge_means)
    CHECK(mean.elongation ==
          Approx(figures.zone(mean.zone)->bent_mean + 0.05).margin(0.012));
}

TEST_CASE("In a side bend the edge's strain is that of the metal at its own place",
          "[unit][face]")
{
  // A double V of 2 mm opening in 38 mm: the HAZ begins 1 mm from the middle at mid-width,
  // and 1 + 18.25 tan 30 = 11.5 mm from it at the edge. The mesh leans as much there.
  const Case c    = side_bent_double_v(2);
  auto       rows = whole(bar);
  for (SurfaceRow &row : rows)
  {
    AcrossRow &across           = row.across.emplace();
    const bool haz              = std::abs(row.position) > 1 && std::abs(row.position) < 5;
    across.edge_axial_strain    = row.axial_strain + (haz ? 0.1 : 0.02);
    across.largest_axial_strain = across.edge_axial_strain;
    across.largest_across       = 19;
    across.edge_shift = across.largest_shift = row.position > 0 ? 10.5 : -10.5;
  }
  const AcrossFigures figures = face_figures(c, rows, 40).value().across.value();
  for (const FacePeak &peak : figures.metals)
    CHECK(peak.strain ==
          Approx(std::log(1.2) + (zone_words(peak.zone) == "HAZ" ? 0.1 : 0.02)));
  CHECK(zone_words(figures.edge.zone) == "HAZ");
  CHECK(std::abs(figures.edge.position) > 11.5);
}

TEST_CASE("A weld that is wider at the edge must lie in the bend there, too",
          "[unit][face]")
{
  // A double V as above, 40 mm wide at its root: at mid-width it ends 20 mm from the middle
  // and its HAZ 24 mm, inside the bend of 35 mm; at the edge it ends 20 + 18.25 tan 30 =
  // 30.5 mm from it, and 4 mm of HAZ square to a fusion line of 30 deg are 4.6 mm along.
  const Case c         = side_bent_double_v(40);
  auto       rows      = whole(bar);
  const auto with_edge = [&](const double factor)
  {
    for (SurfaceRow &row : rows)
    {
      AcrossRow &across           = row.across.emplace();
      across.edge_axial_strain    = factor * row.axial_strain;
      across.largest_axial_strain = row.axial_strain;
      across.largest_across       = 0;
    }
    return face_figures(c, rows, 40).value();
  };
  const FaceFigures bent_alike = with_edge(1);
  const double      haz        = 30.54 + c.weld.haz_width / std::cos(std::acos(-1.) / 6);
  CHECK(bent_alike.across->edge_bend_to == Approx(bent_alike.bend_to));
  CHECK(bent_alike.weld_inside_bend == Approx(bent_alike.bend_to - haz).margin(0.1));
  CHECK(bent_alike.zone(FaceZone::weld)->inside_bend ==
        Approx(bent_alike.bend_to - 30.54).margin(0.05));
  // An edge that is bent over a shorter length leaves less room.
  CHECK(with_edge(0.6).weld_inside_bend < bent_alike.weld_inside_bend);
}

TEST_CASE("A face without width tells nothing across it", "[unit][face]")
{
  CHECK_FALSE(face_figures(welded(2), whole(bar), 40).value().across);
}
