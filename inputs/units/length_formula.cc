#include "inputs/units/length_formula.h"

#include "inputs/text/plain_text.h"
#include "inputs/units/shop_number.h"
#include "inputs/units/units.h"

#include <algorithm>
#include <cctype>

namespace throughbend
{
namespace
{

bool begins_number(std::string_view text)
{
  return !text.empty() && (std::isdigit(static_cast<unsigned char>(text[0])) != 0 ||
                           (text[0] == '.' && text.size() > 1));
}

/// The word in front: a letter with what it is divided by, or a unit.
std::string_view front_word(std::string_view text)
{
  std::size_t end = 0;
  while (end < text.size() && text[end] != ' ' && text[end] != '+' && text[end] != '-')
    ++end;
  return text.substr(0, end);
}

std::string listed(const std::vector<std::string> &letters)
{
  std::string list;
  for (const std::string &letter : letters)
    list += (list.empty() ? "" : ", ") + letter;
  return list;
}
} // namespace

LengthFormula LengthFormula::read(std::string_view                text,
                                  const std::vector<std::string> &letters)
{
  LengthFormula formula;
  formula.text_   = std::string(trimmed(text));
  const auto fail = [&](const std::string &why)
  {
    formula.error_ = why + "; write lengths and multiples as in '6" +
                     (letters.empty() ? "t" : letters.front()) + " + 1/8 in'" +
                     (letters.empty() ? "" : " (letters: " + listed(letters) + ")");
    return formula;
  };
  const auto known = [&](std::string_view word)
  { return std::find(letters.begin(), letters.end(), word) != letters.end(); };

  std::string_view rest  = formula.text_;
  double           sign  = 1;
  bool             first = true;
  while (!rest.empty() || first)
  {
    if (!rest.empty() && (rest[0] == '+' || rest[0] == '-'))
    {
      sign = rest[0] == '-' ? -1 : 1;
      rest = trimmed(rest.substr(1));
    }
    else if (!first)
      return fail("a + or - is missing before '" + clipped(rest, 20) + "'");
    first = false;
    if (rest.empty())
      return fail("a length is missing");

    double                 factor = 1;
    const std::string_view term   = rest;
    bool                   number = begins_number(rest);
    if (number)
    {
      const ShopNumber read = read_shop_number(rest);
      if (!read.error.empty())
        return fail(read.error);
      factor = read.value;
      rest   = trimmed(read.rest);
    }
    std::string_view  word    = front_word(rest);
    const std::size_t slash   = word.find('/');
    double            divisor = 1;
    if (!known(word) && slash != std::string_view::npos && known(word.substr(0, slash)))
    {
      const ShopNumber read = read_shop_number(word.substr(slash + 1));
      if (!read.error.empty() || !read.rest.empty() || read.value <= 0)
        return fail("'" + std::string(word) + "' divides by no number");
      divisor = read.value;
      word    = word.substr(0, slash);
      rest    = rest.substr(slash);
      rest    = rest.substr(front_word(rest).size());
    }
    else
      rest = rest.substr(word.size());

    if (known(word))
      formula.multiples_[std::string(word)] += sign * factor / divisor;
    else if (!number)
      return fail("'" + clipped(term, 20) + "' is neither a length nor a letter");
    else
    {
      const std::size_t size =
          static_cast<std::size_t>(word.data() + word.size() - term.data());
      const Quantity length = read_quantity(term.substr(0, size), UnitKind::length);
      if (!length.ok())
        return fail("'" + clipped(term.substr(0, size), 20) + "': " + length.error);
      formula.constant_ += sign * length.value;
    }
    rest = trimmed(rest);
  }
  return formula;
}

double LengthFormula::multiple_of(const std::string &letter) const
{
  const auto found = multiples_.find(letter);
  return found == multiples_.end() ? 0 : found->second;
}

std::optional<double> LengthFormula::value(const Lengths &known) const
{
  double sum = constant_;
  for (const auto &[letter, factor] : multiples_)
  {
    const auto found = known.find(letter);
    if (found == known.end())
      return std::nullopt;
    sum += factor * found->second;
  }
  return sum;
}
} // namespace throughbend
