// What a record says of its own accuracy, on made-up samples. All numbers are invented;
// the thresholds are those of the header.

#include "solver/outcome/accuracy.h"
#include "solver/outcome/findings.h"
#include "solver/setup/set_up.h"
#include "tests/support/figures.h"
#include "tests/support/reference_case.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace throughbend;

namespace
{
constexpr double ram = 80e3; ///< [N]

/// A pass that ends through, with nothing to be said against it.
std::vector<PassSample> sound()
{
  std::vector<PassSample> samples;
  for (int travel = 1; travel <= 90; ++travel)
  {
    PassSample sample;
    sample.travel     = travel;
    sample.ram_force  = travel < 40 ? 30e3 : 3e3 * (90 - travel) / 5;
    sample.left.angle = sample.right.angle = travel < 88 ? travel : 88;
    sample.left.tip_y = sample.right.tip_y = travel < 90 ? 0 : -41;
    sample.outer_strain                    = 0.2;
    sample.plastic_strain                  = 0.25;
    sample.energy.error                    = 0.004;
    sample.energy.ram_work                 = 1e6;
    sample.penetration                     = 0.005;
    samples.push_back(sample);
  }
  return samples;
}

Trust trust(const std::vector<PassSample> &samples)
{
  return accuracy(set_up(reference_case()), samples, ram).trust;
}

/// Trust when a figure of the 30th step is `value`.
template <typename Set>
Trust with(Set set)
{
  auto samples = sound();
  set(samples[29]);
  return trust(samples);
}
} // namespace

TEST_CASE("A sound record is trusted", "[unit][accuracy]")
{
  const Accuracy judged = accuracy(set_up(reference_case()), sound(), ram);
  CHECK(judged.trust == Trust::sound);
  CHECK(judged.reasons.empty());
}

TEST_CASE("Each figure is held against its thresholds, from both sides", "[unit][accuracy]")
{
  const auto energy = [](double error)
  { return with([&](PassSample &s) { s.energy.error = error; }); };
  CHECK(energy(0.0099) == Trust::sound);
  CHECK(energy(0.0101) == Trust::low);
  CHECK(energy(0.049) == Trust::low);
  CHECK(energy(0.051) == Trust::broken);
  // At the start, when a hundredth of the work is done, it takes a hundred times as much.
  auto early                    = sound();
  early.front().energy.ram_work = 1e4;
  early.front().energy.error    = 0.9;
  CHECK(trust(early) == Trust::sound);
  early.front().energy.error = 1.1;
  CHECK(trust(early) == Trust::low);
  CHECK(energy(std::numeric_limits<double>::quiet_NaN()) == Trust::broken);

  const auto outer = [](double strain)
  { return with([&](PassSample &s) { s.outer_strain = strain; }); };
  CHECK(outer(0.99) == Trust::sound);
  CHECK(outer(1.01) == Trust::low);
  CHECK(outer(6) == Trust::broken);

  const auto plastic = [](double strain)
  { return with([&](PassSample &s) { s.plastic_strain = strain; }); };
  CHECK(plastic(1.9) == Trust::sound);
  CHECK(plastic(2.1) == Trust::low);
  CHECK(plastic(4.1) == Trust::broken);

  const auto depth = [](double share) // of 10 mm
  { return with([&](PassSample &s) { s.penetration = 10 * share; }); };
  CHECK(depth(0.0049) == Trust::sound);
  CHECK(depth(0.0051) == Trust::low);
  CHECK(depth(0.051) == Trust::broken);

  const auto force = [](double share)
  { return with([&](PassSample &s) { s.ram_force = ram * share; }); };
  CHECK(force(1.01) == Trust::sound);
  CHECK(force(1.03) == Trust::low);
  CHECK(force(2.7) == Trust::broken);

  const auto face = [](ToolPlace place, double ratio, double normal = 5e3)
  {
    return with(
        [&](PassSample &s)
        {
          s.tool(place).face_over_radius = ratio;
          s.tool(place).normal           = normal;
        });
  };
  CHECK(face(tool_at::right_shoulder, 0.9) == Trust::sound);
  CHECK(face(tool_at::right_shoulder, 1.1) == Trust::low);
  CHECK(face(tool_at::right_frame, 3.9) == Trust::sound);
  CHECK(face(tool_at::right_frame, 4.1) == Trust::low);
  // A long face that bears 1 % of the largest ram force or less changes no figure.
  CHECK(face(tool_at::right_shoulder, 5, 200) == Trust::sound);
  CHECK(face(tool_at::right_shoulder, 5, 400) == Trust::low);
}

