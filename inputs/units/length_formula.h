#pragma once
// A length as a rule writes it: a sum of lengths and of multiples of other lengths, such as
// `6t + 1/8 in`, `16-1/2 t`, `A + 2t + 1.6 mm`, `T/2`, `t/e - t`. Knows no rule; which
// letters there are, the caller says.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// What the letters stand for [mm].
using Lengths = std::map<std::string, double>;

class LengthFormula
{
public:
  /// The formula, or an error with the cure if the text is none.
  static LengthFormula read(std::string_view text, const std::vector<std::string> &letters);

  bool               ok() const { return error_.empty(); }
  const std::string &error() const { return error_; }
  const std::string &text() const { return text_; } ///< as it was written

  bool   uses(const std::string &letter) const { return multiples_.count(letter) > 0; }
  double multiple_of(const std::string &letter) const; ///< its factor [-], 0 if not used
  double constant() const { return constant_; }        ///< the part without letters [mm]

  /// Nothing if a letter it uses is not known.
  std::optional<double> value(const Lengths &known) const; ///< [mm]

private:
  std::string                   text_;
  std::string                   error_;
  std::map<std::string, double> multiples_;
  double                        constant_ = 0;
};
} // namespace throughbend
