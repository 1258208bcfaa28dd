#pragma once
// Metals by name: elastic constants, flow curve, elongation and where the figures are from.
// The columns are the keys of a case's section material and are read by the same table, so
// that a row can say just what a case can. A row is a starting point only: the plate's
// certificate takes precedence.

#include "inputs/catalogue/catalogue_sheet.h"
#include "inputs/catalogue/rule_cells.h"
#include "inputs/metal/material.h"

#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// What the figures of a row stand for.
enum class MetalKind
{
  minimum, ///< what the standard asks for at least: too soft for the force of real plate
  typical, ///< as it is delivered or deposited
  invented ///< of the example cases
};
std::string to_text(MetalKind kind);

struct MaterialRow
{
  Material    material; ///< whole, as a case would hold it
  MetalKind   kind = MetalKind::minimum;
  std::string standard;
  std::string for_thickness;           ///< in words; empty = any
  double      tensile_strength_to = 0; ///< largest that the standard allows [MPa]; 0 = open
  std::string source;
  HowNotes    how;
  std::string note;
  std::string place; ///< `materials.csv:3`

  const std::string &grade() const { return material.grade; }
};

class MaterialCatalogue
{
public:
  explicit MaterialCatalogue(std::vector<MaterialRow> rows) : rows_(std::move(rows)) {}

  const std::vector<MaterialRow> &rows() const { return rows_; }
  const MaterialRow              *find(const std::string &grade) const; ///< or nullptr
  /// Throws InputError with the nearest name.
  const MaterialRow &row(const std::string &grade) const;

private:
  std::vector<MaterialRow> rows_;
};

struct MaterialReading
{
  std::vector<MaterialRow>    rows;
  std::vector<CatalogueFault> faults;
};
MaterialReading read_materials(std::string_view text, const std::string &name);

const MaterialCatalogue &built_in_materials();

/// With a user's own file, whose rows take the place of those with the same name. An empty
/// path is no file. Throws InputError with all faults of the file.
MaterialCatalogue materials_with(const std::string &path);

/// What is wrong with a user's own file; nothing for an empty path.
std::vector<CatalogueFault> faults_of_materials(const std::string &path);

/// That a metal is the least its standard asks for, in a sentence, and how much stronger
/// the standard lets a plate be; empty for a metal that is of no such row, or was changed.
std::string least_strength_words(const Material &material);

/// That a coupon is outside the thickness that its metal's row is for, in a sentence; empty
/// where it is not, or the row says nothing of it.
std::string other_thickness_words(const Material &material, double thickness); ///< [mm]

/// The metal of a name. Throws InputError with the nearest name.
Material grade(const std::string &name);
/// The same, a user's own file included.
Material grade(const std::string &name, const std::string &catalogue_path);
} // namespace throughbend
