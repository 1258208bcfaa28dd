#include "inputs/units/shop_number.h"

#include "inputs/text/plain_text.h"

#include <charconv>
#include <optional>

namespace throughbend
{
namespace
{
bool is_digit(char c)
{
  return c >= '0' && c <= '9';
}

std::size_t digits_from(std::string_view text, std::size_t start)
{
  std::size_t end = start;
  while (end < text.size() && is_digit(text[end]))
    ++end;
  return end;
}

double plain_value(std::string_view digits)
{
  double value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

/// `3/8`, `1-1/2` and `1 1/2`; nothing if the text does not begin with a fraction.
std::optional<ShopNumber> read_fraction(std::string_view text)
{
  const std::size_t first_end = digits_from(text, 0);
  if (first_end == 0 || first_end == text.size())
    return std::nullopt;

  double      whole         = 0;
  bool        mixed         = false;
  std::size_t numerator     = 0;
  std::size_t numerator_end = first_end;
  if (text[first_end] == '-' || text[first_end] == ' ')
  {
    whole     = plain_value(text.substr(0, first_end));
    mixed     = true;
    numerator = first_end;
    if (text[numerator] == '-')
      ++numerator;
    else
      while (numerator < text.size() && text[numerator] == ' ')
        ++numerator;
    numerator_end = digits_from(text, numerator);
  }
  if (numerator_end == numerator || numerator_end == text.size() ||
      text[numerator_end] != '/')
    return std::nullopt;
  const std::size_t denominator     = numerator_end + 1;
  const std::size_t denominator_end = digits_from(text, denominator);
  if (denominator_end == denominator)
    return std::nullopt;

  const double above = plain_value(text.substr(numerator, numerator_end - numerator));
  const double below = plain_value(text.substr(denominator, denominator_end - denominator));
  ShopNumber   number;
  number.rest = text.substr(denominator_end);
  if (below == 0)
    number.error = "the fraction divides by zero";
  else if (mixed && above >= below)
    number.error = "the fraction after the whole number must be below 1";
  else
  {
    number.exact = (static_cast<long double>(whole) * below + above) / below;
    number.value = static_cast<double>(number.exact);
  }
  return number;
}

ShopNumber read_decimal(std::string_view text)
{
  ShopNumber number;
  const bool starts_well =
      !text.empty() &&
      (is_digit(text[0]) || (text[0] == '.' && text.size() > 1 && is_digit(text[1])));
  if (!starts_well)
  {
    const std::string word = lower_case(text.substr(0, 3));
    number.error           = word == "nan" || word == "inf"
                                 ? "'" + std::string(text) + "' is no finite number"
                                 : "does not begin with a number";
    return number;
  }
  const auto [end, fault] =
      std::from_chars(text.data(), text.data() + text.size(), number.value);
  if (fault == std::errc::result_out_of_range)
    number.error = "the number is too large or too close to zero to be held";
  else if (fault != std::errc())
    number.error = "does not begin with a number";
  else
    std::from_chars(text.data(), end, number.exact);
  number.rest = text.substr(static_cast<std::size_t>(end - text.data()));
  if (number.rest.size() > 1 && number.rest[0] == ',' && is_digit(number.rest[1]))
    number.error = "has a comma inside the number; write decimals with a point, as in 1.5, "
                   "and large numbers without separators";
  return number;
}
} // namespace

ShopNumber read_shop_number(std::string_view text)
{
  double sign = 1;
  if (!text.empty() && (text[0] == '-' || text[0] == '+'))
  {
    sign = text[0] == '-' ? -1 : 1;
    text.remove_prefix(1);
  }
  const std::optional<ShopNumber> fraction = read_fraction(text);
  ShopNumber                      number   = fraction ? *fraction : read_decimal(text);
  // A minus before zero would make two spellings of one case differ in their hash.
  number.value = number.value == 0 ? 0 : sign * number.value;
  number.exact = number.value == 0 ? 0 : sign * number.exact;
  return number;
}
} // namespace throughbend
