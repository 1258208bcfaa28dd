#include "solver/outcome/face_across.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <tuple>
#include <utility>

namespace throughbend
{
namespace
{
/// Of rows that have a width, over the bend.
std::vector<FacePeak> peaks_of_metals(const Rows &face, const FaceMetals &metals,
                                      const BentStretch &bend)
{
  std::vector<FacePeak> peaks;
  if (std::isnan(bend.from))
    return peaks;
  for (const FaceZone zone : metals.between(bend.from, bend.to))
    peaks.push_back({zone, unknown_figure, unknown_figure, unknown_figure});
  const auto see = [&](const FacePeak &seen)
  {
    for (FacePeak &peak : peaks)
      if (zone_words(peak.zone) == zone_words(seen.zone) && !(seen.strain < peak.strain))
        peak = seen;
  };
  std::vector<std::string> followed; // along mid-width or edge
  for (const SurfaceRow &row : face)
  {
    const AcrossRow &across  = *row.across;
    const double     at_edge = row.position + across.edge_shift,
                 at_largest  = row.position + across.largest_shift;
    const FaceZone middle    = metals.at(row.position, 0),
                   edge      = metals.at(at_edge, metals.half_width());
    see({middle, row.axial_strain, row.position, row.triaxiality});
    see({edge, across.edge_axial_strain, at_edge, across.edge_triaxiality,
         metals.half_width()});
    see({metals.at(at_largest, across.largest_across), across.largest_axial_strain,
         at_largest, across.largest_triaxiality, across.largest_across});
    followed.push_back(zone_words(middle));
    followed.push_back(zone_words(edge));
  }
  // A HAZ that runs along the coupon between the two is seen only where a row's largest
  // happens to lie in it, often at the foot of the bend: that is not its peak.
  for (FacePeak &peak : peaks)
    if (std::find(followed.begin(), followed.end(), zone_words(peak.zone)) ==
        followed.end())
      peak = {peak.zone, unknown_figure, unknown_figure, unknown_figure};
  return peaks;
}

/// Of the parts of the free edge that are bent, each row standing for half the way to its
/// neighbours.
std::vector<EdgeMean> means_along_edge(const Rows &face, const FaceMetals &metals,
                                       const BentStretch &bend)
{
  struct Sum
  {
    EdgeMean mean;
    double   length = 0;
  };
  std::vector<Sum> sums;
  const auto       place = [&](const std::size_t i)
  { return face[i].position + face[i].across->edge_shift; };
  for (std::size_t i = 0; i < face.size(); ++i)
  {
    const double elongation = std::expm1(face[i].across->edge_axial_strain);
    if (elongation < bend.least)
      continue;
    const double length =
        (place(std::min(i + 1, face.size() - 1)) - place(i - (i > 0))) / 2;
    const FaceZone zone = metals.at(place(i), metals.half_width());
    auto           sum  = std::find_if(sums.begin(), sums.end(),
                                       [&](const Sum &each)
                                       { return zone_words(each.mean.zone) == zone_words(zone); });
    if (sum == sums.end())
      sum = sums.insert(sums.end(), {{zone, 0}, 0});
    sum->length += length;
    sum->mean.elongation += length * elongation;
  }
  std::vector<EdgeMean> means;
  for (const Sum &sum : sums)
    if (sum.length > 0)
      means.push_back({sum.mean.zone, sum.mean.elongation / sum.length});
  return means;
}
} // namespace

std::pair<double, double> bend_ends(const Rows &face, const OfRow &place,
                                    const OfRow &elongation, const double least)
{
  const auto bent  = [&](const SurfaceRow &row) { return elongation(row) >= least; };
  const auto first = std::find_if(face.begin(), face.end(), bent);
  if (first == face.end())
    return {unknown_figure, unknown_figure};
  const auto last     = std::find_if(face.rbegin(), face.rend(), bent).base() - 1;
  const auto crossing = [&](const SurfaceRow &in, const SurfaceRow &out)
  {
    const double share = (elongation(in) - least) / (elongation(in) - elongation(out));
    return place(in) + share * (place(out) - place(in));
  };
  return {first == face.begin() ? place(*first) : crossing(*first, *(first - 1)),
          last + 1 == face.end() ? place(*last) : crossing(*last, *(last + 1))};
}

AcrossFigures across_of(const Rows &face, const FaceMetals &metals, const BentStretch &bend)
{
  AcrossFigures figures;
  figures.edge_across = metals.half_width();
  double nearest      = 1e300;
  for (const SurfaceRow &row : face)
  {
    const AcrossRow &across  = *row.across;
    const double     at_edge = row.position + across.edge_shift,
                 at_largest  = row.position + across.largest_shift;
    if (!(across.edge_axial_strain < figures.edge.strain))
      figures.edge = {metals.at(at_edge, metals.half_width()), across.edge_axial_strain,
                      at_edge, across.edge_triaxiality};
    if (!(across.largest_axial_strain < figures.largest.strain))
    {
      figures.largest        = {metals.at(at_largest, across.largest_across),
                                across.largest_axial_strain, at_largest,
                                across.largest_triaxiality};
      figures.largest_across = across.largest_across;
    }
    if (std::abs(row.x) < nearest)
    {
      nearest                    = std::abs(row.x);
      figures.crown_width_stress = across.width_stress;
    }
  }
  figures.metals     = peaks_of_metals(face, metals, bend);
  figures.edge_means = means_along_edge(face, metals, bend);
  figures.edge_zones = metals.along_edge();
  std::tie(figures.edge_bend_from, figures.edge_bend_to) = bend_ends(
      face, [](const SurfaceRow &row) { return row.position + row.across->edge_shift; },
      [](const SurfaceRow &row) { return std::expm1(row.across->edge_axial_strain); },
      bend.least);
  return figures;
}
} // namespace throughbend
