// The outside of a body with width, for the turning view: by hand on made-up bricks.

#include "postprocess/shapes/solid_data.h"
#include "tests/support/run_fixture.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <set>

using namespace throughbend;

namespace
{
/// Unit bricks side by side along x from `first`, each as eight hexahedra that share 27
/// points of the brick's own, as a run writes quadratic elements. Width from z = 0 to 1.
ShapeFile bricks(const double first, const int count)
{
  ShapeFile grid;
  for (int b = 0; b < count; ++b)
  {
    const std::size_t start = grid.points.size();
    for (int n = 0; n < 27; ++n)
      grid.points.push_back({first + b + n % 3 / 2., n / 3 % 3 / 2., n / 9 / 2.});
    for (std::size_t c = 0; c < 8; ++c)
    {
      const auto corner = [&](const std::size_t x, const std::size_t y, const std::size_t z)
      { return start + c % 2 + x + 3 * (c / 2 % 2 + y) + 9 * (c / 4 + z); };
      grid.cells.push_back({corner(0, 0, 0), corner(1, 0, 0), corner(1, 1, 0),
                            corner(0, 1, 0), corner(0, 0, 1), corner(1, 0, 1),
                            corner(1, 1, 1), corner(0, 1, 1)});
    }
  }
  return grid;
}

SolidSurface surface_of(const ShapeFile &grid, const std::vector<double> &zone,
                        const CutAtMiddle cut)
{
  return solid_surface(grid, std::vector<double>(3 * grid.points.size()), zone, {}, cut);
}

std::vector<double> same_zone(const ShapeFile &grid)
{
  return std::vector<double>(grid.points.size());
}
} // namespace

TEST_CASE("the outside of bricks is what no two of them share", "[solid]")
{
  const ShapeFile    grid    = bricks(-1, 2);
  const SolidSurface surface = surface_of(grid, same_zone(grid), CutAtMiddle::no);
  // By hand: of 2 x 1 x 1 without the middle plane z = 0, faces of a quarter each: two
  // ends, top and bottom, and one side.
  CHECK(surface.faces.size() == 2 * 4 + 2 * 8 + 8);
  // Points: 3 x 5 on top, bottom and side, 3 x 3 at the ends; edges of the box counted
  // once: all 3 x 3 x 5 but the inner ones, and of the plane z = 0 only its rim.
  std::set<std::array<double, 3>> places;
  for (const std::size_t id : surface.kept)
    places.insert(grid.points[id]);
  CHECK(surface.kept.size() == places.size());
  CHECK(places.size() == 3 * 3 * 5 - 3 - 3);
  // Every face has its corners around, not across: its two diagonals are the longest.
  for (const auto &face : surface.faces)
    for (std::size_t i = 0; i < 4; ++i)
    {
      const auto &p = grid.points[surface.kept[static_cast<std::size_t>(face[i])]];
      const auto &q =
          grid.points[surface.kept[static_cast<std::size_t>(face[(i + 1) % 4])]];
      CHECK(std::abs(p[0] - q[0]) + std::abs(p[1] - q[1]) + std::abs(p[2] - q[2]) ==
            Approx(0.5));
    }
}

TEST_CASE("lines are the edges of elements, not of the pieces they are written in",
          "[solid]")
{
  const ShapeFile    grid    = bricks(-1, 2);
  const SolidSurface surface = surface_of(grid, same_zone(grid), CutAtMiddle::no);
  // By hand: four edges along x of two bricks, twelve across (four at each of three x),
  // each in two pieces. Those at z = 0 bound the faces beside it.
  CHECK(surface.edges.size() == 2 * (4 * 2 + 3 * 4 - 1));
  for (const auto &[i, j] : surface.edges)
  {
    const auto &p       = grid.points[surface.kept[static_cast<std::size_t>(i)]];
    const auto &q       = grid.points[surface.kept[static_cast<std::size_t>(j)]];
    int         on_grid = 0; // coordinates that both have, at an edge of the elements
    for (std::size_t d = 0; d < 3; ++d)
      on_grid += p[d] == q[d] && p[d] == std::round(p[d]);
    CHECK(on_grid == 2);
  }
}

TEST_CASE("the plane of symmetry of a half model is no outside", "[solid]")
{
  const ShapeFile grid = bricks(0, 2);
  CHECK(surface_of(grid, same_zone(grid), CutAtMiddle::no).faces.size() == 32);
  CHECK(surface_of(grid, same_zone(grid), CutAtMiddle::yes).faces.size() == 28);
}

TEST_CASE("zones keep their own points, and no face between them", "[solid]")
{
  const ShapeFile     grid = bricks(-1, 2);
  std::vector<double> zone = same_zone(grid);
  std::fill(zone.begin() + 27, zone.end(), 2.);
  const SolidSurface surface = surface_of(grid, zone, CutAtMiddle::no);
  CHECK(surface.faces.size() == 32);
  CHECK(surface.kept.size() == 3 * 3 * 5 - 3 - 3 + 3 * 3 - 2);
}

TEST_CASE("a plane mesh has no outside to turn", "[solid]")
{
  ShapeFile grid;
  grid.points = {{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0}};
  grid.cells  = {{0, 1, 2, 3}};
  CHECK(surface_of(grid, same_zone(grid), CutAtMiddle::no).empty());
}

TEST_CASE("what the page unpacks are the points and strains of the run", "[solid]")
{
  const ScratchFolder scratch;
  write_run(scratch.path(), "", "");
  write_text(scratch.path() / "fields/a.vtu", body_text(1));
  write_text(scratch.path() / "fields/fields.pvd", index_text({{1, "a.vtu"}}));
  const PassShapes shapes = read_pass_shapes(scratch.path(), ModelPart::whole);
  REQUIRE(has_solid(shapes));
  CHECK(shapes.surface.faces.size() == 9); // by hand: 2 x 4 around, and the far end
  const SolidScale scale = solid_scale(shapes);
  CHECK(scale.high == std::array<double, 3>{1, 1, 2});
  CHECK(scale.largest_axial == Approx(10)); // next round value above 9 (invented)

  Json moment = Json::object();
  add_solid_shape(moment, shapes.shapes.front().solid, scale);
  const std::string text = moment["solid"];
  CHECK(text.size() == (12 * 3 * 2 + 2) / 3 * 4); // base64: 12 places, three words each
}
