#pragma once
// A rung of the verification ladder: one table of published values beside ours. Each row is
// checked as a Catch2 assertion and noted in verify_rows/NAME.txt under the working folder,
// from which results_table makes and guards RESULTS.md. Computes nothing itself.

#include <string>
#include <vector>

namespace throughbend
{
/// How far ours may be from the published value.
struct Tolerance
{
  enum class Measure
  {
    relative, ///< |ours - published| <= size |published|
    absolute, ///< |ours - published| <= size
    at_most,  ///< published is an upper bound: ours <= published + size
    at_least  ///< published is a lower bound: ours >= published - size
  };
  Measure measure = Measure::relative;
  double  size    = 0;

  bool allows(double ours, double published) const;
};

inline Tolerance within_percent(double percent)
{
  return {Tolerance::Measure::relative, percent / 100};
}
inline Tolerance within(double difference)
{
  return {Tolerance::Measure::absolute, difference};
}
inline Tolerance no_more(double slack = 0)
{
  return {Tolerance::Measure::at_most, slack};
}
inline Tolerance no_less(double slack = 0)
{
  return {Tolerance::Measure::at_least, slack};
}

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
