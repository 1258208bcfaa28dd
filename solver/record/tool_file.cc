#include "solver/record/tool_file.h"

#include "inputs/text/csv_table.h"

#include <algorithm>
#include <limits>

namespace throughbend
{
namespace
{
/// Points and faces of all tools, gathered before they are written.
struct Bodies
{
  struct Point
  {
    double x = 0, y = 0, z = 0;
  };
  std::vector<Point>                    points;
  std::vector<std::vector<std::size_t>> faces;
  std::vector<std::size_t>              tools; // number of each face's

  void add_face(std::vector<std::size_t> corners, std::size_t tool)
  {
    faces.push_back(std::move(corners));
    tools.push_back(tool);
  }
};

/// Without points that lie on each other.
std::vector<PlaneVector> thinned(std::vector<PlaneVector> outline)
{
  const auto same = [](PlaneVector a, PlaneVector b) { return length(a - b) < 1e-9; };
  outline.erase(std::unique(outline.begin(), outline.end(), same), outline.end());
  while (outline.size() > 1 && same(outline.front(), outline.back()))
    outline.pop_back();
  return outline;
}

void add_body(Bodies &bodies, const std::vector<PlaneVector> &outline, std::size_t tool,
              double width)
{
  const std::size_t n = outline.size(), first = bodies.points.size();
  const bool        flat = width <= 0;
  for (const double z : flat ? std::vector<double>{0.} : std::vector{0., width})
    for (const PlaneVector &point : outline)
      bodies.points.push_back({point.x, point.y, z});

  std::vector<std::size_t> near(n), far(n);
  for (std::size_t i = 0; i < n; ++i)
  {
    near[i] = first + i;
    far[i]  = first + 2 * n - 1 - i; // turned over, so that it looks outward too
  }
  bodies.add_face(near, tool);
  if (flat)
    return;
  bodies.add_face(far, tool);
  for (std::size_t i = 0; i < n; ++i)
  {
    const std::size_t next = (i + 1) % n;
    bodies.add_face({first + i, first + next, first + n + next, first + n + i}, tool);
  }
}

std::string data_array(const std::string &type, const std::string &name, int components,
                       const std::string &values)
{
  return "        <DataArray type=\"" + type + "\" Name=\"" + name +
         "\" NumberOfComponents=\"" + std::to_string(components) +
         "\" format=\"ascii\">\n" + values + "        </DataArray>\n";
}
} // namespace

std::vector<std::vector<PlaneVector>> outlines_in_place(const RigidTool &tool,
                                                        double           travel)
{
  constexpr double arc_piece = 0.035; // [rad], two degrees: looks round
  std::vector<std::vector<PlaneVector>> outlines;
  double                                low = std::numeric_limits<double>::infinity();
  for (const RigidProfile &profile : tool.outlines)
  {
    outlines.push_back(profile.outline(arc_piece));
    for (const PlaneVector &point : outlines.back())
      low = std::min(low, point.y);
  }
  for (std::vector<PlaneVector> &outline : outlines)
    for (PlaneVector &point : outline)
    {
      point.y = std::min(point.y, low + tool.drawn_up);
      point   = point + tool.shift(travel);
    }
  return outlines;
}

std::string tool_file_text(const std::vector<RigidTool> &tools, const double travel,
                           const double width)
{
  Bodies bodies;
  for (const RigidTool &tool : tools)
    for (const std::vector<PlaneVector> &outline : outlines_in_place(tool, travel))
      add_body(bodies, thinned(outline), tool_number(tool.place), width);

  std::string points, corners, ends, numbers;
  for (const Bodies::Point &p : bodies.points)
    points += number_text(p.x) + " " + number_text(p.y) + " " + number_text(p.z) + "\n";
  std::size_t end = 0;
  for (const std::vector<std::size_t> &face : bodies.faces)
  {
    for (const std::size_t corner : face)
      corners += std::to_string(corner) + " ";
    corners += "\n";
    end += face.size();
    ends += std::to_string(end) + "\n";
  }
  for (const std::size_t tool : bodies.tools)
    numbers += std::to_string(tool) + "\n";

  return "<?xml version=\"1.0\"?>\n"
         "<VTKFile type=\"PolyData\" version=\"0.1\" byte_order=\"LittleEndian\">\n"
         "  <PolyData>\n    <Piece NumberOfPoints=\"" +
         std::to_string(bodies.points.size()) +
         "\" NumberOfVerts=\"0\" NumberOfLines=\"0\" NumberOfStrips=\"0\" "
         "NumberOfPolys=\"" +
         std::to_string(bodies.faces.size()) + "\">\n      <CellData>\n" +
         data_array("Int32", "tool", 1, numbers) + "      </CellData>\n      <Points>\n" +
         data_array("Float64", "Points", 3, points) + "      </Points>\n      <Polys>\n" +
         data_array("Int64", "connectivity", 1, corners) +
         data_array("Int64", "offsets", 1, ends) +
         "      </Polys>\n    </Piece>\n  </PolyData>\n</VTKFile>\n";
}
} // namespace throughbend
