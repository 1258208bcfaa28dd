#include "inputs/keys/material_catalogue.h"

#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/keys/option_table.h"
#include "inputs/keys/validation.h"
#include "inputs/text/file_text.h"
#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"
#include "inputs/units/display_units.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// Keys of the section material that are columns; the others say where the metal is from.
bool is_column(const Option &option)
{
  return option.section == "material" && option.name != "grade" && !option.only_origin;
}

CatalogueColumns columns()
{
  CatalogueColumns columns{{"grade", "kind", "standard", "for_thickness",
                            "tensile_strength_to", "source", "how", "note"},
                           {"grade", "law", "how"}};
  for (const Option &option : option_table())
    if (is_column(option))
      columns.known.push_back(option.name);
  return columns;
}

/// A swift row may name the yield stress instead of the prestrain that follows from it.
void derive_prestrain(const CatalogueRow &row, Case &c, std::vector<CatalogueFault> &faults)
{
  FlowCurve &flow = c.material.flow;
  if (flow.law != HardeningLaw::swift)
    return;
  if (!row.cell("prestrain").empty())
  {
    if (!row.cell("yield").empty())
      faults.push_back(
          cell_fault(row, "yield", "follows from the prestrain; leave one of them empty"));
    return;
  }
  const Quantity yield = read_quantity(row.cell("yield"), UnitKind::stress);
  if (row.cell("yield").empty())
    faults.push_back(cell_fault(row, "prestrain", "swift needs a prestrain or a yield"));
  else if (!yield.ok())
    faults.push_back(cell_fault(row, "yield", yield.error));
  else if (!(yield.value > 0 && yield.value < flow.strength))
    faults.push_back(cell_fault(row, "yield", "must be above 0 and below the strength"));
  else
    flow.prestrain = std::pow(yield.value / flow.strength, 1 / flow.exponent);
}

void set_column(const CatalogueRow &row, const Option &option, Case &c,
                std::vector<CatalogueFault> &faults)
{
  const std::string &cell  = row.cell(option.name);
  const bool         swift = c.material.flow.law == HardeningLaw::swift;
  if (swift && (option.name == "yield" || (option.name == "prestrain" && cell.empty())))
    return; // one follows from the other, below
  if (option.applies && !option.applies(c))
  {
    if (!cell.empty())
      faults.push_back(cell_fault(row, option.name,
                                  "has no effect here (only: " + option.applies_text +
                                      "); leave it empty"));
    return;
  }
  if (!cell.empty())
  {
    const Setting setting = set_option(option, cell, c);
    if (!setting.error.empty())
      faults.push_back(
          cell_fault(row, option.name,
                     setting.error + "; allowed: " + allowed_text(option, setting.system)));
  }
  else if (!set_default(option, c).error.empty() && !option.rule)
    faults.push_back(cell_fault(
        row, option.name, "is required here; " + allowed_text(option, UnitSystem::metric)));
}

/// Of cells left empty whose value follows from others: what follows is out of range. Asked
/// when nothing else is wrong with the row, since else it may follow from that.
void check_derived(const CatalogueRow &row, const Case &c,
                   std::vector<CatalogueFault> &faults)
{
  for (const Option &option : option_table())
    if (is_column(option) && option.rule && row.cell(option.name).empty() &&
        (!option.applies || option.applies(c)))
    {
      Case          derived = c;
      const Setting made    = set_default(option, derived);
      if (!made.error.empty())
        faults.push_back(cell_fault(row, option.name, made.error));
    }
}

MetalKind kind_of(const CatalogueRow &row, std::vector<CatalogueFault> &faults)
{
  for (const MetalKind kind : {MetalKind::minimum, MetalKind::typical, MetalKind::invented})
    if (row.cell("kind") == to_text(kind))
      return kind;
  if (!row.cell("kind").empty())
    faults.push_back(
        cell_fault(row, "kind", "is not one of: empty, minimum, typical, invented"));
  return MetalKind::typical;
}

MaterialRow material_row(const CatalogueRow &row, std::vector<CatalogueFault> &faults)
{
  const std::size_t before = faults.size();
  Case              c;
  if (!is_catalogue_name(row.cell("grade")))
    faults.push_back(cell_fault(row, "grade",
                                "is no name; use a-z, 0-9 and single dashes, as in "
                                "yard-plate"));
  // The table's order: what a key looks at is set before it. The prestrain comes in
  // between, because the tensile strength by default follows from the whole curve.
  for (const Option &option : option_table())
    if (is_column(option))
    {
      if (option.name == "last_strain" && faults.size() == before)
        derive_prestrain(row, c, faults);
      set_column(row, option, c, faults);
    }
  c.material.flow.settle_yield();

  MaterialRow made;
  made.place          = row.place;
  made.kind           = kind_of(row, faults);
  made.standard       = row.cell("standard");
  made.for_thickness  = row.cell("for_thickness");
  made.source         = row.cell("source");
  made.note           = row.cell("note");
  made.how            = read_how(row.cell("how"));
  made.material       = c.material;
  made.material.grade = row.cell("grade");
  if (!made.how.error.empty())
    faults.push_back(cell_fault(row, "how", made.how.error));
  if (!row.cell("tensile_strength_to").empty())
  {
    const Quantity to = read_quantity(row.cell("tensile_strength_to"), UnitKind::stress);
    if (!to.ok())
      faults.push_back(cell_fault(row, "tensile_strength_to", to.error));
    made.tensile_strength_to = to.value;
  }
  if (faults.size() == before)
    for (const Objection &objection : find_material_objections(made.material))
      faults.push_back(cell_fault(row, objection.keys.front().substr(9),
                                  objection.problem + "; allowed: " + objection.cure));
  if (faults.size() == before)
    check_derived(row, c, faults);
  return made;
}

