// surface.csv holds both faces at each moment.

#include "inputs/text/csv_table.h"
#include "inputs/text/input_error.h"
#include "solver/record/surface_record.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

using namespace throughbend;

namespace
{
SurfaceRow row_at(const Face face, const double position)
{
  return {face,
          position,
          position + 0.1,
          position - 0.2,
          position / 300,
          position / 700,
          position * 1.1,
          position * 1.3,
          2,
          position / 20,
          {}};
}
} // namespace

TEST_CASE("surface.csv gives back both faces at the peak and at the end", "[unit][output]")
{
  const ScratchFolder            folder;
  const std::vector<SurfaceShot> shots = {
      {Moment::peak, 31.7, {row_at(Face::convex, -3), row_at(Face::concave, 4)}},
      {Moment::end, 71.1, {row_at(Face::convex, 5), row_at(Face::convex, 6)}}};
  write_surface_record(folder / "surface.csv", shots);
  CHECK_FALSE(std::filesystem::exists(folder / "surface.csv.part"));

  const auto back = read_surface_record(folder / "surface.csv");
  REQUIRE(back.size() == shots.size());
  for (std::size_t i = 0; i < shots.size(); ++i)
  {
    CHECK(back[i].moment == shots[i].moment);
    CHECK(back[i].travel == shots[i].travel);
    REQUIRE(back[i].rows.size() == shots[i].rows.size());
    for (std::size_t j = 0; j < shots[i].rows.size(); ++j)
    {
      const SurfaceRow &a = back[i].rows[j], &b = shots[i].rows[j];
      CHECK(a.face == b.face);
      CHECK(a.position == b.position);
      CHECK(a.x == b.x);
      CHECK(a.y == b.y);
      CHECK(a.axial_strain == b.axial_strain);
      CHECK(a.plastic_strain == b.plastic_strain);
      CHECK(a.axial_stress == b.axial_stress);
      CHECK(a.pressure == b.pressure);
      CHECK(a.zone == b.zone);
      CHECK(a.triaxiality == b.triaxiality);
    }
  }
}

TEST_CASE("the heads of surface.csv stand over their own columns", "[unit][output]")
{
  const ScratchFolder folder;
  const SurfaceRow    row = row_at(Face::concave, 9);
  write_surface_record(folder / "surface.csv", {{Moment::end, 12.5, {row}}});
  const CsvTable table = CsvTable::read(folder / "surface.csv");
  CHECK(table.words("moment").at(0) == "end");
  CHECK(table.words("face").at(0) == "concave");
  CHECK(table.numbers("travel [mm]").at(0) == 12.5);
  CHECK(table.numbers("position [mm]").at(0) == row.position);
  CHECK(table.numbers("axial strain [-]").at(0) == row.axial_strain);
  CHECK(table.numbers("plastic strain [-]").at(0) == row.plastic_strain);
  CHECK(table.numbers("axial stress [MPa]").at(0) == row.axial_stress);
  CHECK(table.numbers("contact pressure [MPa]").at(0) == row.pressure);
  CHECK(table.numbers("triaxiality [-]").at(0) == row.triaxiality);
}

TEST_CASE("surface.csv of a model with width gives back what lies beside the mid-width",
          "[unit][output]")
{
  const ScratchFolder folder;
  SurfaceRow          row = row_at(Face::convex, 3);
  row.across = AcrossRow{-166, 4, -5, 0.278, 0.29, 310, 20, 0.41, 19, 0.279, 0.4, 7.5, -2};
  SurfaceRow other = row_at(Face::concave, 4);
  other.across     = AcrossRow{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13};
  write_surface_record(folder / "surface.csv", {{Moment::end, 12.5, {row, other}}});

  const CsvTable table = CsvTable::read(folder / "surface.csv");
  CHECK(table.numbers("axial strain [-]").at(0) == row.axial_strain); // the mid-width's
  CHECK(table.numbers("width stress [MPa]").at(0) == -166);
  CHECK(table.numbers("edge axial strain [-]").at(0) == 0.278);
  CHECK(table.numbers("edge triaxiality [-]").at(0) == 0.41);
  CHECK(table.numbers("largest strain at [mm from mid-width]").at(0) == 19);
  CHECK(table.numbers("largest axial strain [-]").at(0) == 0.279);

  const auto back = read_surface_record(folder / "surface.csv");
  for (std::size_t i = 0; i < 2; ++i)
  {
    const AcrossRow &a = back.at(0).rows.at(i).across.value(),
                    &b = (i == 0 ? row : other).across.value();
    CHECK(a.width_stress == b.width_stress);
    CHECK(a.edge_x == b.edge_x);
    CHECK(a.edge_y == b.edge_y);
    CHECK(a.edge_axial_strain == b.edge_axial_strain);
    CHECK(a.edge_plastic_strain == b.edge_plastic_strain);
    CHECK(a.edge_axial_stress == b.edge_axial_stress);
    CHECK(a.edge_pressure == b.edge_pressure);
    CHECK(a.edge_triaxiality == b.edge_triaxiality);
    CHECK(a.largest_across == b.largest_across);
    CHECK(a.largest_axial_strain == b.largest_axial_strain);
    CHECK(a.largest_triaxiality == b.largest_triaxiality);
    CHECK(a.edge_shift == b.edge_shift);
    CHECK(a.largest_shift == b.largest_shift);
  }
}

TEST_CASE("surface.csv of a plane model has no columns across the width", "[unit][output]")
{
  const ScratchFolder folder;
  write_surface_record(folder / "surface.csv",
                       {{Moment::end, 1, {row_at(Face::convex, 1)}}});
  CHECK(CsvTable::read(folder / "surface.csv").heads().size() == 12);
  CHECK_FALSE(read_surface_record(folder / "surface.csv").at(0).rows.at(0).across);
}

TEST_CASE("a surface.csv with an unknown moment is refused", "[unit][output]")
{
  const ScratchFolder folder;
  write_surface_record(folder / "surface.csv",
                       {{Moment::end, 1, {row_at(Face::convex, 1)}}});
  std::string text = content(folder / "surface.csv");
  text.replace(text.find("end,1"), 3, "noon");
  put_content(folder / "surface.csv", text);
  CHECK_THROWS_AS(read_surface_record(folder / "surface.csv"), InputError);
  // The file once, what is wrong, and the cure, each in a sentence.
  const std::string place = (folder / "surface.csv").string() + ": ";
  put_content(folder / "surface.csv", "moment,face,travel [mm]\n");
  CHECK_THROWS_WITH(read_surface_record(folder / "surface.csv"),
                    place + "has no column 'position [mm]'. Its columns are: 'moment', "
                            "'face', 'travel [mm]'. Push the case again.");
  text.replace(text.find("noon"), 4, "end");
  text.replace(text.find("convex"), 6, "upper");
  put_content(folder / "surface.csv", text);
  CHECK_THROWS_WITH(read_surface_record(folder / "surface.csv"),
                    Catch::Matchers::StartsWith(place + "'upper' is neither"));
}
