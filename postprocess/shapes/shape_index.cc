#include "postprocess/shapes/shape_index.h"

#include "postprocess/shapes/xml_scan.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <system_error>

namespace throughbend
{
namespace
{
constexpr std::size_t most_moments = 10'000;
constexpr double      latest       = 1e5; // [mm]

ShapeMoment moment_of(const XmlScan &scan)
{
  const auto  time = scan.attribute("timestep"), file = scan.attribute("file");
  ShapeMoment moment;
  if (!time || !file || file->empty())
    scan.refuse("a shape without timestep or file");
  const auto read = std::from_chars(time->data(), time->data() + time->size(), moment.time);
  if (read.ec != std::errc{} || read.ptr != time->data() + time->size() ||
      !(std::abs(moment.time) <= latest))
    scan.refuse("a timestep that is no travel in mm");
  moment.file = std::string(*file);
  return moment;
}
} // namespace

std::vector<ShapeMoment> shape_moments(const std::string &text, const std::string &file)
{
  XmlScan                  scan(text, file);
  std::vector<ShapeMoment> moments;
  int                      depth = 0;
  while (true)
    switch (scan.next())
    {
    case XmlScan::Part::open:
      ++depth;
      if ((depth == 1 && scan.name() != "VTKFile") ||
          (depth == 2 && scan.name() != "Collection") ||
          (depth == 3 && scan.name() != "DataSet") || depth > 3)
        scan.refuse("an element that no run writes");
      if (depth == 3)
        moments.push_back(moment_of(scan));
      if (moments.size() > most_moments)
        scan.refuse("more shapes than a run keeps");
      break;
    case XmlScan::Part::close:
      --depth;
      break;
    case XmlScan::Part::text:
      break;
    case XmlScan::Part::end:
      std::stable_sort(moments.begin(), moments.end(),
                       [](const ShapeMoment &a, const ShapeMoment &b)
                       { return a.time < b.time; });
      return moments;
    }
}
} // namespace throughbend
