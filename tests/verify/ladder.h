#pragma once
// A rung of the verification ladder: one table of published values beside ours. Each row is
// checked as a Catch2 assertion and noted in verify_rows/NAME.txt under the working folder,
// from which results_table makes and guards RESULTS.md. Computes nothing itself.

#include "tests/verify/tolerance.h"

#include <string>
#include <vector>

namespace throughbend
{
enum class Length
{
  usual, ///< ctest label verify, in the default tests
  long_  ///< ctest label verify-long
};

class Rung
{
public:
  /// `name` is that of the test's file without test_; `title` what is checked; `source`
  /// where the published values come from: author, year, equation or table, and how they
  /// were obtained (read, computed independently, from memory).
  Rung(std::string name, std::string title, std::string source,
       Length length = Length::usual);

  /// Checks ours against the published value and notes the row. `quantity` carries its unit
  /// in brackets.
  void row(const std::string &quantity, double published, double ours, Tolerance tolerance);

  /// A sentence printed under the table: what was modelled, why a tolerance is as wide as
  /// it is, what was found.
  void note(const std::string &sentence);

  /// Writes the rows; a rung that ends by an exception leaves no file.
  ~Rung();
  Rung(const Rung &)            = delete;
  Rung &operator=(const Rung &) = delete;

private:
  std::string              name_;
  std::vector<std::string> lines_;
  int                      exceptions_;
};
} // namespace throughbend
