#include "solver/outcome/face_figures.h"

#include "inputs/units/nominal_strain.h"
#include "meshes/coupon/coupon_shape.h"
#include "solver/outcome/coupon_end.h"
#include "solver/outcome/face_across.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <tuple>

namespace throughbend
{
namespace
{
constexpr double bent_share = 0.5; // of the nominal elongation, plunger a half round

/// The convex face from left to right, mirrored where half was modelled.
Rows whole_face(const std::vector<SurfaceRow> &rows, const Extent extent)
{
  Rows face;
  for (const SurfaceRow &row : rows)
    if (row.face == Face::convex)
    {
      face.push_back(row);
      if (extent == Extent::half)
      {
        face.push_back(row);
        face.back().position = -row.position;
        face.back().x        = -row.x;
        if (auto &across = face.back().across)
        {
          across->edge_shift    = -across->edge_shift;
          across->largest_shift = -across->largest_shift;
        }
      }
    }
  std::stable_sort(face.begin(), face.end(),
                   [](const SurfaceRow &a, const SurfaceRow &b)
                   { return a.position < b.position; });
  return face;
}

double elongation_at(const SurfaceRow &row)
{
  return std::expm1(row.axial_strain);
}

/// Elongation at a place, straight between rows and constant beyond the outermost.
double elongation_at(const Rows &face, const double position)
{
  const auto after = std::lower_bound(face.begin(), face.end(), position,
                                      [](const SurfaceRow &row, const double place)
                                      { return row.position < place; });
  if (after == face.begin())
    return elongation_at(face.front());
  if (after == face.end())
    return elongation_at(face.back());
  const SurfaceRow &a = *(after - 1), &b = *after;
  const double      share = (position - a.position) / (b.position - a.position);
  return (1 - share) * elongation_at(a) + share * elongation_at(b);
}

/// Growth of a length of the face over that length, by the trapezium rule [-].
double mean_elongation(const Rows &face, const double from, const double to)
{
  double     growth = 0, before = from, value = elongation_at(face, from);
  const auto go_to = [&](const double place, const double there)
  {
    growth += (place - before) * (value + there) / 2;
    before = place;
    value  = there;
  };
  for (const SurfaceRow &row : face)
    if (row.position > from && row.position < to)
      go_to(row.position, elongation_at(row));
  go_to(to, elongation_at(face, to));
  return growth / (to - from);
}

/// On a tie the right one, which is the side that a half model computes.
void take_if_larger(FacePeak &peak, const SurfaceRow &row, const FaceZone zone)
{
  if (!(row.axial_strain < peak.strain))
    peak = {zone, row.axial_strain, row.position, row.triaxiality};
}

/// Mean over the base plate's bent stretches on both sides.
void mean_of_base(ZoneFigures &base, const std::vector<FaceStretch> &stretches,
                  const FaceFigures &figures, const Rows &face)
{
  double length = 0, growth = 0;
  if (std::isnan(figures.bend_from))
    return;
  for (const FaceStretch &s : stretches)
    if (is_base(s.zone))
    {
      const double from = std::max(s.from, figures.bend_from);
      const double to   = std::min(s.to, figures.bend_to);
      if (!(to > from))
        continue;
      length += to - from;
      growth += (to - from) * mean_elongation(face, from, to);
    }
  if (length > 0)
    base.mean_elongation = base.bent_mean = growth / length;
  base.from = figures.bend_from;
  base.to   = figures.bend_to;
}

void use_ductility(ZoneFigures &zone, const Case &c)
{
  zone.limit = ductility_limit(c, zone.peak.zone);
  if (zone.limit)
    zone.ductility_used =
        (zone.limit->measure == DuctilityLimit::Measure::elongation ? zone.peak.elongation()
                                                                    : zone.peak.strain) /
        zone.limit->value;
}
/// The less of what a zone, or all of them, have at mid-width and along the free edge. A
/// half model's rows are mirrored: a HAZ on either side stands for itself.
void heed_edge(FaceFigures &figures)
{
  const AcrossFigures &across = *figures.across;
  for (const EdgeStretch &edge : across.edge_zones)
  {
    const double inside =
        std::min(edge.from - across.edge_bend_from, across.edge_bend_to - edge.to);
    for (ZoneFigures &zone : figures.zones)
      if (zone.peak.zone == edge.zone)
        zone.inside_bend = std::min(zone.inside_bend, inside);
    figures.weld_inside_bend = std::min(figures.weld_inside_bend, inside);
  }
}
} // namespace

std::string to_text(const DuctilityLimit::Measure measure)
{
  switch (measure)
  {
  case DuctilityLimit::Measure::elongation:
    return "tension elongation";
  case DuctilityLimit::Measure::local_strain:
    return "local log strain";
  }
  throw std::logic_error("there is no such measure of ductility");
}

std::optional<DuctilityLimit> ductility_limit(const Case &c, const FaceZone zone)
{
  using Measure         = DuctilityLimit::Measure;
  const ZoneFlow &flow  = zone == FaceZone::weld ? c.weld.metal_flow : c.weld.haz_flow;
  const double    local = is_base(zone) ? c.material.limit_strain : flow.limit_strain;
  const double    gauge = is_base(zone) ? c.material.elongation : flow.elongation;
  if (local > 0)
    return DuctilityLimit{Measure::local_strain, local};
  if (gauge > 0)
    return DuctilityLimit{Measure::elongation, gauge};
  return std::nullopt;
}

std::string zone_words(const FaceZone zone)
{
  return zone == FaceZone::weld                                      ? "weld"
         : zone == FaceZone::left_haz || zone == FaceZone::right_haz ? "HAZ"
                                                                     : "base plate";
}

std::string zone_name(const FaceZone zone)
{
  switch (zone)
  {
  case FaceZone::left_base:
  case FaceZone::right_base:
    return "base";
  case FaceZone::left_haz:
    return "left_haz";
  case FaceZone::weld:
    return "weld";
  case FaceZone::right_haz:
    return "right_haz";
  }
  throw std::logic_error("there is no such zone of the face");
}

double FacePeak::elongation() const
{
  return std::expm1(strain);
}

const ZoneFigures *FaceFigures::zone(const FaceZone which) const
{
  for (const ZoneFigures &each : zones)
    if (zone_name(each.peak.zone) == zone_name(which))
      return &each;
  return nullptr;
}

double FaceFigures::from_weld_middle(const double position) const
{
  return position - weld_middle;
}

double FaceFigures::from_fusion_line(const double position) const
{
  return std::isfinite(fusion_left)
             ? std::max(fusion_left - position, position - fusion_right)
             : unknown_figure;
}

double FaceFigures::over_nominal(const double elongation) const
{
  return elongation / nominal_elongation;
}

double FaceFigures::over_base(const FaceZone which) const
{
  const ZoneFigures *const base = zone(FaceZone::left_base), *const other = zone(which);
  return base != nullptr && other != nullptr && base->peak.elongation() > 0
             ? other->peak.elongation() / base->peak.elongation()
             : unknown_figure;
}

FaceZone face_metal(const Case &c, const double position, const double across)
{
  return FaceMetals(c).at(position, across);
}

std::optional<FaceFigures> face_figures(const Case &c, const std::vector<SurfaceRow> &rows,
                                        const double travel)
{
  Rows face = whole_face(rows, model_extent(c));
  face.erase(std::remove_if(face.begin(), face.end(),
                            [&](const SurfaceRow &row)
                            { return is_at_an_end(c.coupon, row.position); }),
             face.end());
  if (face.empty())
    return std::nullopt;

  FaceFigures figures;
  figures.travel = travel;
  figures.nominal_elongation =
      nominal_strain(c.fixture.plunger.bend_diameter(), c.coupon.thickness);
  // Of a flat nose, too: between its corners less is bent.
  const double least =
      bent_share * nominal_strain(c.fixture.plunger.width, c.coupon.thickness);
  std::tie(figures.bend_from, figures.bend_to) = bend_ends(
      face, [](const SurfaceRow &row) { return row.position; },
      [](const SurfaceRow &row) { return elongation_at(row); }, least);

  const std::vector<FaceStretch> stretches = face_stretches(c);
  if (face.front().across)
  {
    const FaceMetals metals(c);
    figures.across = across_of(face, metals, {figures.bend_from, figures.bend_to, least});
  }
  if (const std::optional<double> middle = weld_middle(stretches))
  {
    figures.weld_middle  = *middle;
    figures.gauge_length = c.inspection.gauge_length;
    if (figures.gauge_length > 0)
      figures.gauge_mean = mean_elongation(face, *middle - figures.gauge_length / 2,
                                           *middle + figures.gauge_length / 2);
  }

  double                     weld_from = 1e300, weld_to = -1e300;
  std::optional<ZoneFigures> base;
  std::vector<ZoneFigures>   others;
  for (const FaceStretch &s : stretches)
  {
    FacePeak peak;
    for (const SurfaceRow &row : face)
      if (row.position >= s.from && row.position < s.to)
        take_if_larger(peak, row, s.zone);
    if (std::isnan(peak.strain)) // no point of the mesh lies in it
      continue;
    if (!(peak.strain < figures.peak.strain))
      figures.peak = peak;
    if (is_base(s.zone))
    {
      if (!base)
        base.emplace();
      if (!(peak.strain < base->peak.strain))
        base->peak = peak;
      continue;
    }
    ZoneFigures zone;
    zone.peak            = peak;
    zone.from            = s.from;
    zone.to              = s.to;
    zone.mean_elongation = mean_elongation(face, s.from, s.to);
    if (const double from = std::max(s.from, figures.bend_from),
        to                = std::min(s.to, figures.bend_to);
        to > from) // false where there is no bend
      zone.bent_mean = mean_elongation(face, from, to);
    if (std::isfinite(figures.weld_middle))
      zone.inside_bend = std::min(s.from - figures.bend_from, figures.bend_to - s.to);
    weld_from = std::min(weld_from, s.from);
    weld_to   = std::max(weld_to, s.to);
    if (s.zone == FaceZone::weld && std::isfinite(figures.weld_middle))
    {
      figures.fusion_left  = s.from;
      figures.fusion_right = s.to;
    }
    others.push_back(zone);
  }
  if (base)
  {
    mean_of_base(*base, stretches, figures, face);
    figures.zones.push_back(*base);
  }
  figures.zones.insert(figures.zones.end(), others.begin(), others.end());
  for (ZoneFigures &zone : figures.zones)
    use_ductility(zone, c);
  if (std::isfinite(figures.weld_middle))
    figures.weld_inside_bend =
        std::min(weld_from - figures.bend_from, figures.bend_to - weld_to);
  if (figures.across && std::isfinite(figures.weld_inside_bend) &&
      std::isfinite(figures.across->edge_bend_from))
    heed_edge(figures);
  return figures;
}
} // namespace throughbend
