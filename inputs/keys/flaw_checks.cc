#include "inputs/keys/flaw_checks.h"

#include "inputs/units/units.h"

#include <cmath>

namespace throughbend
{
namespace
{
// Shares of the plate's thickness: of the shortest flaw and the thinnest bridge of metal
// that can be cut into cells, and of the least distance between tips in height.
constexpr double shortest_flaw = 0.02;
constexpr double least_bridge  = 0.05;
constexpr double least_apart   = 0.02;

using Objections = std::vector<Objection>;

std::string mm(double length)
{
  return to_text(length, UnitKind::length, UnitSystem::metric);
}

/// Whether this model has the plane that flaws lie in.
bool check_model(const Case &c, Objections &found)
{
  const std::size_t before = found.size();
  if (!c.weld.has_metal())
    found.push_back({{"flaw.depth", "weld.preparation", "weld.width"},
                     "a flaw lies in a weld, and this coupon has no weld metal",
                     "a weld (weld.preparation, weld.width), or flaw.depth = 0 mm"});
  else if (c.mesh.dimension == 3)
    found.push_back({{"mesh.dimension", "flaw.depth"},
                     "flaws are modelled in plane strain only, all across the width",
                     "mesh.dimension = 2, or flaw.depth = 0 mm"});
  else if (c.weld.run == WeldRun::longitudinal)
    found.push_back({{"weld.direction", "flaw.depth"},
                     "a flaw along the coupon needs a model with its width",
                     "weld.direction = transverse, or flaw.depth = 0 mm"});
  else if (c.weld.bend == BendKind::side)
    found.push_back({{"weld.bend", "flaw.depth"},
                     "in a side bend a flaw's depth runs across the width, which plane "
                     "strain does not have",
                     "weld.bend = face or root, or flaw.depth = 0 mm"});
  return found.size() == before;
}

void check_depths(const Case &c, std::size_t i, Objections &found)
{
  const Flaw       &flaw    = c.flaws.each[i];
  const std::string section = flaw_section(i);
  const double      t       = c.coupon.thickness;
  const auto refuse = [&](const std::vector<std::string> &names, const std::string &problem,
                          const std::string &cure)
  {
    std::vector<std::string> keys;
    for (const std::string &name : names)
      keys.push_back(name.find('.') == std::string::npos ? section + "." + name : name);
    found.push_back({keys, problem, cure});
  };
  if (flaw.depth > (1 - least_bridge) * t)
    refuse({"depth", "coupon.thickness"},
           flaw.depth >= t
               ? "the flaw is " + mm(flaw.depth) + " deep in a coupon " + mm(t) + " thick"
               : "the flaw leaves a bridge of " + mm(t - flaw.depth) +
                     " only, too thin for cells",
           section + ".depth up to " + mm((1 - least_bridge) * t) + ", 95 % of coupon." +
               "thickness");
  else if (flaw.depth - flaw.from < shortest_flaw * t)
    refuse({"from", "depth"},
           flaw.from >= flaw.depth ? "the flaw would end at " + mm(flaw.depth) +
                                         " where it begins at " + mm(flaw.from)
                                   : "from " + mm(flaw.from) + " to " + mm(flaw.depth) +
                                         " the flaw is too short for cells",
           section + ".depth at least " + mm(flaw.from + shortest_flaw * t) +
               ": 2 % of the thickness below its nearer edge");
  else if (flaw.from > 0 && flaw.from < least_bridge * t)
    refuse({"from", "coupon.thickness"},
           "the bridge between surface and flaw is " + mm(flaw.from) +
               " only, too thin for cells",
           section + ".from = 0 mm, or from " + mm(least_bridge * t) +
               ", 5 % of coupon.thickness");

  const double widest = std::min((flaw.depth - flaw.from) / 2, c.weld.gap() / 2);
  if (flaw.width > widest && flaw.depth > flaw.from)
    refuse({"width", "depth", "weld.width", "weld.root_opening"},
           "a gap of " + mm(flaw.width) + " is too wide for a flaw",
           section + ".width up to " + mm(widest) +
               ": half of its height and half of the weld's gap");
}

void check_pair(const Case &c, std::size_t i, std::size_t j, Objections &found)
{
  const Flaw                    &a = c.flaws.each[i], &b = c.flaws.each[j];
  const double                   t = c.coupon.thickness;
  const auto                     x = flaw_span(a, c.weld, t), y = flaw_span(b, c.weld, t);
  const std::vector<std::string> keys = {
      flaw_section(j) + ".depth", flaw_section(j) + ".from", flaw_section(i) + ".depth"};
  if (a.line == b.line && x.low < y.high + least_bridge * t &&
      y.low < x.high + least_bridge * t)
  {
    found.push_back({keys, "two flaws on one line overlap or leave no bridge between them",
                     "one flaw in their place, another " + flaw_section(j) +
                         ".line, or 5 % of coupon.thickness between them"});
    return;
  }
  // Rows of the mesh run through all tips.
  for (const double p : {x.low, x.high})
    for (const double q : {y.low, y.high})
      if (p != q && std::abs(p - q) < least_apart * t)
      {
        found.push_back({keys,
                         "edges of two flaws differ by " + mm(std::abs(p - q)) +
                             " in height, too little for a row of cells",
                         "the same depth, or " + mm(least_apart * t) + " between them"});
        return;
      }
}
} // namespace

std::vector<Objection> find_flaw_objections(const Case &c)
{
  Objections found;
  if (!c.flaws.present() || !check_model(c, found))
    return found;
  for (std::size_t i = 0; i < most_flaws; ++i)
    if (c.flaws.each[i].present())
      check_depths(c, i, found);
  if (!found.empty())
    return found;
  for (std::size_t j = 1; j < most_flaws; ++j)
    for (std::size_t i = 0; i < j; ++i)
      if (c.flaws.each[i].present() && c.flaws.each[j].present())
        check_pair(c, i, j, found);
  return found;
}
} // namespace throughbend
