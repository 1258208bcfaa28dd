#include "postprocess/shapes/shape_file.h"

#include "inputs/text/shown_text.h"
#include "postprocess/shapes/shape_array.h"

#include <fmt/core.h>

#include <cmath>
#include <utility>

namespace throughbend
{
namespace
{
using Part = XmlScan::Part;

constexpr std::size_t most_cells   = 4'000'000;
constexpr std::size_t most_corners = 32'000'000;
constexpr double      largest      = 1e5; ///< [mm], of places; other figures are smaller

/// Which groups of the file hold what; all others are passed over.
struct Layout
{
  const char *kind;      ///< of the file
  const char *n_cells;   ///< attribute of the piece
  const char *cells;     ///< group of connectivity and offsets
  const char *of_wanted; ///< group of the arrays that are wanted
  bool        has_types;
};
constexpr Layout grid{"UnstructuredGrid", "NumberOfCells", "Cells", "PointData", true};
constexpr Layout outlines{"PolyData", "NumberOfPolys", "Polys", "CellData", false};

class Reading
{
public:
  Reading(const std::string &text, const std::string &file, const Layout &layout,
          const WantedArrays &wanted)
      : scan_(text, file), layout_(layout), wanted_(wanted)
  {
  }

  ShapeFile read()
  {
    if (scan_.next() != Part::open || scan_.name() != "VTKFile" ||
        scan_.attribute("type").value_or("") != layout_.kind)
      scan_.refuse(std::string("this is no file of the kind ") + layout_.kind);
    if (scan_.attribute("byte_order").value_or("") != "LittleEndian")
      scan_.refuse("the order of its bytes is not LittleEndian");
    bool any = false;
    each_in("the file",
            [&]
            {
              if (scan_.name() != layout_.kind || std::exchange(any, true))
                scan_.refuse("an element that no run writes");
              each_in(layout_.kind, [&] { take_group(); });
            });
    if (scan_.next() != Part::end)
      scan_.refuse("something follows the end");
    finish();
    return std::move(shape_);
  }

private:
  /// For each element in the one that the scan stands at the open of.
  template <class Take>
  void each_in(const char *const what, const Take &take)
  {
    while (true)
      switch (scan_.next())
      {
      case Part::open:
        take();
        break;
      case Part::text:
        if (scan_.text().find_first_not_of(" \t\r\n") != std::string_view::npos)
          scan_.refuse(std::string("text within ") + what);
        break;
      case Part::close:
      case Part::end:
        return;
      }
  }

  void take_group()
  {
    if (scan_.name() == "FieldData")
      each_in("the field data",
              [&]
              {
                if (scan_.attribute("Name").value_or("") == "TIME" && shape_.time.empty())
                  shape_.time = read_shape_array(scan_, {1, 1}, 2 * largest);
                else
                  skip_element(scan_);
              });
    else if (scan_.name() == "Piece" && !std::exchange(has_piece_, true))
    {
      n_points_ = scan_.count("NumberOfPoints", most_shape_points);
      n_cells_  = scan_.count(layout_.n_cells, most_cells);
      if (!layout_.has_types)
        for (const char *others : {"NumberOfVerts", "NumberOfLines", "NumberOfStrips"})
          scan_.count(others, 0);
      each_in("the piece", [&] { take_part(); });
    }
    else
      scan_.refuse("an element that no run writes");
  }

  void take_part()
  {
    const std::string_view group = scan_.name();
    if (group == "Points")
      each_in("the points",
              [&]
              {
                if (!places_.empty())
                  scan_.refuse("points stand there twice");
                places_ = read_shape_array(scan_, times(3), largest);
              });
    else if (group == layout_.cells)
      each_in("the cells", [&] { take_cells(); });
    else if (group == layout_.of_wanted)
      each_in("the arrays", [&] { take_wanted(); });
    else
      skip_element(scan_);
  }

