#include "inputs/keys/spread.h"

#include "inputs/catalogue/lubricant_catalogue.h"
#include "inputs/keys/option_table.h"
#include "inputs/keys/strength_spread.h"
#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"

#include <algorithm>

namespace throughbend
{
namespace
{
constexpr const char *catalogue_word = "catalogue";
constexpr const char *follow_word    = "as ";

/// JCGM 100:2008 (GUM), 4.3.7, from memory: where nothing but limits is known, a value is
/// equally probable anywhere between them.
constexpr const char *tolerance_source =
    "uniform within the tolerance: JCGM 100:2008, 4.3.7 (from memory)";

KeySpreadReading fault(const std::string &problem, const std::string &allowed)
{
  KeySpreadReading reading;
  reading.error   = problem;
  reading.allowed = allowed;
  return reading;
}

/// From the catalogue's range of what is between coupon and tools.
KeySpreadReading lubricant_spread(KeySpread spread, const Case &own)
{
  const std::string name =
      own.friction.lubricant.empty() ? "grease" : own.friction.lubricant;
  KeySpreadReading reading;
  reading.spread = std::move(spread);
  try
  {
    const Lubricant row = lubricants_with(own.friction.catalogue).row(name);
    if (!(row.low < row.high))
      return fault("the catalogue has one figure for " + name + " and no range",
                   "allowed: a law of your own");
    reading.spread.law.kind   = ScatterKind::triangular;
    reading.spread.law.first  = row.low;
    reading.spread.law.second = row.typical;
    reading.spread.law.third  = row.high;
    reading.spread.source     = "low, typical and high of " + name + ": " + row.source +
                            "; the triangle is assumed" +
                            (own.friction.lubricant.empty()
                                 ? "; grease is assumed, friction.lubricant names none"
                                 : "");
  }
  catch (const InputError &problem)
  {
    return fault(problem.what(), "");
  }
  return reading;
}

KeySpreadReading catalogue_spread(KeySpread spread, const Option &option, const Case &own)
{
  if (option.section == "friction")
    return lubricant_spread(std::move(spread), own);
  const bool strength =
      option.key() == "material.yield" ||
      (option.key() == "material.strength" && own.material.flow.law == HardeningLaw::swift);
  if (!strength)
    return fault("no catalogue has the scatter of this key",
                 "allowed: catalogue for material.yield (of a swift curve: "
                 "material.strength) and for friction; else a law of your own");
  KeySpreadReading  reading;
  Case              copy = own;
  const StrengthLaw known =
      strength_law(own.material, std::get<NumberSlot>(option.slot).at(copy));
  reading.spread        = std::move(spread);
  reading.spread.law    = known.law;
  reading.spread.source = known.source;
  return reading;
}

KeySpreadReading follow_spread(KeySpread spread, std::string_view key, const Case &own)
{
  const std::string name(trimmed(key));
  const Option     *other = find_option(name);
  if (other == nullptr)
  {
    const auto nearest = nearest_key(name);
    return fault("there is no key '" + clipped(name, 60) + "'" +
                     (nearest ? ", did you mean '" + *nearest + "'?" : ""),
                 "");
  }
  if (const std::string why = why_no_spread(*other, own); !why.empty())
    return fault(name + " " + why, "");
  if (name == spread.key)
    return fault("follows itself", "allowed: another key, or a law");
  if (std::get<NumberSlot>(other->slot).kind != spread.kind)
    return fault(name + " is no " + to_text(spread.kind), "");
  KeySpreadReading reading;
  reading.spread         = std::move(spread);
  reading.spread.follows = name;
  reading.spread.source  = "the value of " + name;
  return reading;
}

/// Whether all that a law can give may stand in the case.
void check_range(KeySpreadReading &reading, const NumberSlot &slot)
{
  const ScatterLaw &law   = reading.spread.law;
  const double      least = law.practical_least(), largest = law.practical_largest();
  for (const double end : {least, largest})
    if (reading.error.empty() && !slot.range.contains(end))
    {
      reading.error = "reaches to " + to_text(end, slot.kind, UnitSystem::metric);
      reading.allowed =
          "allowed: " + slot.range.text(slot.kind, UnitSystem::metric) +
          (law.kind == ScatterKind::normal || law.kind == ScatterKind::lognormal
               ? "; cut the law with limits LOW, HIGH behind it"
               : "");
    }
}
} // namespace

std::string why_no_spread(const Option &option, const Case &own)
{
  if (!std::holds_alternative<NumberSlot>(option.slot))
    return "takes no number that could scatter";
  for (const char *section : {"mesh", "solver", "output"})
    if (option.section == section)
      return "is a setting of the computation and does not scatter";
  if (option.applies && !option.applies(own))
    return "has no effect here (only: " + option.applies_text + ")" +
           (option.key() == "material.yield"
                ? "; the whole of a power law scatters with material.strength"
                : "");
  return "";
}

KeySpreadReading read_key_spread(const Option &option, std::string_view text,
                                 const Case &own)
{
  if (const std::string why = why_no_spread(option, own); !why.empty())
    return fault(why, "allowed: keys with a number and a unit that this case uses");
  const NumberSlot &slot = std::get<NumberSlot>(option.slot);
  Case              copy = own;
  const double      mine = slot.at(copy);
  const std::string words(trimmed(text));
  KeySpread         spread;
  spread.key  = option.key();
  spread.kind = slot.kind;
  spread.says = words;
  if (words == catalogue_word)
  {
    KeySpreadReading reading = catalogue_spread(std::move(spread), option, own);
    if (reading.error.empty())
      check_range(reading, slot);
    return reading;
  }
  if (words.rfind(follow_word, 0) == 0)
    return follow_spread(std::move(spread), words.substr(3), own);

  KeySpreadReading     reading;
  const ScatterReading law = read_scatter(words, slot.kind, mine);
  reading.spread           = std::move(spread);
  reading.spread.law       = law.law;
  reading.spread.source    = law.tolerance ? tolerance_source : "as told";
  reading.error            = law.error;
  if (!reading.error.empty())
  {
    reading.allowed = "allowed: " + scatter_notation() + " | catalogue | as OTHER.KEY";
    return reading;
  }
  check_range(reading, slot);
  if (mine < law.law.practical_least() || mine > law.law.practical_largest())
    reading.remark = "the case's own value, " +
                     to_text(mine, slot.kind, UnitSystem::metric) +
                     ", lies outside the range in [spread]";
  return reading;
}

std::vector<SpreadFault> spread_faults(const std::vector<KeySpread> &spreads)
{
  std::vector<SpreadFault> faults;
  for (std::size_t i = 0; i < spreads.size(); ++i)
  {
    if (spreads[i].follows.empty())
      continue;
    const auto leader =
        std::find_if(spreads.begin(), spreads.end(),
                     [&](const KeySpread &s) { return s.key == spreads[i].follows; });
    if (leader == spreads.end())
      faults.push_back({i, "follows a key that does not scatter",
                        "give " + spreads[i].follows + " a law in [spread]"});
    else if (!leader->follows.empty())
      faults.push_back(
          {i, "follows a key that itself follows another", "write as " + leader->follows});
  }
  return faults;
}

std::string spread_text(const std::vector<KeySpread> &spreads)
{
  if (spreads.empty())
    return "";
  std::string text = "\n[" + std::string(spread_section) + "]\n";
  for (const KeySpread &s : spreads)
    text += "# written as " + s.says + "; " + s.source + "\n" + s.key + " = " +
            (s.follows.empty() ? exact_text(s.law, s.kind) : follow_word + s.follows) +
            "\n";
  return text;
}

std::string spread_help()
{
  return "Scatter of a key from coupon to coupon. Only throughbend spread uses it. Any "
         "key above with a number can be used, except in mesh, solver and output. "
         "Value: " +
         scatter_notation() +
         " | catalogue | as OTHER.KEY. A tolerance is a uniform distribution (JCGM "
         "100:2008, 4.3.7, from memory). lognormal: two thirds lie between median / "
         "FACTOR and median x FACTOR. catalogue: scatter of the plate's strength, or "
         "range of the lubricant. as: the same value as the other key, for example the "
         "same grease everywhere. Example of a law: 9.53 mm +- 0.10 mm";
}
} // namespace throughbend