MaterialReading from_sheet(CatalogueSheet sheet)
{
  MaterialReading reading;
  reading.faults = std::move(sheet.faults);
  for (const CatalogueRow &row : sheet.rows)
  {
    const std::size_t before = reading.faults.size();
    const MaterialRow made   = material_row(row, reading.faults);
    if (reading.faults.size() > before)
      continue;
    const auto twin = std::find_if(reading.rows.begin(), reading.rows.end(),
                                   [&](const MaterialRow &other)
                                   { return other.grade() == made.grade(); });
    if (twin != reading.rows.end())
      reading.faults.push_back(
          cell_fault(row, "grade", "is there twice, first at " + twin->place));
    else
      reading.rows.push_back(made);
  }
  return reading;
}
} // namespace

std::string to_text(MetalKind kind)
{
  switch (kind)
  {
  case MetalKind::minimum:
    return "minimum";
  case MetalKind::typical:
    return "typical";
  case MetalKind::invented:
    return "invented";
  }
  return "";
}

const MaterialRow *MaterialCatalogue::find(const std::string &grade) const
{
  for (const MaterialRow &row : rows_)
    if (row.grade() == grade)
      return &row;
  return nullptr;
}

const MaterialRow &MaterialCatalogue::row(const std::string &grade) const
{
  if (const MaterialRow *found = find(grade))
    return *found;
  std::vector<std::string> names;
  for (const MaterialRow &row : rows_)
    names.push_back(row.grade());
  const auto nearest = nearest_name(grade, names);
  throw InputError("there is no grade '" + clipped(grade, 60) + "'" +
                   (nearest ? "; did you mean '" + *nearest + "'?"
                            : "; throughbend materials lists all"));
}

MaterialReading read_materials(std::string_view text, const std::string &name)
{
  return from_sheet(read_sheet(text, name, columns()));
}

const MaterialCatalogue &built_in_materials()
{
  static const MaterialCatalogue catalogue(
      read_materials(materials_csv(), "materials.csv").rows);
  return catalogue;
}

MaterialCatalogue materials_with(const std::string &path)
{
  if (path.empty())
    return built_in_materials();
  const MaterialReading own = from_sheet(read_sheet_file(path, columns()));
  if (!own.faults.empty())
    throw InputError(fault_list(own.faults));
  return MaterialCatalogue(shadowed(built_in_materials().rows(), own.rows,
                                    [](const MaterialRow &row) { return row.grade(); }));
}

std::vector<CatalogueFault> faults_of_materials(const std::string &path)
{
  if (path.empty())
    return {};
  return from_sheet(read_sheet_file(path, columns())).faults;
}

std::string least_strength_words(const Material &material)
{
  const MaterialRow *row  = built_in_materials().find(material.grade);
  const auto         same = [](double a, double b) { return std::abs(a - b) < 1e-6 * b; };
  if (row == nullptr || row->kind != MetalKind::minimum || !material.catalogue.empty() ||
      !same(material.flow.initial_stress(), row->material.flow.initial_stress()) ||
      !same(material.flow.stress(0.1), row->material.flow.stress(0.1)))
    return "";
  const double share = row->tensile_strength_to / row->material.tensile_strength - 1;
  return material.grade + " is the least that " + row->standard +
         " requires: real plate is stronger" +
         (share > 0 ? " (in tensile strength by up to " + percent_text(share) + ")" : "") +
         " and takes more force; see its certificate";
}

std::string other_thickness_words(const Material &material, const double thickness)
{
  if (material.grade.empty())
    return "";
  const MaterialCatalogue  own = materials_with(material.catalogue);
  const MaterialRow *const row = own.find(material.grade);
  if (row == nullptr)
    return "";
  const RangeCell made_for = read_range(row->for_thickness, UnitKind::length);
  if (!made_for.error.empty() || made_for.takes(thickness))
    return "";
  return material.grade + " is for plates of a thickness " + row->for_thickness +
         ", and the coupon is " + to_text(thickness, UnitKind::length, UnitSystem::metric) +
         " thick: look for the row of that thickness in throughbend materials";
}

Material grade(const std::string &name)
{
  return built_in_materials().row(name).material;
}

Material grade(const std::string &name, const std::string &catalogue_path)
{
  if (catalogue_path.empty())
    return grade(name);
  // A case asks for its grade once per key. The text of the file is the key to what was
  // read last: cheap to compare, and true when the file changes.
  struct Last
  {
    std::string     path, text;
    MaterialReading own;
  };
  thread_local Last last;
  const FileText    file = read_file_text(catalogue_path);
  if (last.path != catalogue_path || last.text != file.text || !file.problem.empty())
    last = {catalogue_path, file.text,
            from_sheet(read_sheet_file(catalogue_path, columns()))};
  if (!last.own.faults.empty())
    throw InputError(fault_list(last.own.faults));
  for (const MaterialRow &row : last.own.rows)
    if (row.grade() == name)
      return row.material;
  if (const MaterialRow *built_in = built_in_materials().find(name))
    return built_in->material;
  return materials_with(catalogue_path).row(name).material; // the nearest name of both
}
} // namespace throughbend
