// Keys of the section friction.

#include "inputs/option_sections.h"
#include "inputs/option_words.h"

namespace throughbend
{
using namespace option_words;

void add_friction_options(Options &o)
{
  // 0.10: handbook tables for lubricated (grease, oil) steel on steel; usual spread of a
  // greased shoulder 0.05 to 0.15, dry mill scale 0.25 to 0.35 (common practice, no
  // source).
  const std::string greased = "0.10 = greased steel on steel (handbook tables), dry mill "
                              "scale some 0.25 to 0.35.";
  add(o, ratio("friction.plunger", between(0, 1), at(&Case::friction, &Friction::plunger),
               "Friction coefficient between coupon and plunger; " + greased)
             .otherwise("0.10"));
  add(o,
      ratio("friction.shoulders", between(0, 1), at(&Case::friction, &Friction::shoulders),
            "Friction coefficient between coupon and shoulders; " + greased)
          .otherwise("0.10"));
  add(o, ratio("friction.frame", between(0, 1), at(&Case::friction, &Friction::frame),
               "Friction coefficient between coupon and frame.")
             .only_with_frame()
             .otherwise_by("friction.shoulders", {"friction.shoulders"},
                           [](const Case &c) { return c.friction.shoulders; }));
}
} // namespace throughbend
