#pragma once
// One element of an SVG picture as text. Everything that draws SVG writes its elements with
// this, so that numbers and escaping are the same everywhere.

#include <string>
#include <string_view>

namespace throughbend
{
/// With at most so many decimals, and no zeros at the end.
std::string svg_number(double value, int digits = 2);

class SvgTag
{
public:
  /// `digits` = decimals of its numbers.
  explicit SvgTag(std::string_view name, int digits = 2);

  SvgTag &set(std::string_view attribute, double value);
  SvgTag &set(std::string_view attribute, std::string_view value); ///< escaped
  SvgTag &place(double x, double y);                               ///< attributes x and y
  SvgTag &centre(double x, double y);                              ///< attributes cx and cy
  SvgTag &size(double width, double height);
  /// Attributes that are written already, `fill="none" stroke="#000"`.
  SvgTag &add(std::string_view attributes);

  std::string alone() const;                        ///< `<name .../>`, and a new line
  std::string around(std::string_view words) const; ///< escaped, and a new line

private:
  std::string name_, attributes_;
  int         digits_;
};
} // namespace throughbend
