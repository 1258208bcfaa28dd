#include "solver/screening/force_band.h"

#include "inputs/case/zone_flow.h"
#include "inputs/units/nominal_strain.h"
#include "solver/screening/plastic_moment.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace throughbend
{
namespace
{
constexpr double right_angle = 3.14159265358979323846 / 2;
constexpr double upright     = right_angle - 0.005; // [rad]

// What a beam misses, and by how much: from the passes of tests/verify/screening_table.md,
// which `screening_series` writes anew and holds these bands to.
//
// Force. Legs are as short as twice their thickness, so shear and the pressure under the
// nose keep the leg next to it straighter than a slender beam's, and its arm is shorter: a
// few per cent. And the less the metal hardens, the more of the bend stays in a kink under
// the nose's first touch; the coupon then leans on the nose further out, with a still
// shorter arm.
constexpr double force_low = 0.97, force_mean = 1.01, force_high = 1.072;
constexpr double kink_force = 0.003, kink_floor = 0.03;

// A sharp shoulder sinks into the leg until the pressure is that of an indenter, (2 + pi)
// k: Hill (1950), IX.3, with the flow stress at a strain of 0.08: Tabor (1951), The
// Hardness of Metals (both from memory). Where that length is more than a small share of
// the radius the leg is ploughed as it slides and takes more force: 28 passes with radii
// from 1 to 0.2 of the thickness lie in the band with this (tests/solver/screening).
constexpr double bite_free = 0.07, bite_mean = 0.3, bite_high = 0.6;
constexpr double bite_strain = 0.08;
// The upper end: a face that the bend has not strained yet gives way more, the more the
// metal hardens (annealed 304 on shoulders of half the thickness took 4 % more than with
// 0.08).
constexpr double bite_strain_high = 0.02;
constexpr double bite_told        = 0.07; // some 2 % of the force: worth a word

// The nose's first touch: 10 % either way.
constexpr double touch_low = 0.9, touch_high = 1.1;

// Shoulder. As the force; later in the pass, where it is largest, tools that leave little
// room or legs that kink change the arm by more.
constexpr double shoulder_low = 0.82, shoulder_mean = 1.05, shoulder_high = 1.22;

// Strain. The first touch is one line: there the moment exceeds that of the wrapped bar by
// about two per cent before the touch parts in two and moves up the nose. What strain that
// is, is the metal's hardening: d(ln strain) = d(ln moment) / hardening, whole for the
// upper end and in its first term for the rest. Friction on the nose holds the concave
// face; without any the excess is about double. Metals that harden much are stretched more
// than their hardening lets expect, most on a slick nose or with little room (annealed 304,
// friction 0.02 to 0.5: by up to 17 % beyond the wrapped bar).
constexpr double excess_low = 0.003, excess_mean = 0.02, excess_high = 0.033;
constexpr double excess_dry = 0.02, little_friction = 0.05;
constexpr double least_high = 0.15, dry_high = 1.4;
// Below this the face stretches where it first gives, and no closed form says how far.
constexpr double least_hardening = 0.02;

// Springback. All of the wrapped moment let go over the whole half turn; a U that leaves
// has its ends against the walls and has let go a part of it on the way, the more the less
// it hardens. Under a sharp nose more of the leg is bent than wraps it, under a blunt one
// less: in 477 passes drawn at random (37 metals, noses of a third to four thicknesses) the
// medians follow a power of the nose's radius over the thickness, from 1.4 at 0.75 to 0.85
// at 4, and with it they lie between 0.54 and 1.23 of the estimate.
constexpr double spring_low = 0.5, spring_mean = 0.93, spring_high = 1.25;
constexpr double spring_kinked = 0.3, spring_short = 0.18;
constexpr double spring_nose = 2.5, spring_power = 0.3;
// Legs that stay straight over few thicknesses leave the shoulders before they stand, and
// let go little. Long ones are held at their ends, and let go up to twice as much. Of 40
// passes drawn at random all lie in this band.
constexpr double short_leg = 2.5, leg_begins = 4, leg_ends = 20, long_leg = 0.8;
// Of the elastic energy: in the same passes up to 1.5 times the beam's was let go.
constexpr double freed_high = 1.9;

// Between nose and shoulder a leg shorter than this share of its thickness is squeezed
// rather than bent; a beam would let the force grow without end.
constexpr double least_arm = 0.7;

/// With this coefficient at both shoulders; free rollers drag nothing.
Friction acting_friction(const Case &c, const double shoulders)
{
  Friction friction  = c.friction;
  friction.shoulders = c.fixture.shoulders.roll() ? 0 : shoulders;
  return friction;
}

void scale(Banded &banded, const double low, const double high)
{
  banded.low *= low;
  banded.high *= high;
}

/// How far a shoulder sinks into a leg [-]: length of the dent along the leg over the
/// shoulder's radius, less what changes nothing. `load` [N/mm] on the shoulder, `strain` of
/// the face [-].
double bite(const Case &c, const double load, const double strain)
{
  const double pressure =
      (2 + 2 * right_angle) / std::sqrt(3.) * c.material.flow.stress(strain);
  return std::max(0., load / pressure / c.fixture.shoulders.radius - bite_free);
}

/// All forces, and the springback that goes with them.
void widen(ForceBand &band, const double low, const double high)
{
  for (ForcePoint &point : band.points)
    scale(point.force, low, high);
  for (Banded *const each :
       {&band.peak.force, &band.shoulder_force, &band.first_touch, &band.springback})
    scale(*each, low, high);
  band.straight_low *= low;
  band.straight_high *= high;
  band.freed_energy *= high * high;
}

/// Flow stress of the softest and of the strongest zone over the plate's, where the bend
/// strains them [-]. Force is between that of a coupon all of the one and all of the other.
std::pair<double, double> zone_strengths(const Case &c, const double strain)
{
  double least = 1, most = 1;
  for (const double share : {0.1, 0.5, 1.})
    for (const ZoneCurve &zone : zone_curves(c))
    {
      const double ratio =
          zone.curve.stress(share * strain) / c.material.flow.stress(share * strain);
      least = std::min(least, ratio);
      most  = std::max(most, ratio);
    }
  return {least, most};
}

double hardening_at(const BendCurve &curve, const BentStrip &wrapped)
{
  const BentStrip before = curve.at_rotation(0.9 * wrapped.rotation),
                  after  = curve.at_rotation(1.2 * wrapped.rotation);
  return std::log(after.moment / before.moment) /
         std::log(after.rotation / before.rotation);
}

Banded stretch(const ForceBand &band, const Friction &friction)
{
  const double wrapped = band.wrapped.outer_strain;
  const double n       = std::max(band.hardening, least_hardening);
  const double dry     = excess_dry * std::max(0., 1 - friction.plunger / little_friction);
  Banded       strain;
  strain.low   = wrapped * (1 + excess_low / n);
  strain.value = wrapped * (1 + (excess_mean + dry) / n);
  strain.high =
      band.kinks
          ? std::numeric_limits<double>::infinity()
          : wrapped * std::exp(std::max(excess_high / n, least_high) + dry_high * dry / n);
  return strain;
}

/// `leg`: straight length of a leg, `nose`: radius of the nose, both over the thickness
/// [-].
Banded opening(const ForceBand &band, const BeamState &last, const double leg,
               const double nose)
{
  const double longer =
      long_leg * std::clamp((leg - leg_begins) / (leg_ends - leg_begins), 0., 1.);
  const double spread = std::pow(spring_nose / nose, spring_power);
  const double full =
      spread * (1 + longer) * last.springback * right_angle / last.leg_angle;
  const double low = leg < short_leg ? spring_short
                     : band.kinks    ? spring_kinked
                                     : spring_low;
  return {low * full, spring_mean * full, spring_high * full};
}

/// Of one metal, with one coefficient of friction at both shoulders.
ForceBand plain_band(const Case &c, const double shoulder_friction)
{
  const BendGeometry g        = bend_geometry(c);
  const Friction     friction = acting_friction(c, shoulder_friction);
  const double       width    = c.coupon.width;
  const BendCurve    curve(c.material, g.thickness, g.nose_radius);
  ForceBand          band;
  band.wrapped           = curve.at_radius(g.nose_radius);
  band.hardening         = hardening_at(curve, band.wrapped);
  band.kinks             = band.hardening < least_hardening;
  const double kink      = kink_force / (band.hardening + kink_floor);
  double       shoulders = 0;

  const std::vector<BeamState> beam =
      bend_guided(g, curve, friction, c.coupon.length / 2, upright);
  for (const BeamState &state : beam)
  {
    if (straight_leg(g, state.leg_angle).arm < least_arm * g.thickness)
    {
      band.squeezed = true;
      break;
    }
    shoulders = std::max(shoulders, state.shoulder_force * width);
    if (state.wrap == 0)
      band.first_touch = {touch_low * state.force * width, state.force * width,
                          touch_high * state.force * width};
    const double force = state.force * width;
    ForcePoint   point{state.travel, state.leg_angle, {}};
    const double sinks = bite(c, state.shoulder_force, bite_strain),
                 most  = bite(c, state.shoulder_force, bite_strain_high);
    point.force = {force_low * force, (force_mean + kink) * (1 + bite_mean * sinks) * force,
                   (force_high + kink) * (1 + bite_high * most) * force};
    band.bites  = band.bites || sinks > bite_told;
    band.points.push_back(point);
    if (point.force.value > band.peak.force.value)
      band.peak = point;
  }
  band.shoulder_force = {shoulder_low * shoulders, shoulder_mean * shoulders,
                         shoulder_high * shoulders};
  band.outer_strain   = stretch(band, friction);
  // Between the corners of a flat nose the coupon bends as it likes.
  if (c.fixture.plunger.flat_nose())
    band.outer_strain.low =
        std::min(band.outer_strain.low,
                 std::log1p(nominal_strain(c.fixture.plunger.width, c.coupon.thickness)));
  if (!beam.empty())
  {
    const double wrapped = (g.nose_radius + g.thickness / 2) * right_angle;
    band.springback =
        opening(band, beam.back(), (c.coupon.length / 2 - wrapped) / g.thickness,
                g.nose_radius / g.thickness);
    band.freed_energy = freed_high * beam.back().elastic_energy * width * right_angle /
                        beam.back().leg_angle;
  }
  const double rigid = plastic_moment(c.material.flow.initial_stress(), width, g.thickness,
                                      WidthState::plane_strain);
  band.straight_low  = hinge_peak(g, rigid, friction.shoulders).force;
  band.straight_high = hinge_peak(g, band.wrapped.moment * width, friction.shoulders).force;
  return band;
}
} // namespace

ForceBand force_band(const Case &c)
{
  const double right = c.friction.shoulders, left = c.friction.left_shoulder();
  ForceBand    band = plain_band(c, (left + right) / 2);
  const double peak = band.peak.force.value;
  if (left != right && peak > 0)
    widen(band, plain_band(c, std::min(left, right)).peak.force.value / peak,
          plain_band(c, std::max(left, right)).peak.force.value / peak);
  if (c.weld.present())
  {
    const auto [least, most] = zone_strengths(c, band.wrapped.outer_strain);
    widen(band, least, most);
    // Zones side by side across the width share one bend.
    if (c.weld.run == WeldRun::transverse)
    {
      band.softest_zone   = least;
      band.strongest_zone = most;
    }
  }
  return band;
}
} // namespace throughbend
