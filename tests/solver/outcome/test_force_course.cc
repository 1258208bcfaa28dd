// The smooth course of the ram force on made-up signals whose course and ripple are known
// by hand. All numbers are invented.

#include "inputs/units/display_units.h"
#include "solver/outcome/accuracy.h"
#include "solver/outcome/findings.h"
#include "solver/outcome/force_course.h"
#include "solver/setup/set_up.h"
#include "tests/support/figures.h"
#include "tests/support/reference_case.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

using namespace throughbend;

namespace
{
constexpr double pi   = 3.14159265358979323846;
constexpr double face = 2; ///< length of the faces that touch [mm]

/// A force over the travel, from `step` to `last` [mm].
std::vector<PassSample> signal(const std::function<double(double)> &force, double step,
                               double last = 80)
{
  const Case              c = reference_case();
  std::vector<PassSample> samples;
  for (int i = 1; i * step <= last; ++i)
  {
    PassSample sample;
    sample.travel     = i * step;
    sample.ram_force  = force(sample.travel);
    sample.left.angle = sample.right.angle = 85;
    sample.left.tip_y = sample.right.tip_y = -100;
    sample.energy.ram_work                 = 1e6;
    sample.tool(tool_at::right_shoulder).face_over_radius =
        face / c.fixture.shoulders.radius;
    samples.push_back(sample);
  }
  return samples;
}

/// One up and down in a face's length.
double wave(double travel)
{
  return std::sin(2 * pi * travel / face);
}

/// The force comes up to 50 kN and stays there.
double plateau(double travel)
{
  return 5e3 * std::min(10., travel);
}

std::vector<CoursePoint> course_of(const std::vector<PassSample> &samples)
{
  return force_course(set_up(reference_case()), samples);
}

double largest_ripple(const std::vector<CoursePoint> &course)
{
  double largest = 0;
  for (const CoursePoint &point : course)
    largest = std::max(largest, point.ripple);
  return largest;
}

/// The only doubt is one that gives this share.
void check_told(const Accuracy &judged, const std::string &share)
{
  REQUIRE(judged.reasons.size() == 1);
  CHECK(has(judged.text(UnitSystem::metric), share));
}

/// Samples that the course leaves as they are.
bool untouched(const std::vector<PassSample> &samples)
{
  const auto course = course_of(samples);
  for (std::size_t i = 0; i < samples.size(); ++i)
    if (course[i].force != samples[i].ram_force || course[i].ripple != 0)
      return false;
  return true;
}
} // namespace

TEST_CASE("A ripple of known size is found and taken out", "[unit][course]")
{
  // 50 kN +- 2 kN, rising by 0.1 kN/mm: 4 % of the mean.
  const auto level   = [](double s) { return 45e3 + 100 * s; };
  const auto samples = signal([&](double s) { return level(s) + 2e3 * wave(s); }, 0.35);
  const auto course  = course_of(samples);
  for (std::size_t i = 20; i + 12 < samples.size(); ++i)
  {
    INFO("travel " << samples[i].travel);
    CHECK(course[i].force == Approx(level(samples[i].travel)).epsilon(0.012));
    CHECK(course[i].band == Approx(2e3).epsilon(0.25));
    CHECK(course[i].ripple == Approx(2e3 / level(samples[i].travel)).epsilon(0.25));
  }
}

TEST_CASE("The largest force is that of the course, with its band", "[unit][course]")
{
  // A hill of 60 kN at 50 mm under a ripple of 3 kN: the computed force tops 62 kN.
  const auto hill = [](double s) { return 60e3 - 20 * (s - 50) * (s - 50); };
  const auto samples =
      signal([&](double s) { return std::max(1e3, hill(s)) + 3e3 * wave(s); }, 0.3, 90);
  const CoursePeak peak = course_peak(set_up(reference_case()), samples);
  CHECK(peak.force == Approx(60e3).epsilon(0.015));
  CHECK(peak.travel == Approx(50).margin(4));
  CHECK(peak.band == Approx(3e3).epsilon(0.25));
}

TEST_CASE("A bending peak is no ripple, however long the steps", "[unit][course]")
{
  const auto bend = [](double s) { return 30e3 * std::sin(pi * s / 90); };
  for (const double step : {0.2, 0.8, 1.6, 3.})
    CHECK(untouched(signal(bend, step, 88)));
  const auto       samples = signal(bend, 1.6, 88);
  const CoursePeak peak    = course_peak(set_up(reference_case()), samples);
  CHECK(peak.band == 0);
  CHECK(peak.force == samples[27].ram_force); // 44.8 mm
}

TEST_CASE("A drop, a kink and a jump stay as they are", "[unit][course]")
{
  // An end slips off the frame: within one step 58 kN become 25 kN, and it rises again.
  const auto slip = [](double s) { return s < 40 ? 1450 * s : 25e3 + 300 * (s - 40); };
  // A leg meets the shoulder: from one step to the next the force rises steeply, then not.
  const auto kink = [](double s) {
    return s < 40 ? 20e3 : s < 43 ? 20e3 + 10e3 * (s - 40) : 50e3 + 20 * (s - 43);
  };
  for (const double step : {0.2, 0.5, 1.5})
  {
    CHECK(untouched(signal(slip, step)));
    CHECK(untouched(signal(kink, step)));
    auto samples = signal(slip, step);
    for (PassSample &sample : samples)
      if (sample.travel >= 40)
      {
        sample.kind = StepKind::relax;
        break;
      }
    CHECK(untouched(samples));
  }
}

