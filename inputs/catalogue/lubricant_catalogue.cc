#include "inputs/catalogue/lubricant_catalogue.h"

#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"

#include <algorithm>

namespace throughbend
{
namespace
{
const CatalogueColumns &columns()
{
  static const CatalogueColumns known = {{"lubricant", "pair", "low", "typical", "high",
                                          "static", "kinetic", "source", "how", "note"},
                                         {"lubricant", "low", "typical", "high", "how"}};
  return known;
}

double coefficient(const CatalogueRow &row, const std::string &column,
                   std::vector<CatalogueFault> &faults)
{
  if (row.cell(column).empty())
    return 0;
  const Quantity value = read_quantity(row.cell(column), UnitKind::ratio);
  if (!value.ok())
    faults.push_back(cell_fault(row, column, value.error));
  else if (value.value < 0 || value.value > 1)
    faults.push_back(cell_fault(row, column, "must be from 0 to 1"));
  return value.value;
}

Lubricant lubricant_of(const CatalogueRow &row, std::vector<CatalogueFault> &faults)
{
  const std::size_t before = faults.size();
  Lubricant         made;
  made.place   = row.place;
  made.name    = row.cell("lubricant");
  made.pair    = row.cell("pair");
  made.source  = row.cell("source");
  made.note    = row.cell("note");
  made.low     = coefficient(row, "low", faults);
  made.typical = coefficient(row, "typical", faults);
  made.high    = coefficient(row, "high", faults);
  made.at_rest = coefficient(row, "static", faults);
  made.sliding = coefficient(row, "kinetic", faults);
  made.how     = read_how(row.cell("how"));
  if (!is_catalogue_name(made.name))
    faults.push_back(cell_fault(row, "lubricant",
                                "is no name; use a-z, 0-9 and single dashes, as in "
                                "yard-grease"));
  if (!made.how.error.empty())
    faults.push_back(cell_fault(row, "how", made.how.error));
  if (faults.size() == before && (made.low > made.typical || made.typical > made.high))
    faults.push_back(
        cell_fault(row, "typical", "must lie between low and high, ends included"));
  return made;
}

LubricantReading from_sheet(CatalogueSheet sheet)
{
  LubricantReading reading;
  reading.faults = std::move(sheet.faults);
  for (const CatalogueRow &row : sheet.rows)
  {
    const std::size_t before = reading.faults.size();
    const Lubricant   made   = lubricant_of(row, reading.faults);
    if (reading.faults.size() > before)
      continue;
    const auto twin =
        std::find_if(reading.rows.begin(), reading.rows.end(),
                     [&](const Lubricant &other) { return other.name == made.name; });
    if (twin != reading.rows.end())
      reading.faults.push_back(
          cell_fault(row, "lubricant", "is there twice, first at " + twin->place));
    else
      reading.rows.push_back(made);
  }
  return reading;
}
} // namespace

const Lubricant *LubricantCatalogue::find(const std::string &name) const
{
  for (const Lubricant &row : rows_)
    if (row.name == name)
      return &row;
  return nullptr;
}

const Lubricant &LubricantCatalogue::row(const std::string &name) const
{
  if (const Lubricant *found = find(name))
    return *found;
  std::vector<std::string> names;
  for (const Lubricant &row : rows_)
    names.push_back(row.name);
  const auto nearest = nearest_name(name, names);
  throw InputError("there is no lubricant '" + clipped(name, 60) + "'" +
                   (nearest ? "; did you mean '" + *nearest + "'?"
                            : "; throughbend lubricants lists all"));
}

LubricantReading read_lubricants(std::string_view text, const std::string &name)
{
  return from_sheet(read_sheet(text, name, columns()));
}

const LubricantCatalogue &built_in_lubricants()
{
  static const LubricantCatalogue catalogue(
      read_lubricants(lubricants_csv(), "lubricants.csv").rows);
  return catalogue;
}

LubricantCatalogue lubricants_with(const std::string &path)
{
  if (path.empty())
    return built_in_lubricants();
  const LubricantReading own = from_sheet(read_sheet_file(path, columns()));
  if (!own.faults.empty())
    throw InputError(fault_list(own.faults));
  return LubricantCatalogue(shadowed(built_in_lubricants().rows(), own.rows,
                                     [](const Lubricant &row) { return row.name; }));
}

std::vector<CatalogueFault> faults_of_lubricants(const std::string &path)
{
  if (path.empty())
    return {};
  return from_sheet(read_sheet_file(path, columns())).faults;
}

Lubricant lubricant(const std::string &name)
{
  return built_in_lubricants().row(name);
}
} // namespace throughbend
