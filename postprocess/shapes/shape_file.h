#pragma once
// Points, cells and arrays of one .vtu or .vtp file as a run writes it. Such a file may
// come from anybody, so every count and number is checked against what a run can have:
// whatever stands in the file, the answer is a mesh whose cells all lie within its points,
// or an InputError with file and line.

#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

namespace throughbend
{
struct ShapeFile
{
  std::vector<std::array<double, 3>>    points; ///< [mm]
  std::vector<std::vector<std::size_t>> cells;  ///< corners, in the order of the file
  std::vector<double> types; ///< of cells, as the format numbers them; .vtu only

  /// Those that were asked for, by name: components of point or cell 0, then 1, ...
  std::map<std::string, std::vector<double>> arrays;
  std::vector<double>                        time; ///< TIME: one number, or none

  bool has(const std::string &name) const { return arrays.count(name) > 0; }
};

/// Some ten times those of the largest run that a page can be made of.
constexpr std::size_t most_shape_points = 4'000'000;

constexpr double quadrilateral = 9, hexahedron = 12; ///< types of cells

/// What is looked for: name, and how many components each point or cell has of it.
using WantedArrays = std::map<std::string, std::size_t>;

/// Of an UnstructuredGrid; `wanted` are arrays of its points. Throws XmlCutOff for a file
/// that ends too early.
ShapeFile read_grid_file(const std::string &text, const std::string &file,
                         const WantedArrays &wanted);

/// Of a PolyData with polygons only; `wanted` are arrays of these.
ShapeFile read_outline_file(const std::string &text, const std::string &file,
                            const WantedArrays &wanted);
} // namespace throughbend
