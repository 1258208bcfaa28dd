#include "solver/outcome/metal_answer.h"

#include "inputs/case/zone_flow.h"
#include "inputs/units/display_units.h"
#include "meshes/coupon/coupon_shape.h"
#include "solver/outcome/strain_error.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
using Measure = Evidence::Measure;

/// The zone that comes closest to its limit, or passes it by most; one that is beyond as a
/// whole before those of which only a point is.
struct Closest
{
  FaceZone                      zone = FaceZone::left_base;
  std::optional<DuctilityLimit> limit;
  double strain = 0, used = -1; ///< log strain [-], over the limit [-]
  double across   = 0;          ///< from the mid-width [mm]
  bool   as_whole = false;      ///< beyond
};

/// A log strain in the limit's measure over the limit [-].
double used(const DuctilityLimit &limit, const double strain)
{
  return (limit.measure == DuctilityLimit::Measure::elongation ? std::expm1(strain)
                                                               : strain) /
         limit.value;
}

/// Whether the bent part of a zone is stretched by more than its limit on the mean, at
/// mid-width or along the edge of a body, or nobody knows: a tension test spreads its
/// elongation over a gauge, and a point bears more than that.
bool is_beyond_as_a_whole(const FaceZone which, const DuctilityLimit &limit,
                          const std::vector<FaceFigures> &faces)
{
  if (limit.measure == DuctilityLimit::Measure::local_strain)
    return true;
  bool       known   = false;
  const auto is_more = [&](const FaceZone zone, const double mean)
  {
    if (zone_words(zone) != zone_words(which) || !std::isfinite(mean))
      return false;
    known = true;
    return mean > limit.value;
  };
  for (const FaceFigures &face : faces)
  {
    for (const ZoneFigures &zone : face.zones)
      if (is_more(zone.peak.zone, zone.bent_mean))
        return true;
    for (const EdgeMean &mean :
         face.across ? face.across->edge_means : std::vector<EdgeMean>())
      if (is_more(mean.zone, mean.elongation))
        return true;
  }
  return !known;
}

void see(Closest &closest, const Closest &seen)
{
  if (seen.as_whole != closest.as_whole ? seen.as_whole : seen.used > closest.used)
    closest = seen;
}

void tell_open_flaws(const std::vector<FlawFigures> &flaws, MetalAnswer &answer)
{
  for (const FlawFigures &flaw : flaws)
    if (flaw.passed_at)
    {
      answer.verdict = MetalVerdict::beyond;
      answer.account << "The " << flaw.name << " opens ";
      answer.account.add(Measure::room, flaw.opening) << ", beyond the limit of ";
      answer.account.add(Measure::room, flaw.limit) << ". ";
    }
}

/// The flaw at the convex face whose opening comes closest to its limit; null: none does.
const FlawFigures *closest_flaw(const std::vector<FlawFigures> &flaws)
{
  const FlawFigures *closest = nullptr;
  for (const FlawFigures &flaw : flaws)
    if (flaw.at_convex && flaw.limit > 0 &&
        (closest == nullptr ||
         flaw.opening * closest->limit > closest->opening * flaw.limit))
      closest = &flaw;
  return closest;
}

/// The zones of a face that a place on it [mm] belongs to: two where they meet.
std::vector<const ZoneFigures *> zones_at(const FaceFigures &face, const double place)
{
  constexpr double                 close = 1e-6;
  std::vector<const ZoneFigures *> found;
  bool                             inside = false; // not where two meet
  for (const ZoneFigures &zone : face.zones)
    if (!is_base(zone.peak.zone) && place > zone.from - close && place < zone.to + close)
    {
      found.push_back(&zone);
      inside = inside || (place > zone.from + close && place < zone.to - close);
    }
  if (!inside && found.size() < 2)
    for (const ZoneFigures &zone : face.zones)
      if (is_base(zone.peak.zone))
        found.push_back(&zone);
  return found;
}

/// The zone that the largest strain of the whole pass was in, which need not be a moment
/// that was kept. Where zones meet: the one whose own largest strain lies nearest.
std::optional<FaceZone> zone_of_largest(const std::vector<FaceFigures> &faces,
                                        const KeyFigures               &figures)
{
  std::optional<FaceZone> zone;
  double                  nearest = std::numeric_limits<double>::infinity();
  const auto              weigh   = [&](const FacePeak &peak)
  {
    const double away = std::abs(peak.position - figures.outer_strain_at);
    if (std::isfinite(peak.strain) && away < nearest)
    {
      nearest = away;
      zone    = peak.zone;
    }
  };
  for (const FaceFigures &face : faces)
    for (const ZoneFigures *const each : zones_at(face, figures.outer_strain_at))
      weigh(each->peak);
  return zone;
}

