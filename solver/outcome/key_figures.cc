#include "solver/outcome/key_figures.h"

#include "inputs/units/nominal_strain.h"
#include "solver/outcome/exit.h"
#include "solver/outcome/force_course.h"
#include "solver/setup/set_up.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
/// Keeps the largest value and the place where it was. A value that is no number stays: a
/// broken figure must show and not hide behind the sound ones.
void keep_largest(double &largest, double &at, const double value, const double place)
{
  if (std::isnan(largest) || value <= largest)
    return;
  largest = value;
  at      = place;
}

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

double share(const double part, const double whole)
{
  return whole > 0 ? part / whole : nothing;
}

/// Of a pass without a step nothing is known but what the case says.
void forget_pass(KeyFigures &figures)
{
  for (double *figure :
       {&figures.peak_force, &figures.peak_force_at, &figures.peak_force_band,
        &figures.force_margin, &figures.stroke_margin, &figures.outer_strain,
        &figures.outer_strain_at, &figures.outer_strain_travel, &figures.outer_elongation,
        &figures.face_strain, &figures.face_elongation, &figures.plastic_strain,
        &figures.nose_gap, &figures.walk, &figures.wrap, &figures.nose_gap_end,
        &figures.wrap_end, &figures.walk_end})
    *figure = nothing;
}
} // namespace

std::optional<bool> wire_goes_in(const KeyFigures &figures, const double diameter)
{
  constexpr double quarter_turn = 90; // [deg]
  if (diameter <= 0 || std::isnan(figures.nose_gap_end) || figures.wrap_end < quarter_turn)
    return std::nullopt;
  return figures.gap_for_wire() >= diameter;
}

KeyFigures key_figures(const std::vector<PassSample> &samples, const Case &given)
{
  const PassSetup         setup = set_up(given);
  KeyFigures              figures;
  std::vector<PassSample> held; // before the ejection
  double                  regularisation = 0, ram_work = 0, unused = 0;
  for (const PassSample &sample : samples)
  {
    keep_largest(figures.energy_error, figures.energy_error_at, sample.energy.error,
                 sample.travel);
    keep_largest(figures.penetration, unused, sample.penetration, 0);
    keep_largest(figures.plastic_strain, unused, sample.plastic_strain, 0);
    keep_largest(figures.travel, unused, sample.travel, 0);
    keep_largest(regularisation, unused, std::abs(sample.energy.regularisation), 0);
    keep_largest(ram_work, unused, std::abs(sample.energy.ram_work), 0);
    const double strain_before = figures.outer_strain;
    keep_largest(figures.outer_strain, figures.outer_strain_travel, sample.outer_strain,
                 sample.travel);
    if (figures.outer_strain != strain_before)
      figures.outer_strain_at = sample.outer_strain_at;

    // What the ejection does to a coupon that nothing holds is no figure of its bend.
    if (sample.kind != StepKind::release && (is_loaded(setup, sample) || held.empty()))
    {
      held.push_back(sample);
      keep_largest(figures.equilibrium_error, figures.equilibrium_error_at,
                   sample.equilibrium_error, sample.travel);
      keep_largest(figures.nose_gap, unused, sample.nose_gap, 0);
      keep_largest(figures.wrap, unused, sample.wrap, 0);
      if (std::abs(sample.walk) > std::abs(figures.walk))
        figures.walk = sample.walk;
      const bool touches   = sample.tool(tool_at::plunger).normal > 0;
      figures.nose_gap_end = touches ? sample.nose_gap : nothing;
      figures.wrap_end     = touches ? sample.wrap : nothing;
      figures.walk_end     = sample.walk;
    }

    figures.steps += 1;
    figures.jumps += sample.kind == StepKind::relax ? 1 : 0;
    figures.iterations += sample.iterations;
    figures.refusals += sample.refusals;
  }

  const std::vector<CoursePoint> course = force_course(setup, samples);
  const CoursePeak               peak   = course_peak(samples, course);
  figures.peak_force                    = peak.force;
  figures.peak_force_at                 = peak.travel;
  figures.peak_force_band               = peak.band;
  for (std::size_t i = 0; i < samples.size(); ++i)
    keep_largest(figures.ripple, figures.ripple_at, course[i].ripple, samples[i].travel);

  figures.width          = width_figures(held);
  const double thickness = given.coupon.thickness;
  figures.capacity       = given.ram.capacity;
  figures.force_margin = share(given.ram.capacity - figures.peak_force, given.ram.capacity);
  figures.stroke       = given.ram.stroke;
  figures.stroke_margin    = share(given.ram.stroke - figures.travel, given.ram.stroke);
  figures.outer_elongation = std::expm1(figures.outer_strain);
  figures.face_strain      = figures.outer_strain;
  if (figures.width)
    keep_largest(figures.face_strain, unused, figures.width->largest_strain, 0);
  figures.face_elongation = std::expm1(figures.face_strain);
  figures.nominal_elongation =
      nominal_strain(given.fixture.plunger.bend_diameter(), thickness);
  figures.penetration_share    = share(figures.penetration, thickness);
  figures.regularisation_share = share(regularisation, ram_work);
  if (samples.empty())
    forget_pass(figures);
  return figures;
}
} // namespace throughbend
