#include "postprocess/drawing/tool_outline.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace throughbend
{
namespace
{
constexpr double pi = 3.14159265358979323846;

/// Where the piece meets the line dot(normal, point) = limit, in the order along the piece.
std::vector<PlaneVector> crossings(const OutlinePiece &piece, const PlaneVector normal,
                                   const double limit)
{
  const double start = dot(normal, piece.from) - limit;
  const double end   = dot(normal, piece.to) - limit;
  if (piece.radius <= 0)
    return start * end < 0
               ? std::vector<PlaneVector>{piece.from +
                                          start / (start - end) * (piece.to - piece.from)}
               : std::vector<PlaneVector>{};

  const double off  = limit - dot(normal, piece.centre);
  const double half = piece.radius * piece.radius - off * off;
  if (half <= 0)
    return {};
  const PlaneVector        along = {-normal.y, normal.x};
  const PlaneVector        chord = piece.to - piece.from, out = {chord.y, -chord.x};
  std::vector<PlaneVector> found;
  for (const double sign : {-1., 1.})
  {
    const PlaneVector at = piece.centre + off * normal + sign * std::sqrt(half) * along;
    // On the arc, not on the rest of its circle: outside of the chord.
    if (dot(at - piece.from, out) > 1e-12 * dot(chord, chord))
      found.push_back(at);
  }
  std::sort(found.begin(), found.end(),
            [&](PlaneVector a, PlaneVector b)
            { return dot(a - piece.from, chord) < dot(b - piece.from, chord); });
  return found;
}
} // namespace

Outline outline_of(const RigidProfile &profile)
{
  const std::vector<PlaneVector> ends = profile.outline(0.5001 * pi);
  Outline                        outline;
  for (std::size_t i = 0; i < ends.size(); ++i)
  {
    const PlaneVector from = ends[i], to = ends[(i + 1) % ends.size()];
    const PlaneVector chord = to - from;
    const double      span  = length(chord);
    if (span < 1e-9)
      continue;
    // Seen from far outside above the chord's middle, a line's foot is that middle, and an
    // arc's foot the middle of the arc.
    const PlaneVector out  = {chord.y / span, -chord.x / span};
    const PlaneVector far  = 0.5 * (from + to) + span * out;
    const Proximity   foot = profile.proximity(far);
    OutlinePiece      piece{from, to, 0, {}, false};
    if (foot.curvature > 0 && foot.gap < span * (1 - 1e-9))
    {
      piece.radius = 1 / foot.curvature;
      piece.centre = far - (foot.gap + piece.radius) * foot.normal;
    }
    outline.push_back(piece);
  }
  return outline;
}

Outline cut_off(const Outline &outline, const PlaneVector normal, const double limit)
{
  Outline kept;
  for (const OutlinePiece &piece : outline)
  {
    std::vector<PlaneVector> stops = {piece.from};
    for (const PlaneVector at : crossings(piece, normal, limit))
      stops.push_back(at);
    stops.push_back(piece.to);
    for (std::size_t i = 0; i + 1 < stops.size(); ++i)
    {
      OutlinePiece part  = piece;
      part.from          = stops[i];
      part.to            = stops[i + 1];
      PlaneVector middle = 0.5 * (part.from + part.to);
      if (part.radius > 0)
      {
        const PlaneVector out = middle - part.centre;
        middle                = part.centre + (part.radius / length(out)) * out;
      }
      if (dot(normal, middle) <= limit && length(part.to - part.from) > 1e-9)
        kept.push_back(part);
    }
  }
  // A convex outline is opened at one place at most; a straight cut closes it.
  for (std::size_t i = 0; i < kept.size(); ++i)
  {
    const PlaneVector from = kept[i].to, to = kept[(i + 1) % kept.size()].from;
    if (length(to - from) > 1e-6)
    {
      kept.insert(kept.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                  {from, to, 0, {}, true});
      break;
    }
  }
  return kept;
}

std::vector<std::pair<PlaneVector, PlaneVector>>
hatch_lines(const Outline &outline, const double angle, const double spacing)
{
  if (outline.empty())
    return {};
  const PlaneVector normal = {-std::sin(angle), std::cos(angle)};
  double            low = dot(normal, outline.front().from), high = low;
  for (const OutlinePiece &piece : outline)
  {
    const PlaneVector middle =
        piece.radius > 0 ? piece.centre + piece.radius * normal : piece.from;
    const PlaneVector other =
        piece.radius > 0 ? piece.centre - piece.radius * normal : piece.from;
    low  = std::min({low, dot(normal, piece.from), dot(normal, other)});
    high = std::max({high, dot(normal, piece.from), dot(normal, middle)});
  }
  std::vector<std::pair<PlaneVector, PlaneVector>> lines;
  // Off the origin, where corners of symmetric tools lie.
  for (double at = (std::ceil(low / spacing) + 0.37) * spacing; at < high; at += spacing)
  {
    std::vector<PlaneVector> ends;
    for (const OutlinePiece &piece : outline)
      for (const PlaneVector end : crossings(piece, normal, at))
        ends.push_back(end);
    if (ends.size() == 2)
      lines.emplace_back(ends[0], ends[1]);
  }
  return lines;
}
} // namespace throughbend
