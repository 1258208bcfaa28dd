// Where crown and concave face stand on the flow curve, on a made-up run (invented strains)
// of which the stresses are worked out by hand.

#include "inputs/case/zone_flow.h"
#include "postprocess/charts/flow_chart.h"
#include "tests/support/run_fixture.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace throughbend;

namespace
{
const ReaderUnits metric(UnitSystem::metric);

/// Two cells left and right of x = 0; the crown at (0, 0) and the place under the nose at
/// (0, 1) have these strains, all others 0.3.
std::string middle_text(double travel, double crown, double nose)
{
  MadeUpGrid grid;
  for (const int cell : {-1, 0})
    for (const int corner : {0, 1, 2, 3})
    {
      const int x = cell + (corner == 1 || corner == 2), y = corner >= 2;
      grid.points += std::to_string(x) + " " + std::to_string(y - travel) + " 0 ";
      grid.moved += "0 " + std::to_string(-travel) + " 0 ";
      grid.strain += std::to_string(x != 0 ? 0.3 : y == 0 ? crown : nose) + " ";
      grid.zone += "0 ";
    }
  grid.connectivity = "0 1 2 3 4 5 6 7";
  grid.offsets      = "4 8";
  grid.types        = "9 9"; // quadrilaterals
  grid.n_points     = 8;
  grid.n_cells      = 2;
  return grid_text(travel, grid);
}

/// s = 250 MPa + 1000 MPa p, tested to 0.15.
void write_pass(const std::filesystem::path &folder, const std::string &more = "")
{
  write_run(folder, "t", "t");
  write_text(folder / "case.ini",
             "[case]\ntitle = t\n[coupon]\nlength = 160 mm\nwidth = 38 mm\nthickness = "
             "10 mm\n[material]\nlaw = linear\nyield = 250 MPa\nhardening = 1000 MPa\n"
             "last_strain = 0.15\n[plunger]\nwidth = 40 mm\n[shoulders]\nradius = 20 mm\n"
             "opening = 63.2 mm\n[ram]\ncapacity = 4 kN\nstroke = 60 mm\n" +
                 more);
  write_text(folder / "fields" / "a.vtu", middle_text(10, 0.1, 0.05));
  write_text(folder / "fields" / "b.vtu", middle_text(20, 0.2, 0.12));
  write_text(folder / "fields" / "free.vtu", middle_text(20, 0.25, 0.25));
}

RunRecord with_peak(const std::filesystem::path &folder)
{
  RunRecord run = read_run_record(folder);
  run.summary.put("key_figures.peak_ram_force_travel_mm", 20);
  return run;
}
} // namespace

TEST_CASE("crown and concave face stand on the base plate's curve at their strains",
          "[report][chart]")
{
  const ScratchFolder scratch;
  write_pass(scratch.path() / "pass");
  const RunRecord  run    = with_peak(scratch.path() / "pass");
  const PassShapes shapes = read_pass_shapes(run.folder, ModelPart::whole);
  const auto       states = middle_states(run, shapes);
  REQUIRE(states.size() == 2); // the released shape is none
  CHECK(states[0].travel == Approx(10));
  CHECK(states[0].crown_strain == Approx(0.1));
  CHECK(states[1].concave_strain == Approx(0.12));
  CHECK(*crown_flow_stress(*run.known_case, states[1]) == Approx(450)); // 250 + 1000 * 0.2
  CHECK(*concave_flow_stress(*run.known_case, states[1]) ==
        Approx(370)); // 250 + 1000 * 0.12

  const auto chart = flow_chart(run, shapes, metric);
  REQUIRE(chart.has_value());
  REQUIRE(chart->lines.size() == 1);
  CHECK(chart->lines[0].label == "base plate");
  REQUIRE(chart->marks.size() == 4);
  CHECK(chart->marks[0].x == Approx(0.1));
  CHECK(chart->marks[0].y == Approx(350));
  CHECK(chart->marks[0].label == "10.0 mm");
  CHECK(chart->marks[1].x == Approx(-0.05)); // pressed together
  CHECK(chart->marks[1].y == Approx(-300));
  REQUIRE(chart->limits.size() == 2); // of either sign
  CHECK(std::abs(chart->limits[0].value) == Approx(0.15));

  // Inch and ksi first: strains stay.
  const auto us = flow_chart(run, shapes, ReaderUnits(UnitSystem::us));
  CHECK(us->marks[0].x == Approx(0.1));
  CHECK(us->marks[0].y == Approx(350 / 6.894757).epsilon(1e-6)); // 1 ksi = 6.894757 MPa
  CHECK(us->marks[0].label == "0.394 in");
}

