#pragma once
// The two columns of a tension test's file (inputs/metal/shop_table) in inside units, or
// what is wrong with them. It never guesses: a stress that may be engineering or true is
// refused. inputs/metal/tension_test works out what the curve means.
//
//   gauge length = 50 mm
//   width = 12.5 mm              or: section = 120 mm^2, diameter = 10 mm
//   thickness = 10 mm
//   extension [mm];force [kN]
//   0.000;0.00

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// What the first column measures.
enum class TestStrain
{
  engineering, ///< extension over gauge length
  logarithmic, ///< true, total
  plastic      ///< true, without the elastic part
};

/// What the second column measures.
enum class TestStress
{
  engineering, ///< force over first section
  true_stress
};

struct TestRow
{
  double      strain = 0; ///< [-]
  double      stress = 0; ///< [MPa]
  std::size_t line   = 0;
};

struct TensionFile
{
  TestStrain           strain = TestStrain::engineering;
  TestStress           stress = TestStress::engineering;
  std::vector<TestRow> rows;
  /// What is wrong, with line and cure; empty: the rows are good.
  std::vector<std::string> faults;
};

/// Missing, unreadable and oversized files come back as faults too.
TensionFile read_tension_file(const std::string &path);

/// From text; `name` stands for the file in messages.
TensionFile tension_file_of(std::string_view text, const std::string &name);
} // namespace throughbend
