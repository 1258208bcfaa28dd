// Keys of the section ram.

#include "inputs/option_sections.h"
#include "inputs/option_words.h"

namespace throughbend
{
using namespace option_words;

void add_ram_options(Options &o)
{
  add(o, number("ram.capacity", UnitKind::force, above(0, 1e9),
                at(&Case::ram, &Ram::capacity), "Largest force of the ram."));
  add(o, length("ram.stroke", above(0, 10000), at(&Case::ram, &Ram::stroke),
                "Largest travel of the plunger from first touch."));
}
} // namespace throughbend
