// Keys of the sections flaw, flaw2 and flaw3: what did not fuse in the weld.

#include "inputs/keys/option_sections.h"
#include "inputs/keys/option_words.h"

namespace throughbend
{
using namespace option_words;

namespace
{
void add_flaw(Options &o, std::size_t i)
{
  const std::string section = flaw_section(i);
  const auto        here    = [i](auto member)
  { return [i, member](Case &c) -> decltype(auto) { return (c.flaws.each[i].*member); }; };
  const auto only_flawed = [&](Entry entry)
  {
    return std::move(entry).only(section + ".depth above 0", {section + ".depth"},
                                 [i](const Case &c) { return c.flaws.each[i].present(); });
  };

  Entry depth =
      length(section + ".depth", between(0, 150), here(&Flaw::depth),
             "Depth of the flaw's deeper edge below the surface; 0 mm = no flaw. A flaw "
             "is a plane in the weld that did not fuse, over the whole width.")
          .otherwise("0 mm");
  if (i > 0)
  {
    const std::string before = flaw_section(i - 1) + ".depth";
    depth =
        std::move(depth).only(before + " above 0", {before},
                              [i](const Case &c) { return c.flaws.each[i - 1].present(); });
  }
  add(o, std::move(depth));
  add(o,
      only_flawed(choice(section + ".line", {"centre", "left", "right"}, here(&Flaw::line),
                         "Line of the flaw: the weld's centre (lack of root fusion, a "
                         "notch), or the left or right fusion line (lack of side-wall "
                         "fusion).")
                      .otherwise("centre")));
  // Depths count from the root unless told otherwise: that is where fusion lacks most.
  ChoiceSlot surface;
  surface.names = {"root", "face"};
  surface.get   = [i](const Case &c) -> std::size_t
  { return c.flaws.each[i].surface == BendKind::root ? 0 : 1; };
  surface.set = [i](Case &c, std::size_t choice)
  { c.flaws.each[i].surface = choice == 0 ? BendKind::root : BendKind::face; };
  add(o, only_flawed(entry(section + ".surface", surface,
                           "Surface of the weld from which depths are measured, flush "
                           "with the plate.")
                         .otherwise("root")));
  add(o, only_flawed(length(section + ".from", between(0, 150), here(&Flaw::from),
                            "Depth of the flaw's nearer edge; 0 mm = open at the "
                            "surface; above 0 mm = buried.")
                         .otherwise("0 mm")));
  add(o, only_flawed(length(section + ".width", between(0, 50), here(&Flaw::width),
                            "Gap between the two faces of the flaw before the bend; 0 "
                            "mm = they touch.")
                         .otherwise("0 mm")));
}
} // namespace

void add_flaw_options(Options &o)
{
  for (std::size_t i = 0; i < most_flaws; ++i)
    add_flaw(o, i);
}
} // namespace throughbend