TEST_CASE("a run that kept no shapes is read from surface.csv", "[report][chart]")
{
  const ScratchFolder scratch;
  write_pass(scratch.path() / "pass");
  std::filesystem::remove_all(scratch.path() / "pass" / "fields");
  write_text(
      scratch.path() / "pass" / "surface.csv",
      "moment,travel [mm],face,position [mm],plastic strain [-],zone [0 base; 1 HAZ; "
      "2 weld]\n"
      "peak,20,convex,-3,0.3,0\npeak,20,convex,0,0.2,0\npeak,20,concave,0,0.1,0\n"
      "end,30,convex,0,0.22,0\nend,30,concave,1,0.15,0\n");
  const RunRecord  run    = read_run_record(scratch.path() / "pass");
  const PassShapes shapes = read_pass_shapes(run.folder, ModelPart::whole);
  const auto       states = middle_states(run, shapes);
  REQUIRE(states.size() == 2);
  CHECK(states[0].crown_strain == Approx(0.2)); // the nearest to the middle
  CHECK(states[0].concave_strain == Approx(0.1));
  CHECK(states[1].travel == Approx(30));

  std::filesystem::remove(scratch.path() / "pass" / "surface.csv");
  CHECK(middle_states(run, shapes).empty());
  const auto chart = flow_chart(run, shapes, metric);
  REQUIRE(chart.has_value()); // the curve alone
  CHECK(chart->marks.empty());
}

TEST_CASE("the zones of a weld have a curve each; where strength passes from one to the "
          "next there is none",
          "[report][chart]")
{
  const ScratchFolder scratch;
  write_pass(scratch.path() / "pass",
             "[weld]\nwidth = 12 mm\nhaz_width = 3 mm\nstrength_ratio = 1.2\nhaz_ratio = "
             "0.8\nhaz_base_ratio = 0.9\n");
  const RunRecord run    = with_peak(scratch.path() / "pass");
  const auto      curves = zone_curves(*run.known_case);
  REQUIRE(curves.size() == 4);
  CHECK(curves[1].label == "HAZ, fusion line");
  CHECK(curves[1].curve.stress(0.1) == Approx(0.8 * 350));
  CHECK(curves[2].curve.stress(0.1) == Approx(0.9 * 350));
  CHECK(curves[3].label == "weld metal");
  CHECK(curves[3].curve.stress(0.1) == Approx(1.2 * 350));

  MiddleState state{20, 2, 2, 0.1, 0.1};
  CHECK(*crown_flow_stress(*run.known_case, state) == Approx(1.2 * 350));
  state.crown_zone = 1;
  CHECK_FALSE(crown_flow_stress(*run.known_case, state)); // graded: no single curve
  state.crown_zone.reset();
  CHECK_FALSE(crown_flow_stress(*run.known_case, state));
  state = {20, 2, 2, 1e300, std::numeric_limits<double>::quiet_NaN()}; // a spoiled file
  CHECK_FALSE(crown_flow_stress(*run.known_case, state));
  CHECK_FALSE(concave_flow_stress(*run.known_case, state));
}

TEST_CASE("beside a fusion line no zone is named", "[report][chart]")
{
  // The made-up run's two cells: base left of x = 1, weld right of it; the middle at x = 0
  // is 1 mm from the border.
  const ScratchFolder scratch;
  write_run(scratch.path() / "pass", "t", "t");
  RunRecord  run    = read_run_record(scratch.path() / "pass");
  PassShapes shapes = read_pass_shapes(run.folder, ModelPart::whole);
  CHECK(middle_states(run, shapes).empty()); // its middle has not yielded
  for (Shape &shape : shapes.shapes)
    for (double &strain : shape.plastic_strain)
      strain += 0.1;
  run.known_case->weld.width = 2;
  for (const auto &[transition, known] : {std::pair{0.5, true}, std::pair{1., false}})
  {
    run.known_case->weld.transition = transition;
    const auto states               = middle_states(run, shapes);
    REQUIRE_FALSE(states.empty());
    CHECK(states[0].crown_zone.has_value() == known);
    CHECK(states[0].concave_zone.has_value() == known);
  }
}
