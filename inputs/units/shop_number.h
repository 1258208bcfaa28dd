#pragma once
// The number at the front of a text, decimal or as a workshop fraction: `9.5`, `3/8`,
// `1-1/2`, `1 1/2`. The caller deals with what stands after the number, a unit or junk.

#include <string>
#include <string_view>

namespace throughbend
{
/// A number that was read, or the reason why it could not be.
struct ShopNumber
{
  double value = 0;
  /// The same with the digits that a double has no room for: 9.525 mm are 3/8 in only when
  /// the product is rounded once, at the end.
  long double      exact = 0;
  std::string_view rest;  ///< what stands after the number, blanks included
  std::string      error; ///< empty if the value is good
};

/// Never nan or infinite, never minus zero. The text must outlive the result's rest.
ShopNumber read_shop_number(std::string_view text);
} // namespace throughbend
