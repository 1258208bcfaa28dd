#include "postprocess/shapes/shape_parts.h"

#include "postprocess/shapes/xml_scan.h"

#include <fmt/core.h>

namespace throughbend
{
namespace
{
constexpr std::size_t most_parts = 10'000;

std::string part_name(const XmlScan &scan)
{
  const auto source = scan.attribute("Source");
  if (!source || source->empty() || source->find('/') != std::string_view::npos ||
      source->substr(0, 1) == ".")
    scan.refuse("a part that is no file beside this one");
  return std::string(*source);
}
} // namespace

std::vector<std::string> shape_part_files(const std::string &text, const std::string &file)
{
  XmlScan                  scan(text, file);
  std::vector<std::string> names;
  int                      depth = 0;
  while (true)
    switch (scan.next())
    {
    case XmlScan::Part::open:
      ++depth;
      if ((depth == 1 && (scan.name() != "VTKFile" ||
                          scan.attribute("type").value_or("") != "PUnstructuredGrid")) ||
          (depth == 2 && scan.name() != "PUnstructuredGrid"))
        scan.refuse("this names no parts of a shape");
      if (depth == 3 && scan.name() == "Piece")
        names.push_back(part_name(scan));
      if (names.size() > most_parts)
        scan.refuse("more parts than a run has");
      break;
    case XmlScan::Part::close:
      --depth;
      break;
    case XmlScan::Part::text:
      break;
    case XmlScan::Part::end:
      if (names.empty())
        scan.refuse("it names no part");
      return names;
    }
}

void append_part(ShapeFile &whole, const ShapeFile &part, const std::string &file)
{
  const std::size_t before = whole.points.size();
  if (part.points.size() > most_shape_points - before)
    throw InputError(fmt::format("{}: with it the shape has more than {} points. Push the "
                                 "case again.",
                                 file, most_shape_points));
  if (before == 0)
  {
    whole = part;
    return;
  }
  bool alike = part.arrays.size() == whole.arrays.size();
  for (const auto &[name, values] : part.arrays)
    alike = alike && whole.has(name);
  if (!alike)
    throw InputError(file + ": it holds other arrays than the parts before it. Push the "
                            "case again.");
  whole.points.insert(whole.points.end(), part.points.begin(), part.points.end());
  whole.types.insert(whole.types.end(), part.types.begin(), part.types.end());
  for (std::vector<std::size_t> cell : part.cells)
  {
    for (std::size_t &corner : cell)
      corner += before;
    whole.cells.push_back(std::move(cell));
  }
  for (const auto &[name, values] : part.arrays)
  {
    std::vector<double> &all = whole.arrays.at(name);
    all.insert(all.end(), values.begin(), values.end());
  }
}
} // namespace throughbend
