// Keys of the sections fixture, plunger, shoulders and frame.

#include "inputs/keys/option_sections.h"
#include "inputs/keys/option_words.h"

#include <algorithm>

namespace throughbend
{
using namespace option_words;

void add_fixture_options(Options &o)
{
  const auto plunger = [](auto member)
  { return at(&Case::fixture, &Fixture::plunger, member); };
  const auto shoulders = [](auto member)
  { return at(&Case::fixture, &Fixture::shoulders, member); };
  const auto frame = [](auto member)
  { return at(&Case::fixture, &Fixture::frame, member); };

  add(o, entry("fixture.rule", TextSlot{at(&Case::fixture, &Fixture::rule)},
               "Published rule that check compares the fixture with; empty = none."));

  add(o, length("plunger.width", between(1, 1000), plunger(&Plunger::width),
                "Width of the plunger over its flanks."));
  add(o, length("plunger.nose_radius", between(0.5, 500), plunger(&Plunger::nose_radius),
                "Radius of the plunger's nose, at most half the width.")
             .otherwise_by("half of plunger.width", {"plunger.width"},
                           [](const Case &c) { return c.fixture.plunger.width / 2; }));

  add(o, stress("plunger.yield", between(0, 5000), plunger(&Plunger::yield),
                "Yield stress of the plunger, for the indentation in check; 0 MPa = not "
                "known. About 3.2 MPa per point of Vickers hardness.")
             .otherwise("0 MPa"));

  add(o, choice("shoulders.kind", {"solid", "rollers"}, shoulders(&Shoulders::kind),
                "Fixed blocks with a rounded inner edge, or two round bars.")
             .otherwise("solid"));
  add(o, length("shoulders.radius", between(0.5, 500), shoulders(&Shoulders::radius),
                "Radius of the shoulder's edge or of the roller."));
  add(o, length("shoulders.opening", between(1, 2000), shoulders(&Shoulders::opening),
                "Clear distance between the two shoulders or rollers."));
  add(o, length("shoulders.depth", above(0, 2000), shoulders(&Shoulders::depth),
                "Distance from the shoulder's top to the lower end of its wall.")
             .only_solid()
             .otherwise_by("shoulders.radius + 25 mm", {"shoulders.radius"},
                           [](const Case &c) { return c.fixture.shoulders.radius + 25; }));
  add(o, length("shoulders.bottom_radius", between(0.1, 500),
                shoulders(&Shoulders::bottom_radius),
                "Rounding of the wall's lower edge, at most depth - radius.")
             .only_solid()
             .otherwise_by("5 mm, less where depth - radius is less",
                           {"shoulders.radius", "shoulders.depth"},
                           [](const Case &c)
                           {
                             const Shoulders &s = c.fixture.shoulders;
                             return std::max(0.1, std::min(5., s.depth - s.radius));
                           }));
  add(o,
      choice("shoulders.rollers_turn", {"no", "yes"}, shoulders(&Shoulders::rollers_turn),
             "Whether the rollers turn freely, without friction.")
          .otherwise("no")
          .only("rollers", {"shoulders.kind"},
                [](const Case &c)
                { return c.fixture.shoulders.kind == ShoulderKind::rollers; }));

  add(o, stress("shoulders.yield", between(0, 5000), shoulders(&Shoulders::yield),
                "Yield stress of the shoulders, for the indentation in check; 0 MPa = "
                "not known. About 3.2 MPa per point of Vickers hardness.")
             .otherwise("0 MPa"));

  add(o, length("frame.distance", between(0, 3000), frame(&Frame::distance),
                "Distance from the plunger's centre to the inside of each frame plate; "
                "0 mm = no frame.")
             .otherwise("0 mm"));
  add(o,
      length("frame.clearance_above", between(0.01, 1000), frame(&Frame::clearance_above),
             "How far the frame's opening reaches above the flat coupon.")
          .otherwise("1.5 mm")
          .only_with_frame());
  add(o,
      length("frame.clearance_below", between(0.01, 1000), frame(&Frame::clearance_below),
             "How far the frame's opening reaches below the flat coupon.")
          .otherwise("1.5 mm")
          .only_with_frame());
  add(o, length("frame.plate_thickness", between(0.5, 500), frame(&Frame::plate_thickness),
                "Thickness of the frame plates.")
             .otherwise("10 mm")
             .only_with_frame());
  add(o, length("frame.edge_radius", between(0.1, 100), frame(&Frame::edge_radius),
                "Rounding of the edges of the frame's opening.")
             .only_with_frame()
             .otherwise_by("1 mm, at most half the plate", {"frame.plate_thickness"},
                           [](const Case &c)
                           { return std::min(1., c.fixture.frame.plate_thickness / 2); }));
}
} // namespace throughbend
