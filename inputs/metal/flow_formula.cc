#include "inputs/metal/flow_formula.h"

#include "inputs/text/plain_text.h"

#include <fmt/core.h>
#include <muParser.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr std::size_t longest_expression = 300; // bytes
constexpr std::size_t most_constants     = 20;
constexpr std::size_t longest_name       = 30; // bytes

constexpr const char *notation =
    "write name:value pairs as in 's0:355 MPa, q:200 MPa, b:12'";

const std::vector<std::string> &functions()
{
  static const std::vector<std::string> names = {"exp",  "ln",  "log10", "sqrt",
                                                 "tanh", "min", "max",   "abs"};
  return names;
}

double least(const double *values, const int count)
{
  return *std::min_element(values, values + count);
}

double largest(const double *values, const int count)
{
  return *std::max_element(values, values + count);
}

/// A parser that knows our functions and none of its own: `log` means one thing here and
/// another there.
mu::Parser fresh_parser()
{
  mu::Parser parser;
  parser.ClearConst();
  parser.ClearFun();
  using One = double (*)(double);
  parser.DefineFun("exp", static_cast<One>(std::exp));
  parser.DefineFun("ln", static_cast<One>(std::log));
  parser.DefineFun("log10", static_cast<One>(std::log10));
  parser.DefineFun("sqrt", static_cast<One>(std::sqrt));
  parser.DefineFun("tanh", static_cast<One>(std::tanh));
  parser.DefineFun("abs", static_cast<One>(std::abs));
  parser.DefineFun("min", least);
  parser.DefineFun("max", largest);
  return parser;
}

bool is_letter(const char c)
{
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

bool is_digit(const char c)
{
  return c >= '0' && c <= '9';
}

/// What is wrong with a name; empty: nothing.
std::string name_fault(const std::string &name)
{
  const bool is_name = !name.empty() && is_letter(name.front()) &&
                       name.size() <= longest_name &&
                       std::all_of(name.begin(), name.end(),
                                   [](char c) { return is_letter(c) || is_digit(c); });
  if (!is_name)
    return "'" + clipped(name, 30) + "' is no name; use letters and digits, as in s0";
  if (name == "p")
    return "p is the plastic strain and no constant; choose another name";
  if (std::find(functions().begin(), functions().end(), name) != functions().end())
    return name + " is a function; choose another name";
  return "";
}

/// An equals sign that sets a value, as in p = 3: it would change the strain.
bool sets_something(const std::string &expression)
{
  for (std::size_t i = 0; i < expression.size(); ++i)
    if (expression[i] == '=')
    {
      const char before = i > 0 ? expression[i - 1] : ' ';
      const char after  = i + 1 < expression.size() ? expression[i + 1] : ' ';
      if (after == '=')
        ++i;
      else if (before != '<' && before != '>' && before != '!')
        return true;
    }
  return false;
}

/// What is wrong with a name before a parenthesis; empty: nothing.
std::string function_fault(const std::string &expression)
{
  for (std::size_t at = 0; at < expression.size();)
  {
    if (!is_letter(expression[at]))
    {
      ++at;
      continue;
    }
    std::size_t end = at;
    while (end < expression.size() &&
           (is_letter(expression[end]) || is_digit(expression[end])))
      ++end;
    const std::string name  = expression.substr(at, end - at);
    const bool        after = at > 0 && (is_digit(expression[at - 1])); // 1e-3
    at                      = expression.find_first_not_of(" \t", end);
    if (after || at == std::string::npos || expression[at] != '(')
    {
      at = end;
      continue;
    }
    if (name == "log")
      return "has log, which is ambiguous; write ln or log10";
    if (std::find(functions().begin(), functions().end(), name) == functions().end())
      return "'" + clipped(name, 30) + "' is no function; there are " + formula_words;
  }
  return "";
}

/// Names in the expression that are neither p nor a function.
std::vector<std::string> names_in(const std::string &expression)
{
  mu::Parser parser = fresh_parser();
  parser.SetExpr(expression);
  std::vector<std::string> names;
  for (const auto &[name, place] : parser.GetUsedVar())
    if (name != "p")
      names.push_back(name);
  return names;
}

/// The expression with every stress among its constants times a factor.
class Evaluation
{
public:
  Evaluation(const FlowFormula &formula, const double factor) : parser_(fresh_parser())
  {
    parser_.DefineVar("p", &p_);
    for (const FormulaConstant &constant : formula.constants)
      parser_.DefineConst(
          constant.name, constant.value * (constant.kind == UnitKind::stress ? factor : 1));
    parser_.SetExpr(formula.expression);
  }
  Evaluation(const Evaluation &)            = delete; // the parser points to p_
  Evaluation &operator=(const Evaluation &) = delete;

  double operator()(const double p)
  {
    p_ = p;
    return parser_.Eval();
  }

private:
  double     p_ = 0;
  mu::Parser parser_;
};

/// The formula is a stress if it becomes so many times as large when every stress in it
/// does.
bool is_a_stress(const FlowFormula &formula)
{
  Evaluation once(formula, 1);
  for (const double factor : {2., 0.5, 0.1})
  {
    Evaluation other(formula, factor);
    for (const double p : {0., 0.001, 0.005, 0.02, 0.05, 0.1, 0.2, 0.4, 1., 3.})
    {
      const double stress = once(p), scaled = other(p);
      if (std::isfinite(stress) && std::isfinite(scaled) &&
          std::abs(scaled - factor * stress) > 1e-9 * std::abs(stress))
        return false;
    }
  }
  return true;
}

std::string without_position(std::string words)
{
  for (const char *place :
       {" found at position", " at position", " at expression position"})
    words = words.substr(0, words.find(place));
  return words;
}
} // namespace