TEST_CASE("No course reaches across a drop in a force that ripples", "[unit][course]")
{
  const auto level   = [](double s) { return s < 40 ? 60e3 : 30e3; };
  const auto samples = signal([&](double s) { return level(s) + 1500 * wave(s); }, 0.25);
  const auto course  = course_of(samples);
  for (std::size_t i = 20; i < samples.size(); ++i)
  {
    INFO("travel " << samples[i].travel);
    CHECK(course[i].force == Approx(level(samples[i].travel)).margin(1600));
  }
  CHECK(largest_ripple(course) < 0.08); // 5 % behind the drop
}

TEST_CASE("What is no passing face is not judged", "[unit][course]")
{
  // First touch, and a coupon that is about to leave.
  const auto early = [](double s) { return s < 4 ? 20e3 + 5e3 * wave(s) : 30e3; };
  CHECK(largest_ripple(course_of(signal(early, 0.2))) == 0);
  const auto late = [](double s) { return s < 70 ? 30e3 : 2e3 + 1e3 * wave(s); };
  CHECK(largest_ripple(course_of(signal(late, 0.2))) == 0);
}

TEST_CASE("Many short steps at the end of a stretch are no ripple", "[unit][course]")
{
  // The coupon leaves: the solver creeps up to the jump.
  auto       samples = signal([](double s) { return 40e3 - 300 * s; }, 1.6, 60);
  PassSample last    = samples.back();
  for (int i = 0; i < 12; ++i)
  {
    last.travel += 0.01;
    last.ram_force -= 50;
    samples.push_back(last);
  }
  last.kind      = StepKind::relax;
  last.ram_force = 0;
  samples.push_back(last);
  CHECK(largest_ripple(course_of(samples)) == 0);
}

TEST_CASE("The step at which the ram's force ran out keeps its force", "[unit][course]")
{
  Case       c       = reference_case();
  const auto samples = signal([](double s) { return 45e3 + 100 * s + 2e3 * wave(s); }, 0.3);
  CHECK(force_course(set_up(c), samples).back().force != samples.back().ram_force);
  c.ram.capacity = samples.back().ram_force;
  CHECK(force_course(set_up(c), samples).back().force == samples.back().ram_force);
}

TEST_CASE("Ripple lowers the accuracy and in the end breaks it", "[unit][course]")
{
  const auto trust = [](double share)
  {
    const auto samples =
        signal([&](double s) { return 50e3 * (1 + share * wave(s)); }, 0.35);
    const Accuracy judged = accuracy(set_up(reference_case()), samples, 300e3);
    if (judged.trust == Trust::low)
      check_told(judged, percent_text(largest_ripple(course_of(samples))));
    return judged.trust;
  };
  CHECK(trust(0.02) == Trust::sound);
  CHECK(trust(0.05) == Trust::low);
  CHECK(trust(0.4) == Trust::broken);
}

TEST_CASE("Ripple at little force, late in a pass, turns no finding", "[unit][course]")
{
  // A fifth of the largest force, and 40 % of that up and down: 8 % of the largest.
  const auto samples =
      signal([](double s) { return s < 40 ? 50e3 : 10e3 * (1 + 0.4 * wave(s)); }, 0.35);
  const Accuracy judged = accuracy(set_up(reference_case()), samples, 300e3);
  CHECK(judged.trust == Trust::low);
  check_told(judged, percent_text(largest_ripple(course_of(samples))));
}

TEST_CASE("A finding that the ripple could turn is close", "[unit][course]")
{
  Case       c     = reference_case();
  const auto close = [&](double share, double capacity)
  {
    c.ram.capacity = capacity;
    const auto samples =
        signal([&](double s) { return plateau(s) * (1 + share * wave(s)); }, 0.35);
    return decide(set_up(c), samples, StopReason::out);
  };
  const Finding near = close(0.025, 51e3);
  CHECK(near.outcome == Outcome::through);
  CHECK(near.close == "the ripple of the computed ram force");
  // The smooth course, its ripple of 2.5 %, and what these come close to.
  const auto told = figures(near.account, Evidence::Measure::force);
  REQUIRE(told.size() >= 3);
  CHECK(told[told.size() - 3] == Approx(50e3).margin(1250));
  CHECK(told[told.size() - 2] == Approx(1250).epsilon(0.3));
  CHECK(told.back() == 51e3);
  CHECK(close(0.025, 60e3).close.empty()); // room enough
  CHECK(close(0, 51.5e3).close.empty());   // no ripple, and more than 2 %
  CHECK(close(0, 50.1e3).close == "the numerical error of the ram force");

  // The ram stops at a ripple's top. Beyond it the course stays at 50 kN, or rises to 70.
  c.ram.capacity = 51e3;
  const auto stopped =
      signal([](double s) { return plateau(s) + 1250 * wave(s); }, 0.35, 50.4);
  for (const double rise : {0., 2000.})
  {
    BeyondRecord beyond;
    beyond.reason = StopReason::out;
    for (PassSample sample :
         signal([&](double s)
                { return 50e3 + 1250 * wave(s) + rise * std::max(0., s - 50.4); },
                0.35, 70))
      if (sample.travel > 50.4)
        beyond.samples.push_back(sample);
    const Finding finding = decide(set_up(c), stopped, StopReason::force_limit, beyond);
    CHECK(finding.outcome == Outcome::over_capacity);
    CHECK(finding.close.empty() == (rise != 0));
    REQUIRE(finding.beyond);
    if (rise == 0)
      CHECK(finding.beyond->force_band == Approx(1250).epsilon(0.3));
  }
}