  void take_cells()
  {
    const std::string name(scan_.attribute("Name").value_or(""));
    const auto        take = [&](std::vector<double> &into, const ArrayLength length)
    {
      if (!into.empty())
        scan_.refuse("the array " + quoted_text(name) + " stands there twice");
      into = read_shape_array(scan_, length, most_corners);
      for (const double value : into)
        if (value < 0 || value != std::floor(value))
          scan_.refuse("the array " + quoted_text(name) +
                       " holds what is no number of a thing");
    };
    if (name == "connectivity")
      take(corners_, {0, most_corners});
    else if (name == "offsets")
      take(ends_, {n_cells_, n_cells_});
    else if (name == "types" && layout_.has_types)
      take(shape_.types, {n_cells_, n_cells_});
    else
      skip_element(scan_);
  }

  void take_wanted()
  {
    const std::string name(scan_.attribute("Name").value_or(""));
    const auto        found = wanted_.find(name);
    if (found == wanted_.end())
    {
      skip_element(scan_);
      return;
    }
    if (shape_.has(name))
      scan_.refuse("the array " + quoted_text(name) + " stands there twice");
    const std::size_t things = layout_.has_types ? n_points_ : n_cells_;
    if (found->second > 1 || scan_.attribute("NumberOfComponents"))
      scan_.count("NumberOfComponents", 9);
    shape_.arrays[name] =
        read_shape_array(scan_, {found->second * things, found->second * things}, largest);
  }

  ArrayLength times(const std::size_t components) const
  {
    return {components * n_points_, components * n_points_};
  }

  /// Puts the cells together, each within the points.
  void finish()
  {
    if (n_points_ == 0 || n_cells_ == 0)
      scan_.refuse("it holds no points or no cells");
    if (places_.size() != 3 * n_points_ || ends_.size() != n_cells_ ||
        (layout_.has_types && shape_.types.size() != n_cells_))
      scan_.refuse("points, offsets or types of cells are missing");
    shape_.points.reserve(n_points_);
    for (std::size_t i = 0; i < n_points_; ++i)
      shape_.points.push_back({places_[3 * i], places_[3 * i + 1], places_[3 * i + 2]});
    if (ends_.back() != static_cast<double>(corners_.size()))
      scan_.refuse(
          fmt::format("the cells end at {} of {} corners", ends_.back(), corners_.size()));
    shape_.cells.reserve(n_cells_);
    double from = 0;
    for (std::size_t c = 0; c < n_cells_; ++c)
    {
      const double end = ends_[c];
      check_cell(c, end - from, end);
      std::vector<std::size_t> cell;
      cell.reserve(static_cast<std::size_t>(end - from));
      for (double i = from; i < end; ++i)
      {
        const double corner = corners_[static_cast<std::size_t>(i)];
        if (corner >= static_cast<double>(n_points_))
          scan_.refuse(fmt::format("cell {} has the corner {}, and there are {} points", c,
                                   corner, n_points_));
        cell.push_back(static_cast<std::size_t>(corner));
      }
      shape_.cells.push_back(std::move(cell));
      from = end;
    }
  }

  void check_cell(const std::size_t c, const double corners, const double end) const
  {
    bool good = corners >= 3 && end <= static_cast<double>(corners_.size());
    if (layout_.has_types)
    {
      const double type = shape_.types[c];
      good              = good && ((type == quadrilateral && corners == 4) ||
                      (type == hexahedron && corners == 8));
    }
    if (!good)
      scan_.refuse(
          fmt::format("cell {} has {} corners, or a type that no run writes", c, corners));
  }

  XmlScan             scan_;
  const Layout       &layout_;
  const WantedArrays &wanted_;
  ShapeFile           shape_;
  bool                has_piece_ = false;
  std::size_t         n_points_ = 0, n_cells_ = 0;
  std::vector<double> places_, corners_, ends_;
};
} // namespace

ShapeFile read_grid_file(const std::string &text, const std::string &file,
                         const WantedArrays &wanted)
{
  return Reading(text, file, grid, wanted).read();
}

ShapeFile read_outline_file(const std::string &text, const std::string &file,
                            const WantedArrays &wanted)
{
  return Reading(text, file, outlines, wanted).read();
}
} // namespace throughbend
