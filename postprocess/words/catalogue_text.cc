#include "postprocess/words/catalogue_text.h"

#include "inputs/keys/case_text.h"
#include "inputs/keys/option_table.h"
#include "inputs/text/plain_text.h"
#include "inputs/text/text_columns.h"
#include "inputs/units/display_units.h"

#include <set>

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92;

const std::string confirm =
    "Confirm figures from memory, and preferably all figures, in the current edition of "
    "the standard, which governs.";

std::string source_of(const std::string &standard, const std::string &edition,
                      const std::string &clause)
{
  return standard + (clause.empty() ? "" : ", " + clause) +
         (edition.empty() ? "" : " (edition: " + edition + ")");
}

std::string how_text(const HowNotes &how)
{
  std::string text = to_text(how.row);
  if (how.row != How::from_memory && how.any(How::from_memory))
    text += ", in part from memory";
  return text;
}

/// Name, source, what for; rows of one rule come once.
template <class Row, class WordsOf>
std::string rule_list(const std::vector<Row> &rows, WordsOf words_of)
{
  std::string           text;
  std::set<std::string> given;
  for (const Row &row : rows)
    if (given.insert(row.rule).second)
      text += "  " + row.rule + "\n" +
              wrapped(source_of(row.standard, row.edition, row.clause) + "; " +
                          words_of(row) + "; " + how_text(row.how),
                      "      ", columns);
  return text;
}

std::string percent_or_dash(double share)
{
  return share > 0 ? percent_text(share) : "-";
}
} // namespace

std::string rules_text(const RuleCatalogue &rules, const std::vector<CouponRule> &coupons,
                       const std::vector<SurfaceLimit> &limits)
{
  std::string text = "Fixture rules\n";
  text += rule_list(rules.rows(), [](const FixtureRule &row)
                    { return to_text(row.jig) + ": " + row.applies_to; });
  text += "\nFamilies of rules, chosen by yield strength or elongation\n";
  for (const std::string &family : rules.families())
  {
    std::string members;
    for (const std::string &rule : rules.rules_of(family))
      members += (members.empty() ? "" : ", ") + rule;
    text += "  " + family + "\n" + wrapped(members, "      ", columns);
  }
  text += "\nCoupon rules\n" +
          rule_list(
              coupons, [](const CouponRule &row)
              { return row.bend == "any" ? std::string("any bend") : row.bend + " bend"; });
  text += "\nOpen defects on the convex surface\n" +
          rule_list(limits,
                    [](const SurfaceLimit &row)
                    {
                      std::string words = "single " + row.single.text;
                      if (row.sum.present())
                        words +=
                            ", sum of those " + row.counted_from.text + ": " + row.sum.text;
                      if (row.corner_crack.present())
                        words += ", corner crack " + row.corner_crack.text;
                      return words;
                    });
  return text + "\n" + wrapped(confirm, "", columns);
}

std::string materials_text(const MaterialCatalogue &catalogue, UnitSystem units)
{
  TextColumns table({"grade", "kind", "yield", "tensile", "elongation", "law", "standard"});
  for (const MaterialRow &row : catalogue.rows())
    table.add({row.grade(), to_text(row.kind), stress_text(row.material.flow.yield, units),
               stress_text(row.material.tensile_strength, units),
               percent_or_dash(row.material.elongation), to_text(row.material.flow.law),
               row.standard + (row.for_thickness.empty() ? "" : ", " + row.for_thickness)});
  return table.text() + "\n" +
         wrapped(
             "minimum: the least that the standard requires; real plate is stronger and "
             "takes more force. typical: as delivered. throughbend materials NAME "
             "prints one metal in full. " +
                 confirm,
             "", columns);
}

std::string material_text(const MaterialRow &row, UnitSystem units)
{
  Case c;
  c.material       = row.material;
  std::string text = row.grade() + ": " + to_text(row.kind) +
                     (row.standard.empty() ? "" : ", " + row.standard) +
                     (row.for_thickness.empty() ? "" : ", thickness " + row.for_thickness) +
                     "\n";
  TextColumns table({"key", "value", "how"});
  for (const Option &option : option_table())
  {
    if (option.section != "material" || option.name == "grade" || option.only_origin ||
        (option.applies && !option.applies(c)))
      continue;
    std::string value = value_text(option, c);
    if (const auto *number = std::get_if<NumberSlot>(&option.slot))
    {
      value = to_text(number->at(c), number->kind, units);
      if (option.name == "elongation" && number->at(c) > 0)
        value = percent_text(number->at(c));
      if ((option.name == "elongation" || option.name == "limit_strain") &&
          number->at(c) <= 0)
        value = "not known";
    }
    // Which law describes the figures is our choice; nobody read or computed it.
    const bool chosen = std::holds_alternative<ChoiceSlot>(option.slot);
    table.add({option.name, value,
               chosen || value == "not known" ? "" : to_text(row.how.of(option.name))});
  }
  text += table.text();
  text += "  yields at " + stress_text(row.material.flow.initial_stress(), units) + "\n";
  if (row.tensile_strength_to > 0)
    text +=
        "  tensile strength up to " + stress_text(row.tensile_strength_to, units) + "\n";
  if (!row.source.empty())
    text += wrapped("Source: " + row.source, "  ", columns);
  if (!row.note.empty())
    text += wrapped(row.note, "  ", columns);
  if (row.how.any(How::from_memory))
    text += wrapped(confirm, "  ", columns);
  return text;
}

std::string lubricants_text(const LubricantCatalogue &catalogue)
{
  TextColumns table({"lubricant", "low", "typical", "high", "between", "how"});
  std::string notes;
  for (const Lubricant &row : catalogue.rows())
  {
    table.add({row.name, decimal_text(row.low, 3), decimal_text(row.typical, 3),
               decimal_text(row.high, 3), row.pair, how_text(row.how)});
    notes +=
        wrapped(row.name + ": " + row.source + (row.note.empty() ? "." : ". " + row.note),
                "  ", columns);
  }
  return table.text() + "\nSources\n" + notes + "\n" +
         wrapped("Friction coefficients differ widely between handbooks: compute with "
                 "the low and the high value before you trust a force.",
                 "", columns);
}
} // namespace throughbend
