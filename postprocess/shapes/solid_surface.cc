#include "postprocess/shapes/solid_surface.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

namespace throughbend
{
namespace
{
using Quad = std::array<std::size_t, 4>;
using Edge = std::array<std::size_t, 2>;

/// Faces of a hexahedron by its corners, as the format orders them, seen from outside.
constexpr std::array<Quad, 6> faces_of = {
    {{0, 4, 7, 3}, {1, 2, 6, 5}, {0, 1, 5, 4}, {3, 7, 6, 2}, {0, 3, 2, 1}, {4, 5, 6, 7}}};

constexpr std::array<Edge, 12> edges_of = {{{0, 1},
                                            {1, 2},
                                            {2, 3},
                                            {3, 0},
                                            {4, 5},
                                            {5, 6},
                                            {6, 7},
                                            {7, 4},
                                            {0, 4},
                                            {1, 5},
                                            {2, 6},
                                            {3, 7}}};

/// One number for each place: a node is written once for every element that has it, with
/// the very same coordinates. The two lips of a flaw are two places.
std::vector<std::size_t> places(const ShapeFile &grid, const std::vector<double> &lip)
{
  std::map<std::tuple<double, double, double, double>, std::size_t> known;
  std::vector<std::size_t>                                          place;
  for (std::size_t id = 0; id < grid.points.size(); ++id)
  {
    const auto &p = grid.points[id];
    place.push_back(
        known.try_emplace({p[0], p[1], p[2], lip.empty() ? 0 : lip[id]}, known.size())
            .first->second);
  }
  return place;
}

template <std::size_t n>
std::array<std::size_t, n> sorted(std::array<std::size_t, n> corners)
{
  std::sort(corners.begin(), corners.end());
  return corners;
}

template <std::size_t n>
std::array<std::size_t, n> mapped(const std::array<std::size_t, n> &corners,
                                  const std::vector<std::size_t>   &to)
{
  std::array<std::size_t, n> found{};
  for (std::size_t i = 0; i < n; ++i)
    found[i] = to[corners[i]];
  return found;
}
} // namespace

SolidSurface solid_surface(const ShapeFile &grid, const std::vector<double> &moved,
                           const std::vector<double> &zone, const std::vector<double> &lip,
                           const CutAtMiddle cut)
{
  const std::vector<std::size_t> place = places(grid, lip);
  std::map<Quad, int>            uses; // of a face, by places
  // An element is written as eight hexahedra that share the element's own points: an edge
  // that only one of them has lies on an edge of the element.
  std::map<Edge, int> within;
  for (const std::vector<std::size_t> &cell : grid.cells)
  {
    if (cell.size() != 8)
      continue;
    for (const Quad &face : faces_of)
      ++uses[sorted(mapped(mapped(face, cell), place))];
    for (const Edge &edge : edges_of)
      ++within[sorted(mapped(edge, cell))];
  }

  SolidSurface                                  surface;
  std::map<std::pair<std::size_t, double>, int> known; // place and zone
  const auto                                    number_of = [&](const std::size_t id)
  {
    const auto [found, is_new] =
        known.try_emplace({place[id], zone[id]}, static_cast<int>(surface.kept.size()));
    if (is_new)
      surface.kept.push_back(id);
    return found->second;
  };
  const auto on_symmetry = [&](const Quad &face)
  {
    const auto all = [&](const auto &holds)
    { return std::all_of(face.begin(), face.end(), holds); };
    return all([&](const std::size_t id)
               { return std::abs(grid.points[id][2]) <= 1e-6; }) ||
           (cut == CutAtMiddle::yes &&
            all(
                [&](const std::size_t id)
                {
                  return std::abs(grid.points[id][0] - moved[3 * id]) < 1e-4 &&
                         (lip.empty() || lip[id] == 0);
                }));
  };
  std::set<std::array<int, 2>> lines;
  for (const std::vector<std::size_t> &cell : grid.cells)
  {
    if (cell.size() != 8)
      continue;
    for (const Quad &corners : faces_of)
    {
      const Quad face = mapped(corners, cell);
      if (uses.at(sorted(mapped(face, place))) != 1 || on_symmetry(face))
        continue;
      std::array<int, 4> numbers{};
      for (std::size_t i = 0; i < 4; ++i)
        numbers[i] = number_of(face[i]);
      surface.faces.push_back(numbers);
      for (std::size_t i = 0; i < 4; ++i)
        if (within.at(sorted(Edge{face[i], face[(i + 1) % 4]})) == 1)
        {
          std::array<int, 2> line = {numbers[i], numbers[(i + 1) % 4]};
          std::sort(line.begin(), line.end());
          lines.insert(line);
        }
    }
  }
  surface.edges.assign(lines.begin(), lines.end());
  return surface;
}
} // namespace throughbend