const char *const formula_words =
    "+ - * / ^, parentheses, comparisons, condition ? this : that, exp, ln, log10, sqrt, "
    "tanh, min, max, abs";

FlowFormula FlowFormula::scaled(const double factor) const
{
  FlowFormula made = *this;
  for (FormulaConstant &constant : made.constants)
    if (constant.kind == UnitKind::stress)
      constant.value *= factor;
  if (curve)
    made.curve = std::make_shared<const TabulatedFlow>(curve->scaled(factor));
  return made;
}

std::string expression_fault(const std::string &expression)
{
  if (expression.empty())
    return "has no value";
  if (expression.size() > longest_expression)
    return fmt::format("is longer than {} bytes", longest_expression);
  const auto foreign = std::find_if(
      expression.begin(), expression.end(),
      [](char c)
      {
        return !is_letter(c) && !is_digit(c) &&
               std::string_view(" \t+-*/^()<>=!?:.,&|").find(c) == std::string_view::npos;
      });
  if (foreign != expression.end())
    return "has a character that no formula has, at byte " +
           std::to_string(foreign - expression.begin() + 1);
  if (sets_something(expression))
    return "sets something with '='; compare with ==, <=, >= or !=, and give constants in "
           "the key constants";
  if (const std::string fault = function_fault(expression); !fault.empty())
    return fault;
  try
  {
    const std::vector<std::string> names  = names_in(expression);
    mu::Parser                     parser = fresh_parser();
    double                         one    = 1;
    parser.DefineVar("p", &one);
    for (const std::string &name : names)
    {
      if (const std::string fault = name_fault(name); !fault.empty())
        return fault;
      parser.DefineVar(name, &one);
    }
    parser.SetExpr(expression);
    int results = 0;
    parser.Eval(results);
    if (results != 1)
      return "has a comma outside a function; write decimals with a point";
  }
  catch (const mu::Parser::exception_type &fault)
  {
    const auto at = static_cast<long>(fault.GetPos());
    return "is no formula: " + without_position(fault.GetMsg()) +
           (at > 0 ? fmt::format(" at character {}", at + 1) : "");
  }
  return "";
}

ConstantsReading read_formula_constants(std::string_view text)
{
  ConstantsReading reading;
  const auto       fail = [&](const std::string &error)
  {
    reading.constants.clear();
    reading.error = error;
    return reading;
  };
  for (std::size_t start = 0; start <= text.size();)
  {
    const std::size_t      comma = std::min(text.find(',', start), text.size());
    const std::string_view pair  = trimmed(text.substr(start, comma - start));
    start                        = comma + 1;

    const std::string which =
        "constant " + std::to_string(reading.constants.size() + 1) + ": ";
    const std::size_t colon = pair.find(':');
    if (colon == std::string_view::npos)
      return fail(which + "'" + clipped(pair, 30) + "' has no colon; " + notation);
    FormulaConstant constant;
    constant.name = trimmed(pair.substr(0, colon));
    if (const std::string fault = name_fault(constant.name); !fault.empty())
      return fail(which + fault);
    for (const FormulaConstant &other : reading.constants)
      if (other.name == constant.name)
        return fail(which + constant.name + " is given twice");
    const std::string_view value  = pair.substr(colon + 1);
    const Quantity         stress = read_quantity(value, UnitKind::stress);
    const Quantity         plain  = read_quantity(value, UnitKind::ratio);
    if (!stress.ok() && !plain.ok())
      return fail(which + constant.name +
                  " is neither a stress with its unit nor a plain "
                  "number; " +
                  notation);
    constant.kind  = stress.ok() ? UnitKind::stress : UnitKind::ratio;
    constant.value = stress.ok() ? stress.value : plain.value;
    reading.constants.push_back(constant);
    if (reading.constants.size() > most_constants)
      return fail(fmt::format("has more than {} constants", most_constants));
  }
  return reading;
}

std::string exact_text(const std::vector<FormulaConstant> &constants)
{
  std::string text;
  for (const FormulaConstant &constant : constants)
    text += (text.empty() ? "" : ", ") + constant.name + ":" +
            exact_text(constant.value, constant.kind);
  return text;
}

std::string tabulate(FlowFormula &formula)
{
  formula.curve.reset();
  const std::vector<std::string> names = names_in(formula.expression);
  const auto                     given = [&](const std::string &name)
  {
    return std::any_of(formula.constants.begin(), formula.constants.end(),
                       [&](const FormulaConstant &c) { return c.name == name; });
  };
  for (const std::string &name : names)
    if (!given(name))
      return "the formula has " + name + ", which is not among the constants; add " + name +
             ":value";
  for (const FormulaConstant &constant : formula.constants)
    if (std::find(names.begin(), names.end(), constant.name) == names.end())
      return constant.name + " is not in the formula; remove it, or check its spelling";
  if (!is_a_stress(formula))
    return "the formula is not a stress: its value does not double when all stresses "
           "among its constants double. Give each stress a name and its unit, for "
           "example s0:355 MPa";
  Evaluation stress(formula, 1);
  formula.curve =
      std::make_shared<const TabulatedFlow>([&](const double p) { return stress(p); });
  return "";
}
} // namespace throughbend