TEST_CASE("Tool forces out of balance count in pushes, against the largest ram force",
          "[unit][accuracy]")
{
  const auto unbalanced = [](StepKind kind, double error)
  {
    return with(
        [&](PassSample &s)
        {
          s.kind                           = kind;
          s.tool(tool_at::plunger).force_y = -30e3;
          s.equilibrium_error              = error; // times 30 kN over the peak of 30 kN
        });
  };
  CHECK(unbalanced(StepKind::push, 0.019) == Trust::sound);
  CHECK(unbalanced(StepKind::push, 0.021) == Trust::low);
  CHECK(unbalanced(StepKind::push, 0.11) == Trust::broken);
  CHECK(unbalanced(StepKind::relax, 0.11) == Trust::sound);
}

TEST_CASE("Force that vanishes in one push with an end still up is contact lost",
          "[unit][accuracy]")
{
  auto samples = sound();
  for (std::size_t i = 30; i < samples.size(); ++i)
    samples[i].ram_force = 100;
  CHECK(trust(samples) == Trust::broken);
  samples[30].kind = StepKind::relax; // a jump may do that
  CHECK(trust(samples) == Trust::sound);
}

TEST_CASE("No finding rests on a broken record, and a low one tells it first",
          "[unit][accuracy]")
{
  auto samples = sound();
  CHECK(decide(set_up(reference_case()), samples, StopReason::out).outcome ==
        Outcome::through);
  samples[29].energy.error = 0.021;
  const Finding low        = decide(set_up(reference_case()), samples, StopReason::out);
  CHECK(low.outcome == Outcome::through);
  CHECK(low.accuracy.trust == Trust::low);
  REQUIRE(low.accuracy.reasons.size() == 1);
  CHECK(has(low.accuracy.reasons.front().text(UnitSystem::metric), "2.1 %"));
  // The doubt at 30 mm comes before what the pass came to at 90 mm.
  CHECK(figures(low.verdict, Evidence::Measure::length) == std::vector<double>{30, 90});
  samples[29].energy.error = 0.51;
  const Finding broken     = decide(set_up(reference_case()), samples, StopReason::out);
  CHECK(broken.outcome == Outcome::undecided);
  CHECK(broken.accuracy.trust == Trust::broken);
  CHECK(has(broken.evidence, "51.0 %"));
  // What it would have been is told all the same.
  CHECK(figures(broken.account, Evidence::Measure::angle) ==
        figures(low.account, Evidence::Measure::angle));
  CHECK(figures(broken.account, Evidence::Measure::angle) == std::vector<double>{88});
}

TEST_CASE(
    "Strains that no metal bears are told apart from a record that contradicts itself",
    "[unit][accuracy]")
{
  const auto judged = [](double strain, double energy_error)
  {
    auto samples             = sound();
    samples[29].outer_strain = strain;
    samples[39].energy.error = energy_error;
    return decide(set_up(reference_case()), samples, StopReason::out);
  };
  const Finding torn = judged(2.4, 0.004), both = judged(2.4, 0.51),
                wrong = judged(0.2, 0.51),
                odd   = judged(std::numeric_limits<double>::quiet_NaN(), 0.004);
  for (const Finding &each : {torn, both, wrong, odd})
    CHECK(each.outcome == Outcome::undecided);
  CHECK(torn.accuracy.overstrained);
  CHECK(torn.accuracy.breaking == 1);
  CHECK_FALSE(both.accuracy.overstrained);
  CHECK(both.accuracy.breaking == 2);
  CHECK_FALSE(wrong.accuracy.overstrained);
  CHECK_FALSE(odd.accuracy.overstrained);
  // A reason that only lowers the accuracy breaks nothing.
  const Finding doubtful = judged(2.4, 0.021);
  CHECK(doubtful.accuracy.overstrained);
  CHECK(doubtful.accuracy.breaking == 1);
  CHECK(doubtful.accuracy.reasons.size() == 2);
}

TEST_CASE("A quick mesh that had to be coarser than meant says so", "[unit][accuracy]")
{
  PassSetup setup       = set_up(reference_case());
  setup.mesh_coarsening = 2.5;
  const Accuracy judged = accuracy(setup, sound(), ram);
  CHECK(judged.trust == Trust::low);
  REQUIRE(judged.reasons.size() == 1);
  CHECK(has(judged.reasons.front().text(UnitSystem::metric), "2.5"));
}
