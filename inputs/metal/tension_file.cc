#include "inputs/metal/tension_file.h"

#include "inputs/metal/shop_table.h"
#include "inputs/text/file_text.h"
#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"
#include "inputs/units/exact_units.h"
#include "inputs/units/units.h"

#include <fmt/core.h>

#include <cmath>
#include <optional>

namespace throughbend
{
namespace
{
constexpr std::size_t most_rows = 100000, most_columns = 20;

constexpr const char *heads_wanted =
    "name two columns with their units, as in 'extension [mm];force [kN]', 'engineering "
    "strain [%];engineering stress [MPa]' or 'plastic strain [-];true stress [MPa]'";

enum class TestQuantity
{
  strain,
  extension,
  stress,
  force
};

enum class Measure
{
  not_said,
  engineering,
  logarithmic,
  plastic
};

struct Column
{
  std::size_t  index    = 0;
  TestQuantity quantity = TestQuantity::strain;
  Measure      measure  = Measure::not_said;
  bool         has_unit = false;
};

bool contains(const std::string &text, const char *word)
{
  return text.find(word) != std::string::npos;
}

/// What the heads of a table say of a column; nothing: it is another one.
std::optional<Column> column_of(const ShopTable &table, const std::size_t index)
{
  const ShopHead    &head = table.heads()[index];
  const std::string &name = head.name;
  Column             column;
  column.index    = index;
  column.has_unit = head.name.size() < trimmed(head.text).size(); // `[-]` too is one
  if (contains(name, "stress"))
    column.quantity = TestQuantity::stress;
  else if (contains(name, "strain"))
    column.quantity = TestQuantity::strain;
  else if (contains(name, "extension") || contains(name, "elongation"))
    column.quantity = TestQuantity::extension;
  else if (contains(name, "force") || contains(name, "load"))
    column.quantity = TestQuantity::force;
  else
    return std::nullopt;
  if (contains(name, "plastic"))
    column.measure = Measure::plastic;
  else if (contains(name, "true") || contains(name, "log"))
    column.measure = Measure::logarithmic;
  else if (contains(name, "eng") || contains(name, "nominal"))
    column.measure = Measure::engineering;
  // An extension in per cent is already over the gauge length.
  if (column.quantity == TestQuantity::extension && head.unit == "%")
  {
    column.quantity = TestQuantity::strain;
    column.measure  = Measure::engineering;
  }
  if (column.quantity == TestQuantity::extension || column.quantity == TestQuantity::force)
    column.measure = Measure::engineering;
  return column;
}

[[noreturn]] void refuse(const ShopTable &table, const std::string &words)
{
  throw InputError(table.name() + ": " + words + ".");
}

/// The one column that is one of two quantities.
Column the_column(const ShopTable &table, const TestQuantity a, const TestQuantity b,
                  const std::string &words)
{
  std::optional<Column> found;
  for (std::size_t i = 0; i < table.heads().size(); ++i)
    if (const auto column = column_of(table, i);
        column && (column->quantity == a || column->quantity == b))
    {
      if (found)
        refuse(table, "'" + clipped(table.heads()[found->index].text, 40) + "' and '" +
                          clipped(table.heads()[i].text, 40) + "' are both a " + words +
                          ". Keep the one that counts");
      found = column;
    }
  if (!found)
    refuse(table, "no head names a " + words + "; " + heads_wanted);
  return *found;
}

void check_measure(const ShopTable &table, const Column &column)
{
  const ShopHead   &head = table.heads()[column.index];
  const std::string name = "'" + clipped(head.text, 40) + "'";
  if (!column.has_unit)
    refuse(table, name + " has no unit; write it in brackets, as in strain [%], strain "
                         "[-], stress [MPa], extension [mm], force [kN]");
  if (column.measure == Measure::not_said)
    refuse(table, name + " may be engineering or true; say which, as in 'engineering "
                         "strain [%]' or 'true stress [MPa]'");
}

/// An area with its unit [mm^2].
std::optional<double> area_of(const std::string &text)
{
  struct AreaUnit
  {
    std::string name;
    double      side = 1; ///< [mm]
  };
  for (const AreaUnit &unit :
       {AreaUnit{"mm^2", 1}, AreaUnit{"mm2", 1}, AreaUnit{"mm\xC2\xB2", 1},
        AreaUnit{"cm^2", 10}, AreaUnit{"cm2", 10}, AreaUnit{"in^2", mm_per_inch},
        AreaUnit{"in2", mm_per_inch}, AreaUnit{"in\xC2\xB2", mm_per_inch}})
    if (text.size() > unit.name.size() &&
        text.compare(text.size() - unit.name.size(), unit.name.size(), unit.name) == 0)
    {
      const Quantity number =
          read_quantity(text.substr(0, text.size() - unit.name.size()), UnitKind::ratio);
      if (number.ok() && number.value > 0)
        return number.value * unit.side * unit.side;
    }
  return std::nullopt;
}

/// A length that is told before the heads [mm].
std::optional<double> given_length(const ShopTable &table, const char *name)
{
  const auto length = table.note({name}, UnitKind::length);
  if (length && !(*length > 0 && *length < 10000))
    refuse(table, std::string(name) + " must be above 0 mm and below 10 m");
  return length;
}

/// Of the bar, as it is told before the heads [mm^2].
double section_of(const ShopTable &table)
{
  std::optional<double> area;
  int                   ways = 0;
  for (const ShopNote &note : table.notes())
    if (note.name == "section")
    {
      ++ways;
      area = area_of(note.value);
      if (!area)
        refuse(table, "section = '" + clipped(note.value, 30) +
                          "' is no area; write it as 120 mm^2 or 0.2 in^2, decimals with a "
                          "point");
    }
  if (const auto diameter = given_length(table, "diameter"))
  {
    ++ways;
    area = *diameter * *diameter * std::acos(-1.) / 4;
  }
  const auto width     = given_length(table, "width"),
             thickness = given_length(table, "thickness");
  if (width || thickness)
  {
    ++ways;
    area = width && thickness ? std::optional(*width * *thickness) : std::nullopt;
  }
  if (ways != 1 || !area)
    refuse(table, "a force needs the section of the bar; add above the column heads "
                  "'section = 120 mm^2', or 'diameter = 10 mm', or both 'width = 12.5 "
                  "mm' and 'thickness = 10 mm'");
  return *area;
}

TensionFile file_of(const ShopTable &table)
{
  if (table.heads().size() > most_columns)
    refuse(table, fmt::format("{} columns; up to {} are read", table.heads().size(),
                              most_columns));
  if (table.rows() > most_rows)
    refuse(table, fmt::format("{} rows; up to {} are read. Thin the record out",
                              table.rows(), most_rows));
  const Column x = the_column(table, TestQuantity::strain, TestQuantity::extension,
                              "strain or an extension");
  const Column y =
      the_column(table, TestQuantity::stress, TestQuantity::force, "stress or a force");
  check_measure(table, x);
  check_measure(table, y);
  if ((x.measure == Measure::engineering) != (y.measure == Measure::engineering))
    refuse(table, "one column is true and the other is engineering; give both of one kind "
                  "(a force and an extension are engineering)");
  if (y.measure == Measure::plastic)
    refuse(table, "a stress is engineering or true and never plastic");

  double gauge = 1, section = 1;
  if (x.quantity == TestQuantity::extension)
  {
    const auto given = given_length(table, "gauge length");
    if (!given)
      refuse(table, "an extension needs its gauge length; add a line 'gauge length = 50 "
                    "mm' above the heads");
    gauge = *given;
  }
  if (y.quantity == TestQuantity::force)
    section = section_of(table);

  TensionFile file;
  file.strain = x.measure == Measure::plastic       ? TestStrain::plastic
                : x.measure == Measure::logarithmic ? TestStrain::logarithmic
                                                    : TestStrain::engineering;
  file.stress =
      y.measure == Measure::engineering ? TestStress::engineering : TestStress::true_stress;
  const std::vector<double> strains = table.values(
      x.index, x.quantity == TestQuantity::strain ? UnitKind::ratio : UnitKind::length);
  const std::vector<double> stresses = table.values(
      y.index, y.quantity == TestQuantity::stress ? UnitKind::stress : UnitKind::force);
  for (std::size_t i = 0; i < table.rows(); ++i)
  {
    if (!std::isfinite(strains[i]) || !std::isfinite(stresses[i]))
      throw InputError(table.place(i) +
                       ": a cell of the curve is empty; give both numbers, "
                       "or take the row out.");
    file.rows.push_back({strains[i] / gauge, stresses[i] / section, table.line(i)});
  }
  if (file.rows.empty())
    refuse(table, "there are no rows of numbers below the heads");
  return file;
}
} // namespace

TensionFile tension_file_of(const std::string_view text, const std::string &name)
{
  TensionFile file;
  try
  {
    file = file_of(ShopTable::of_text(text, name));
  }
  catch (const InputError &fault)
  {
    file.faults.push_back(fault.what());
  }
  return file;
}

TensionFile read_tension_file(const std::string &path)
{
  const FileText text = read_file_text(path);
  if (text.problem.empty())
    return tension_file_of(text.text, path);
  TensionFile file;
  const bool  too_large = text.problem.find("larger") != std::string::npos;
  file.faults.push_back(path + ": " + text.problem +
                        (too_large ? "; keep a row for every 0.01 % of strain" : ""));
  return file;
}
} // namespace throughbend
