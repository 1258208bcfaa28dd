// The step's length reacts to ease, labour and refusal, and keeps to its bounds.

#include "solver/pass/step_size.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

using namespace throughbend;

TEST_CASE("Easy steps grow the next one up to the largest", "[unit][step]")
{
  StepSize step(0.1, 0.01, 2);
  CHECK(step.size() == 0.1);
  double before = 0;
  for (int i = 0; i < 20; ++i)
  {
    before = step.size();
    step.accepted(before, 3, 0);
    CHECK(step.size() >= before);
    CHECK(step.size() <= 2);
  }
  CHECK(step.size() == 2);
}

TEST_CASE("A laboured step makes the next one smaller but never too small", "[unit][step]")
{
  StepSize step(0.5, 0.1, 2);
  step.accepted(0.5, 15, 0);
  CHECK(step.size() < 0.5);
  for (int i = 0; i < 30; ++i)
    step.accepted(step.size(), 15, 0);
  CHECK_FALSE(step.too_small());
}

TEST_CASE("A step shortened by an event does not shrink the next", "[unit][step]")
{
  StepSize step(1, 0.01, 2);
  step.accepted(0.001, 2, 0);
  CHECK(step.size() >= 1);
}

TEST_CASE("A size that was refused just now is not tried again at once", "[unit][step]")
{
  StepSize step(1, 0.01, 2);
  step.refused(1);
  const double taken = step.size();
  step.accepted(taken, 2, 1);
  CHECK(step.size() == taken);
  step.accepted(taken, 2, 0);
  CHECK(step.size() > taken);
}

TEST_CASE("Refusals shrink the step until it counts as too small", "[unit][step]")
{
  StepSize step(1, 0.05, 2);
  int      refusals = 0;
  while (!step.too_small())
  {
    const double tried = step.size();
    step.refused(tried);
    CHECK(step.size() < 0.8 * tried);
    REQUIRE(++refusals < 20);
  }
  CHECK(refusals >= 2);
}

TEST_CASE("After a jump the pass starts again with its first step", "[unit][step]")
{
  StepSize step(0.1, 0.01, 2);
  for (int i = 0; i < 10; ++i)
    step.accepted(step.size(), 2, 0);
  step.restart();
  CHECK(step.size() == 0.1);
  CHECK_FALSE(step.too_small());
}

TEST_CASE("Steps grow where a long leg only slides past its shoulder, and nowhere else",
          "[unit][step]")
{
  Case c = reference_case();
  // (20 + 10) / 20 (by hand) all along a coupon that is out after some 110 mm.
  for (const double travel : {0., 20., 60., 110.})
    CHECK(step_lengths(c).at(travel) == Approx(1.5));
  c.coupon.length         = 2000;
  const StepLengths steps = step_lengths(c);
  // The leg stands upright from some 50 mm on; what lay between the shoulders is past them
  // after as much again and half the opening.
  for (const double travel : {0., 20., 60., 110.})
    CHECK(steps.at(travel) == Approx(1.5));
  CHECK(steps.at(300) > 3);
  CHECK(steps.at(900) > 10);
  CHECK(steps.longest() <= 30);                         // three thicknesses
  CHECK(contact_stiffness(c).reach >= steps.longest()); // a point knows where it came from
  c.solver.largest_step = 1;
  CHECK(step_lengths(c).at(900) == 1);
}
