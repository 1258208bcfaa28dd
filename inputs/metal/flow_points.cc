#include "inputs/metal/flow_points.h"

#include "inputs/text/plain_text.h"
#include "inputs/units/units.h"

namespace throughbend
{
namespace
{
constexpr const char *notation =
    "write strain:stress pairs as in '0:250 MPa, 0.02:300 MPa'";
}

FlowTable read_flow_points(std::string_view text)
{
  FlowTable table;
  for (std::size_t start = 0; start <= text.size();)
  {
    const std::size_t      comma = std::min(text.find(',', start), text.size());
    const std::string_view pair  = trimmed(text.substr(start, comma - start));
    start                        = comma + 1;

    const std::string which = "point " + std::to_string(table.points.size() + 1) + ": ";
    const std::size_t colon = pair.find(':');
    if (colon == std::string_view::npos)
    {
      table.error = which + "'" + clipped(pair, 30) + "' has no colon; " + notation;
      return table;
    }
    const Quantity strain = read_quantity(pair.substr(0, colon), UnitKind::ratio);
    const Quantity stress = read_quantity(pair.substr(colon + 1), UnitKind::stress);
    if (!strain.ok() || !stress.ok())
    {
      table.error =
          which + (strain.ok() ? "stress " + stress.error : "strain " + strain.error);
      return table;
    }
    table.points.push_back({strain.value, stress.value});
  }
  return table;
}

std::string exact_text(const std::vector<FlowPoint> &points)
{
  std::string text;
  for (const FlowPoint &point : points)
    text += (text.empty() ? "" : ", ") + exact_text(point.plastic_strain, UnitKind::ratio) +
            ":" + exact_text(point.stress, UnitKind::stress);
  return text;
}
} // namespace throughbend
