#pragma once
// Friction coefficients by the name of what is between coupon and tool, each as a range:
// handbooks differ by more than any shop could measure. No physics, only figures with their
// source.

#include "inputs/catalogue/catalogue_sheet.h"
#include "inputs/catalogue/rule_cells.h"

#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
struct Lubricant
{
  std::string name;
  std::string pair;        ///< of surfaces, in words
  double      low     = 0; ///< friction coefficient [-]
  double      typical = 0; ///< what a case takes [-]
  double      high    = 0; ///< [-]
  double      at_rest = 0; ///< static, as the source gives it [-]; 0 = not given
  double      sliding = 0; ///< kinetic, as the source gives it [-]; 0 = not given
  std::string source;
  HowNotes    how;
  std::string note;
  std::string place;
};

class LubricantCatalogue
{
public:
  explicit LubricantCatalogue(std::vector<Lubricant> rows) : rows_(std::move(rows)) {}

  const std::vector<Lubricant> &rows() const { return rows_; }
  const Lubricant              *find(const std::string &name) const; ///< or nullptr
  /// Throws InputError with the nearest name.
  const Lubricant &row(const std::string &name) const;

private:
  std::vector<Lubricant> rows_;
};

struct LubricantReading
{
  std::vector<Lubricant>      rows;
  std::vector<CatalogueFault> faults;
};
LubricantReading read_lubricants(std::string_view text, const std::string &name);

const LubricantCatalogue &built_in_lubricants();

/// With a user's own file, as materials_with.
LubricantCatalogue          lubricants_with(const std::string &path);
std::vector<CatalogueFault> faults_of_lubricants(const std::string &path);

/// The lubricant of a name. Throws InputError with the nearest name.
Lubricant lubricant(const std::string &name);
} // namespace throughbend
