#include "postprocess/app/catalogue_verbs.h"

#include "postprocess/app/help.h"
#include "postprocess/words/catalogue_text.h"
#include "postprocess/words/caution.h"

namespace throughbend
{
namespace
{
VerbOption own_file(const std::string &of_what)
{
  return {"catalogue",
          "FILE",
          "your own " + of_what +
              ", with the columns of the built-in file. Rows are added to the built-in "
              "ones; a row of the same name replaces one",
          {}};
}

ExitCode list_rules(const std::vector<std::string> &words)
{
  const VerbArguments given = verb_arguments(rules_verb(), words);
  if (given.help)
    return show(verb_help(rules_verb()));
  return show(rules_text(rules_with(given.value("catalogue")), built_in_coupon_rules(),
                         built_in_surface_limits()));
}

ExitCode list_materials(const std::vector<std::string> &words)
{
  const VerbArguments given = verb_arguments(materials_verb(), words);
  if (given.help)
    return show(verb_help(materials_verb()));
  const MaterialCatalogue catalogue = materials_with(given.value("catalogue"));
  return show(given.operands.empty()
                  ? materials_text(catalogue, units_of(given))
                  : material_text(catalogue.row(given.operands.front()), units_of(given)));
}

ExitCode list_lubricants(const std::vector<std::string> &words)
{
  const VerbArguments given = verb_arguments(lubricants_verb(), words);
  if (given.help)
    return show(verb_help(lubricants_verb()));
  return show(lubricants_text(lubricants_with(given.value("catalogue"))));
}
} // namespace

Verb rules_verb()
{
  return {"rules",
          "",
          "published rules for fixtures, coupons and open defects",
          "Lists the built-in rules with standard, edition and clause, and the source "
          "of their figures. throughbend fixture prints the dimensions by one of them.",
          {own_file("fixture rules")},
          CaseKeys::none,
          0,
          list_rules};
}

Verb materials_verb()
{
  return {"materials",
          "[GRADE]",
          "the metals a case can name, or one of them in full",
          "Lists the metals with their figures; in a case: [material] grade = NAME. A row "
          "is a starting point only: your plate's certificate takes precedence.",
          {own_file("metals"), units_option("of the printed output")},
          CaseKeys::none,
          1,
          list_materials};
}

Verb lubricants_verb()
{
  return {"lubricants",
          "",
          "the lubricants a case can name, with their friction",
          "Lists the friction coefficients with their range and source; in a case: "
          "[friction] lubricant = NAME.",
          {own_file("lubricants")},
          CaseKeys::none,
          0,
          list_lubricants};
}
} // namespace throughbend
