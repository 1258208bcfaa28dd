// The guess for the next shape, from the last ones along the travel.

#include "solver/pass/travel_trail.h"

#include <catch2/catch.hpp>

using namespace throughbend;

namespace
{
/// One unknown, at a travel.
template <class Shape>
TravelTrail trail_of(const std::vector<double> &travels, const Shape &shape)
{
  TravelTrail trail;
  for (const double travel : travels)
  {
    Vector u(1);
    u[0] = shape(travel);
    trail.add(travel, u);
  }
  return trail;
}
} // namespace

TEST_CASE("A shape that follows a parabola or a line is guessed as it will be",
          "[unit][trail]")
{
  const auto parabola = [](double s) { return 2 - 3 * s + 0.5 * s * s; };
  const auto line     = [](double s) { return 2 - 3 * s; };
  // Four points, of which the first is forgotten.
  CHECK(trail_of({7, 0, 1, 1.5}, parabola).guess(4)[0] == Approx(parabola(4)));
  CHECK(trail_of({0, 1, 1.5, 2.5}, parabola).guess(4)[0] == Approx(parabola(4)));
  CHECK(trail_of({0, 1, 1.5}, line).guess(4, 2)[0] == Approx(line(4)));
  CHECK(trail_of({0, 1}, line).guess(4)[0] == Approx(line(4))); // as many as there are
  CHECK_FALSE(trail_of({1}, line).can_guess());
}

TEST_CASE("What one shape jitters, a parabola carries on thrice and a line twice",
          "[unit][trail]")
{
  // Lagrange's weights of the last of equally spaced points, one space further.
  const auto jitter = [](double s) { return s == 2 ? 1. : 0.; };
  const auto trail  = trail_of({0, 1, 2}, jitter);
  CHECK(trail.guess(3)[0] == Approx(3));
  CHECK(trail.guess(3, 2)[0] == Approx(2));
}

TEST_CASE("A trail that turns back begins anew", "[unit][trail]")
{
  const auto line = [](double s) { return s; };
  CHECK_FALSE(trail_of({0, 1, 2, 0.5}, line).can_guess());
}