Evidence limit_words(const Closest &closest)
{
  const bool elongation = closest.limit->measure == DuctilityLimit::Measure::elongation;
  Evidence   words;
  words << (elongation ? "stretched by " + percent_text(std::expm1(closest.strain))
                       : "log strain " + decimal_text(closest.strain, 3));
  if (closest.across > 0)
  {
    words << " at ";
    words.add(Measure::length, closest.across) << " from the mid-width";
  }
  words << (elongation ? ", its stated elongation is " + percent_text(closest.limit->value)
                       : ", its stated limit is " + decimal_text(closest.limit->value, 3));
  return words;
}
/// What a ram that is strong enough would ask of the metal, where some zone does not bear
/// it. Which zone it falls to is not said: only the largest of the face is known.
std::string stronger_ram_words(const Case &c, const Finding &finding)
{
  if (!finding.beyond || finding.beyond->end == BeyondEnd::not_known)
    return "";
  const double strain = finding.beyond->face_strain;
  std::string  zones;
  for (const FaceZone zone : {FaceZone::weld, FaceZone::right_haz, FaceZone::right_base})
  {
    const bool there =
        zone == FaceZone::right_base ||
        (c.weld.present() && (zone == FaceZone::weld || c.weld.haz_width > 0));
    const auto limit = there ? ductility_limit(c, zone) : std::nullopt;
    if (limit && used(*limit, strain) > 1)
      zones += (zones.empty() ? "" : ", ") + zone_words(zone);
  }
  return zones.empty()
             ? ""
             : " A ram that is strong enough stretches the convex face by up to " +
                   percent_text(std::expm1(strain)) +
                   ", beyond the stated limit of: " + zones + ".";
}
} // namespace

std::string to_text(const MetalVerdict verdict)
{
  switch (verdict)
  {
  case MetalVerdict::within:
    return "within";
  case MetalVerdict::beyond:
    return "beyond";
  case MetalVerdict::not_known:
    break;
  }
  return "not known";
}

