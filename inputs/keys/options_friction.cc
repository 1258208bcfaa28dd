// Keys of the section friction.

#include "inputs/catalogue/lubricant_catalogue.h"
#include "inputs/keys/option_sections.h"
#include "inputs/keys/option_words.h"
#include "inputs/text/input_error.h"

namespace throughbend
{
using namespace option_words;

namespace
{
/// The lubricant that a case names, between the coupon and every tool.
ModelCase lubricated(const Case &c)
{
  ModelCase model;
  if (c.friction.lubricant.empty())
    return model;
  try
  {
    const double typical =
        lubricants_with(c.friction.catalogue).row(c.friction.lubricant).typical;
    Case filled;
    filled.friction.plunger   = typical;
    filled.friction.shoulders = typical;
    filled.friction.frame     = typical;
    model.value               = filled;
  }
  catch (const InputError &fault)
  {
    model.fault = fault.what();
  }
  return model;
}

Entry as_lubricated(Entry made)
{
  return std::move(made).or_as_in("friction.lubricant",
                                  {"friction.catalogue", "friction.lubricant"}, lubricated);
}
} // namespace

void add_friction_options(Options &o)
{
  add(o, entry("friction.catalogue", TextSlot{at(&Case::friction, &Friction::catalogue)},
               "Your own file of lubricants, with the columns of the built-in one. Rows "
               "are added to the built-in ones; a row of the same name replaces one.")
             .file(
                 [](const Case &c)
                 {
                   std::vector<FileFault> faults;
                   for (const CatalogueFault &fault :
                        faults_of_lubricants(c.friction.catalogue))
                     faults.push_back({fault.place, fault.text()});
                   return faults;
                 }));
  add(o, entry("friction.lubricant", TextSlot{at(&Case::friction, &Friction::lubricant)},
               "Name of the lubricant between coupon and tools, for example grease. It "
               "sets the coefficients you leave out. throughbend lubricants lists the "
               "names."));
  // 0.10: handbook tables for lubricated (grease, oil) steel on steel; usual spread of a
  // greased shoulder 0.05 to 0.15, dry mill scale 0.25 to 0.35 (common practice, no
  // source).
  const std::string greased = "0.10 = greased steel on steel (handbook tables), dry "
                              "mill scale about 0.25 to 0.35.";
  add(o, as_lubricated(ratio("friction.plunger", between(0, 1),
                             at(&Case::friction, &Friction::plunger),
                             "Friction coefficient between coupon and plunger; " + greased)
                           .otherwise("0.10")));
  add(o,
      as_lubricated(ratio("friction.shoulders", between(0, 1),
                          at(&Case::friction, &Friction::shoulders),
                          "Friction coefficient between coupon and shoulders; " + greased)
                        .otherwise("0.10")));
  add(o, as_lubricated(
             ratio("friction.frame", between(0, 1), at(&Case::friction, &Friction::frame),
                   "Friction coefficient between coupon and frame.")
                 .only_with_frame()
                 .otherwise_by("friction.shoulders", {"friction.shoulders"},
                               [](const Case &c) { return c.friction.shoulders; })));
  add(o, ratio("friction.left_shoulder", between(0, 1),
               at(&Case::friction, &Friction::other_left_shoulder),
               "Friction coefficient at the left shoulder, if it differs from the right "
               "one.")
             .otherwise_by("friction.shoulders", {"friction.shoulders"},
                           [](const Case &c) { return c.friction.shoulders; }));
}
} // namespace throughbend
