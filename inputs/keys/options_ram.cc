// Keys of the sections ram and jack.

#include "inputs/keys/option_sections.h"
#include "inputs/keys/option_words.h"

#include <utility>

namespace throughbend
{
using namespace option_words;

void add_ram_options(Options &o)
{
  add(o, number("ram.capacity", UnitKind::force, above(0, 1e9),
                at(&Case::ram, &Ram::capacity), "Largest force of the ram."));
  add(o, length("ram.stroke", above(0, 10000), at(&Case::ram, &Ram::stroke),
                "Largest travel of the plunger from first touch."));

  const auto jack      = [](auto member) { return at(&Case::ram, &Ram::jack, member); };
  const auto of_a_jack = [](Entry made)
  {
    return std::move(made).only("with jack.bore", {"jack.bore"},
                                [](const Case &c) { return c.ram.jack.present(); });
  };
  add(o, length("jack.bore", between(0, 1000), jack(&Jack::bore),
                "Piston diameter of a hydraulic jack, for the gauge pressure in check; "
                "0 mm = not known.")
             .otherwise("0 mm"));
  add(o, of_a_jack(length("jack.pump_bore", between(0, 500), jack(&Jack::pump_bore),
                          "Piston diameter of the hand pump; 0 mm = not known.")
                       .otherwise("0 mm")));
  add(o, of_a_jack(length("jack.pump_stroke", between(0, 500), jack(&Jack::pump_stroke),
                          "Travel of the pump's piston per stroke of the handle; 0 mm = "
                          "not known.")
                       .otherwise("0 mm")));
  add(o, of_a_jack(ratio("jack.lever_ratio", between(0, 200), jack(&Jack::lever_ratio),
                         "Travel of the hand divided by the travel of the pump's "
                         "piston; 0 = not known.")
                       .otherwise("0")));
}
} // namespace throughbend
