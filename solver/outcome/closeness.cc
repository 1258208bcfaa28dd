#include "solver/outcome/closeness.h"

#include "inputs/units/display_units.h"
#include "solver/outcome/exit.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
using Measure = Evidence::Measure;

// Of the default meshes against strict settings, the largest differences rounded up
// (tests/verify/figure_bands.md): of the ram force [-], and of the travel at which a coupon
// is out, over its thickness [-].
constexpr double force_error = 0.02, travel_error = 0.06;

// Two passes of one coupon, one the other's mirror image, slipped out with a leg at 44 and
// at 46 deg (an offset of 6 mm on a 125 mm coupon, quick mesh).
constexpr double angle_error = 3; // [deg]

bool is_ironed(const Finding &finding)
{
  return (finding.beyond && finding.beyond->leg_ironed) ||
         has_event(finding.events, EventKind::ironed);
}

/// The ram's capacity lies within the ripple about the largest force, or within the
/// numerical error: with a little more or less of it the finding would be another.
void weigh_force(const PassSetup &setup, const CoursePeak &peak, Finding &finding)
{
  const double limit   = std::min(setup.ram.capacity, setup.force.wrecking);
  const double away    = std::abs(peak.force - limit);
  const bool   ripples = peak.band > 0 && away <= peak.band;
  // What a ram that has given all would have to give must be known.
  const bool known = finding.outcome != Outcome::over_capacity ||
                     (finding.beyond && finding.beyond->end != BeyondEnd::not_known);
  // The force that irons a leg grows with finer cells, and never falls.
  const double error = is_ironed(finding) && peak.force < limit
                           ? std::max(force_error, lack_of_ironing_force(setup))
                           : force_error;
  if (!ripples && !(known && away <= error * limit))
    return;
  finding.close = ripples ? "the ripple of the computed ram force"
                          : "the numerical error of the ram force";
  finding.account << (ripples ? " The finding is close: the largest force of the smooth "
                                "course is "
                              : " The finding is close: the largest force is ");
  finding.account.add(Measure::force, peak.force);
  if (ripples)
  {
    finding.account << ", and the computed force ripples by ";
    finding.account.add(Measure::force, peak.band) << " about it, which reaches ";
  }
  else
    finding.account << ", within its numerical error of " + percent_text(error) + " of ";
  finding.account.add(Measure::force, limit)
      << (limit < setup.ram.capacity ? ", at which a coupon counts as jammed."
                                     : ", the ram's capacity.");
}

/// The coupon is out so little before the end of the stroke, or so nearly out there, that
/// another mesh could say otherwise.
void weigh_travel(const PassSetup &setup, const PassSample &now, Finding &finding)
{
  const double error = travel_error * setup.coupon.thickness;
  const double left  = setup.ram.stroke - now.travel;
  const double lack  = std::max(now.left.tip_y, now.right.tip_y) - setup.last_tangent();
  const bool   out   = finding.outcome == Outcome::through && left <= error;
  if (!out && !(finding.outcome == Outcome::stroke_out && lack <= error))
    return;
  finding.close = "the numerical error of the travel";
  finding.account << " The finding is close: ";
  if (out)
    finding.account.add(Measure::room, left) << " of the stroke are left";
  else
    finding.account << "the coupon is all but out at the end of the stroke";
  finding.account << ", and the travel is known to ";
  finding.account.add(Measure::room, error) << ".";
}

/// A leg stands so nearly at the angle from which a coupon counts as bent that another mesh
/// could say otherwise.
void weigh_angle(const PassSetup &setup, const PassSample &now, Finding &finding)
{
  const double angle = std::min(now.left.angle, now.right.angle);
  const bool   loose =
      finding.outcome == Outcome::stroke_out
            ? !is_held(setup, now)
            : finding.outcome == Outcome::through || finding.outcome == Outcome::dropped;
  if (!loose || std::abs(angle - unbent_angle) > angle_error)
    return;
  finding.close = "the angle of the legs";
  finding.account << " The finding is close: a leg stands at ";
  finding.account.add(Measure::angle, angle) << ", and a coupon counts as bent from ";
  finding.account.add(Measure::angle, unbent_angle) << " on.";
}
} // namespace

double lack_of_ironing_force(const PassSetup &setup)
{
  if (setup.coupon.dimension == 3)
    return 0.12;
  switch (setup.coupon.cells)
  {
  case MeshLevel::quick:
    return 0.12;
  case MeshLevel::standard:
    return 0.06;
  case MeshLevel::fine:
    break;
  }
  return 0.03;
}

void weigh_closeness(const PassSetup &setup, const CoursePeak &peak, const PassSample &now,
                     Finding &finding)
{
  weigh_force(setup, peak, finding);
  weigh_travel(setup, now, finding);
  weigh_angle(setup, now, finding);
}
} // namespace throughbend
