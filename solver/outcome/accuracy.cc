#include "solver/outcome/accuracy.h"

#include "meshes/setup/fixture_profiles.h"
#include "solver/outcome/force_course.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace throughbend
{
namespace
{
using Measure = Evidence::Measure;

struct Worst
{
  double value = 0, travel = 0; ///< [-], [mm]

  void see(double seen, double at)
  {
    // What is no number is the worst of all and stays.
    if (!std::isnan(value) && !(seen <= value))
      *this = {seen, at};
  }
};

std::string per_cent(double share)
{
  char text[32];
  std::snprintf(text, sizeof text, "%.1f %%", 100 * share);
  return text;
}

std::string plain(double value)
{
  char text[32];
  std::snprintf(text, sizeof text, "%.2f", value);
  return text;
}

class Judge
{
public:
  enum class Kind
  {
    contradiction,
    strain
  };
  void weigh(const Worst &worst, double low, double broken, const Evidence &what,
             const Kind kind = Kind::contradiction)
  {
    if (worst.value <= low)
      return;
    const bool breaks = !(worst.value <= broken);
    Evidence   reason = what;
    reason << " at ";
    reason.add(Measure::length, worst.travel) << " of travel";
    if (breaks)
    {
      accuracy_.trust        = Trust::broken;
      accuracy_.overstrained = kind == Kind::strain && std::isfinite(worst.value) &&
                               (accuracy_.breaking == 0 || accuracy_.overstrained);
      accuracy_.reasons.insert(accuracy_.reasons.begin() +
                                   static_cast<std::ptrdiff_t>(accuracy_.breaking++),
                               reason);
    }
    else
    {
      accuracy_.trust = std::max(accuracy_.trust, Trust::low);
      accuracy_.reasons.push_back(reason);
    }
  }
  /// Whatever the travel.
  void doubt(const Evidence &why)
  {
    accuracy_.trust = std::max(accuracy_.trust, Trust::low);
    accuracy_.reasons.push_back(why);
  }
  const Accuracy &accuracy() const { return accuracy_; }

private:
  Accuracy accuracy_;
};

Evidence words(const std::string &text)
{
  Evidence evidence;
  evidence << text;
  return evidence;
}

/// Of the pushes that lost contact.
Worst contact_lost(const PassSetup &setup, const std::vector<PassSample> &samples)
{
  Worst  worst;
  double largest = 0;
  for (std::size_t i = 0; i < samples.size(); ++i)
  {
    const PassSample &now = samples[i];
    if (i > 0 && now.kind == StepKind::push && samples[i - 1].kind == StepKind::push &&
        loses_contact(setup, largest, samples[i - 1].ram_force, now.ram_force,
                      std::max(now.left.tip_y, now.right.tip_y)))
      worst.see((samples[i - 1].ram_force - now.ram_force) / largest, now.travel);
    largest = std::max(largest, now.ram_force);
  }
  return worst;
}
} // namespace

// Of the largest ram force: a tool that bears less changes nothing that is told.
constexpr double bears_nothing = 0.01;

bool loses_contact(const PassSetup &setup, const double largest, const double force_before,
                   const double force, const double highest_tip)
{
  return largest > 0.1 * setup.force.bending && force_before > 0.2 * largest &&
         force < 0.01 * largest && highest_tip > setup.last_tangent();
}

std::string to_text(const Trust trust)
{
  return trust == Trust::sound ? "sound" : trust == Trust::low ? "low" : "broken";
}

std::string Accuracy::text(const UnitSystem units) const
{
  std::string text;
  for (const Evidence &reason : reasons)
    text += (text.empty() ? "" : "; ") + reason.text(units);
  return text;
}

Accuracy accuracy(const PassSetup &setup, const std::vector<PassSample> &samples,
                  const double limit)
{
  // Energy is weighed against the work of all the pass: what the first tenths of a
  // millimetre lack of their own small work is nothing to the finding.
  const double least_work = setup.force.bending * setup.coupon.thickness / 100;
  double       peak = setup.force.bending, work = least_work, work_so_far = least_work;
  for (const PassSample &sample : samples)
  {
    peak = std::max(peak, sample.ram_force);
    work = std::max(work, sample.energy.ram_work);
  }

  Worst energy, balance, depth, outer, plastic, face, edge, force;
  for (const PassSample &sample : samples)
  {
    work_so_far = std::max(work_so_far, sample.energy.ram_work);
    energy.see(sample.energy.error * work_so_far / work, sample.travel);
    outer.see(sample.outer_strain, sample.travel);
    plastic.see(sample.plastic_strain, sample.travel);
    if (sample.kind == StepKind::release)
      continue;
    depth.see(sample.penetration / setup.coupon.thickness, sample.travel);
    for (const ToolContact &tool : sample.tools)
      if (!(tool.normal < bears_nothing * peak))
        (tool.place.duty == ToolDuty::enclose ? edge : face)
            .see(tool.face_over_radius, sample.travel);
    if (sample.kind != StepKind::push)
      continue;
    double largest = 1e-2 * setup.force.bending;
    for (const ToolContact &tool : sample.tools)
      largest = std::max(largest, std::hypot(tool.force_x, tool.force_y));
    balance.see(sample.equilibrium_error * largest / peak, sample.travel);
    force.see(sample.ram_force / limit - 1, sample.travel);
  }

  Worst                          ripple, swing;
  const std::vector<CoursePoint> course = force_course(setup, samples);
  for (std::size_t i = 0; i < samples.size(); ++i)
  {
    ripple.see(course[i].ripple, samples[i].travel);
    if (course[i].ripple > 0)
      swing.see(course[i].band / peak, samples[i].travel);
  }

  Judge        judge;
  const double never = 1e300;
  judge.weigh(contact_lost(setup, samples), 0, 0,
              words("contact was lost within one step"));
  judge.weigh(energy, 0.01, 0.05,
              words("energy error " + per_cent(energy.value) + " of the pass's work"));
  judge.weigh(balance, 0.02, 0.1,
              words("tool forces out of balance by " + per_cent(balance.value)));
  judge.weigh(
      depth, 0.005, 0.05,
      words("coupon and tools overlap by " + per_cent(depth.value) + " of the thickness"));
  judge.weigh(outer, 1, 2,
              words("log strain " + plain(outer.value) + " on the convex face"),
              Judge::Kind::strain);
  judge.weigh(plastic, 2, 4, words("plastic strain " + plain(plastic.value)),
              Judge::Kind::strain);
  judge.weigh(force, 0.02, 0.2,
              words("ram force " + per_cent(force.value) + " beyond the ram's limit"));
  judge.weigh(
      swing, 0.25, 0.25,
      words("the ram force ripples by " + per_cent(swing.value) + " of the largest"));
  judge.weigh(ripple, 0.03, never,
              words("the ram force ripples by " + per_cent(ripple.value)));
  judge.weigh(face, 1, never,
              words("a cell's face is " + plain(face.value) +
                    " times as long as the radius that it lies on"));
  judge.weigh(edge, 4, never,
              words("a cell's face is " + plain(edge.value) +
                    " times as long as the frame edge's radius"));
  if (setup.mesh_coarsening > 1)
    judge.doubt(words("cells of the mesh are " + plain(setup.mesh_coarsening) +
                      " times as large as its level asks"));
  return judge.accuracy();
}
} // namespace throughbend
