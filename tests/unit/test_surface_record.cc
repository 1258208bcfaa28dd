// surface.csv holds both faces at each moment.

#include "inputs/csv_table.h"
#include "inputs/input_error.h"
#include "solver/output/surface_record.h"
#include "tests/unit/scratch_folder.h"

#include <catch2/catch.hpp>

using namespace throughbend;

namespace
{
SurfaceRow row_at(const Face face, const double position)
{
  return {face,           position,       position + 0.1,
          position - 0.2, position / 300, position / 700,
          position * 1.1, position * 1.3, 2,
          position / 20};
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

TEST_CASE("a surface.csv with an unknown moment is refused", "[unit][output]")
{
  const ScratchFolder folder;
  write_surface_record(folder / "surface.csv",
                       {{Moment::end, 1, {row_at(Face::convex, 1)}}});
  std::string text = content(folder / "surface.csv");
  text.replace(text.find("end,1"), 3, "noon");
  put_content(folder / "surface.csv", text);
  CHECK_THROWS_AS(read_surface_record(folder / "surface.csv"), InputError);
}