MetalAnswer metal_answer(const Case &c, const Finding &finding, const KeyFigures &figures,
                         const std::vector<FaceFigures> &faces,
                         const std::vector<FlawFigures> &flaws)
{
  MetalAnswer answer;
  if (finding.outcome == Outcome::undecided)
  {
    // A record that holds as far as it goes has seen what it has seen.
    if (finding.accuracy.trust != Trust::broken)
      tell_open_flaws(flaws, answer);
    answer.account << "The pass has no finding, so its strains do not clear the metal.";
    return answer;
  }
  const StrainError strains     = strain_error(c, figures, faces);
  const double      opening_off = opening_error(c.mesh.level);
  Closest           closest;
  Closest open; // nearer to its limit than strains are known to, the nearest of them
  std::vector<std::string> without;
  const auto               zone_seen =
      [&](const FaceZone zone, const double strain, const double across = 0)
  {
    if (const auto limit = ductility_limit(c, zone))
    {
      const double share = used(*limit, strain);
      see(closest, {zone, limit, strain, share, across,
                    share > 1 && is_beyond_as_a_whole(zone, *limit, faces)});
      if (const double most = used(*limit, strain * (1 + strains.share)); most > 1)
        see(open, {zone, limit, strain, most, across});
    }
    else if (std::find(without.begin(), without.end(), zone_words(zone)) == without.end())
      without.push_back(zone_words(zone));
  };
  // Without a weld the largest strain of the whole pass is the plate's.
  if (!c.weld.present())
    zone_seen(FaceZone::left_base, figures.outer_strain);
  for (const FaceFigures &face : faces)
    for (const ZoneFigures &zone : face.zones)
      if (std::isfinite(zone.peak.strain))
        zone_seen(zone.peak.zone, zone.peak.strain);
      else
        without.push_back(zone_words(zone.peak.zone));
  if (c.weld.present() && faces.empty())
    without.push_back("weld");
  // A body is stretched most at its edges, and may show other metals there.
  std::vector<std::string> unseen;
  for (const FaceFigures &face : faces)
    for (const FacePeak &peak : face.across ? face.across->metals : std::vector<FacePeak>())
    {
      const auto limit = ductility_limit(c, peak.zone);
      if (std::isfinite(peak.strain))
        zone_seen(peak.zone, peak.strain, peak.across);
      else if (!limit)
        zone_seen(peak.zone, 0);
      else if (used(*limit, face.across->largest.strain * (1 + strains.share)) > 1)
        unseen.push_back(zone_words(peak.zone));
    }
  if (const auto zone = zone_of_largest(faces, figures))
    zone_seen(*zone, figures.outer_strain);
  if (const auto &width = figures.width)
    zone_seen(face_metal(c, width->largest_at, width->largest_across),
              width->largest_strain, width->largest_across);

  tell_open_flaws(flaws, answer);
  if (closest.used > 1)
  {
    answer.verdict = MetalVerdict::beyond;
    answer.account << "The " << zone_words(closest.zone)
                   << " is beyond its stated limit: " << limit_words(closest) << ". "
                   << (closest.as_whole
                           ? "Expect it to tear."
                           : "That elongation is a mean over a gauge, and on the mean over "
                             "its bent part the zone keeps to it: whether the point "
                             "tears is not known. Bend one behind a guard.");
  }
  if (answer.verdict == MetalVerdict::beyond)
    return answer;
  if (!without.empty() || closest.used < 0)
  {
    std::string zones;
    for (const std::string &zone : without)
      zones += (zones.empty() ? "" : ", ") + zone;
    answer.account << "No elongation or limit strain is given for: "
                   << (zones.empty() ? "base plate" : zones)
                   << ". Whether the metal bears a stretch of "
                   << percent_text(figures.face_elongation) << " is not known.";
    return answer;
  }
  if (c.mesh.dimension == 3 && faces.empty())
  {
    answer.account << "No strains across the width were recorded, and a body is stretched "
                      "most at its edges.";
    return answer;
  }
  if (!unseen.empty())
  {
    answer.account << "The " << unseen.front() << " is stretched by up to "
                   << percent_text(figures.face_elongation)
                   << " somewhere across the width, which is more than its stated limit or "
                      "nearer to it than strains are known to. How much of that it bears "
                      "itself is not known.";
    return answer;
  }
  if (finding.outcome == Outcome::dropped || finding.part_bent)
  {
    answer.account << "The coupon was not bent to a U, so this pass does not try its metal."
                   << stronger_ram_words(c, finding);
    return answer;
  }
  const FlawFigures *const flaw        = closest_flaw(flaws);
  const bool               strain_open = open.limit.has_value();
  // Of limits of both kinds the zone that is open need not be the closest.
  if (strain_open && std::isfinite(strains.share))
    closest = open;
  if (flaw != nullptr && !strain_open && flaw->opening > closest.used * flaw->limit)
  {
    answer.account << "The " << flaw->name << " comes closest to its limit: it opens ";
    answer.account.add(Measure::room, flaw->opening) << ", and the limit is ";
    answer.account.add(Measure::room, flaw->limit) << ".";
    if (flaw->opening * (1 + opening_off) > flaw->limit)
    {
      answer.account << " That is nearer than the numerical error of openings on this "
                        "mesh, "
                     << percent_text(opening_off)
                     << ", and a real flaw may tear on: whether it keeps to its limit is "
                        "not known.";
      return answer;
    }
  }
  else
    answer.account << "The " << zone_words(closest.zone)
                   << " comes closest to its limit: " << limit_words(closest) << ".";
  if (strain_open && !std::isfinite(strains.share))
  {
    answer.account
        << (strength_jumps(c)
                ? " But strength jumps where the zones meet (weld.transition is 0), and "
                  "strain there grows with every finer mesh: whether the metal keeps to "
                  "its limit is not known. Give the transition a width."
                : " But the bend gathers in a kink, whose strain depends on the mesh: "
                  "whether the metal keeps to its limit is not known. Bend one behind a "
                  "guard.");
    return answer;
  }
  if (strain_open)
  {
    answer.account << " That is nearer than the numerical error of strains on this mesh, " +
                          percent_text(strains.share) +
                          ": whether it keeps to its limit is not known. " +
                          (strains.finer_mesh_helps ? "A finer mesh may tell."
                                                    : "Bend one behind a guard.");
    return answer;
  }
  if (finding.accuracy.trust != Trust::sound)
  {
    answer.account
        << " But the figures of this pass are of low accuracy, and clear no metal.";
    return answer;
  }
  answer.verdict = MetalVerdict::within;
  if (c.mesh.dimension == 2)
    answer.account << " This is the mid-width: the free edges, which a plane model leaves "
                      "out, are stretched more.";
  return answer;
}

std::string strain_place_remark(const Case &c, const Finding &finding,
                                const double position, const double travel)
{
  const double t = c.coupon.thickness;
  for (const PassEvent &event : finding.events)
    if (event.kind == EventKind::ironed && travel >= event.from && travel <= event.to &&
        std::abs(position) > c.fixture.plunger.width / 2)
      return "in a leg while it is ironed";
  if (!c.weld.present())
    return "";
  const CouponShape shape(c, Extent::full);
  const double      here = position + c.coupon.offset;
  for (const Seam &seam : shape.seams())
    if (seam.opens_below() &&
        std::abs(here - shape.line(shape.lines()[seam.line], 0)) < t / 4)
      return "at the mouth of " + flaw_section(seam.flaw);
  if (strength_jumps(c))
    for (const MeshLine &line : shape.lines())
      if (std::abs(here - shape.line(line, 0)) < t / 4)
        return "beside a jump of strength";
  if ((shape.bottom(here - t / 4) < 0) != (shape.bottom(here + t / 4) < 0))
    return "at the toe of what is left standing on the convex face";
  return "";
}
} // namespace throughbend
