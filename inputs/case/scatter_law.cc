#include "inputs/case/scatter_law.h"

#include "inputs/text/plain_text.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <sstream>
#include <vector>

namespace throughbend
{
namespace
{
constexpr double practical_deviations = 4;

struct Notation
{
  ScatterKind kind;
  std::string words; ///< its values
  std::size_t values;
};

const std::vector<Notation> &notations()
{
  static const std::vector<Notation> all = {
      {ScatterKind::uniform, "LEAST, LARGEST", 2},
      {ScatterKind::normal, "MEAN, STANDARD DEVIATION", 2},
      {ScatterKind::triangular, "LEAST, LIKELIEST, LARGEST", 3},
      {ScatterKind::lognormal, "MEDIAN, FACTOR", 2}};
  return all;
}

const Notation &notation(ScatterKind kind)
{
  return *std::find_if(notations().begin(), notations().end(),
                       [&](const Notation &n) { return n.kind == kind; });
}

ScatterReading fault(const std::string &problem)
{
  ScatterReading reading;
  reading.error = problem;
  return reading;
}

std::vector<std::string> words_of(std::string_view text)
{
  std::istringstream       in{std::string(text)};
  std::vector<std::string> words;
  for (std::string word; in >> word;)
    words.push_back(word);
  return words;
}

std::vector<std::string> parts_at_commas(std::string_view text)
{
  std::vector<std::string> parts;
  std::size_t              from = 0;
  for (std::size_t at = text.find(','); at != std::string_view::npos;
       at             = text.find(',', from))
  {
    parts.emplace_back(trimmed(text.substr(from, at - from)));
    from = at + 1;
  }
  parts.emplace_back(trimmed(text.substr(from)));
  return parts;
}

/// All ways to read so many words as so many values, one after the other.
void join_words(const std::vector<std::string> &words, const std::vector<UnitKind> &kinds,
                const std::size_t from, std::vector<double> &begun,
                std::vector<std::vector<double>> &found)
{
  if (begun.size() == kinds.size())
  {
    if (from == words.size())
      found.push_back(begun);
    return;
  }
  std::string piece;
  for (std::size_t to = from; to < words.size(); ++to)
  {
    piece += (piece.empty() ? "" : " ") + words[to];
    const Quantity value = read_quantity(piece, kinds[begun.size()]);
    if (!value.ok())
      continue;
    begun.push_back(value.value);
    join_words(words, kinds, to + 1, begun, found);
    begun.pop_back();
  }
}

struct Values
{
  std::vector<double> values;
  std::string         error;
};

/// Values apart by commas, or by blanks where that can be read in one way only.
Values read_values(std::string_view text, const std::vector<UnitKind> &kinds,
                   const std::string &what)
{
  Values read;
  if (text.find(',') != std::string_view::npos)
  {
    const std::vector<std::string> parts = parts_at_commas(text);
    if (parts.size() != kinds.size())
      read.error = what + ", not " + std::to_string(parts.size()) +
                   (parts.size() == 1 ? " value" : " values");
    for (std::size_t i = 0; i < kinds.size() && read.error.empty(); ++i)
    {
      const Quantity value = read_quantity(parts[i], kinds[i]);
      read.values.push_back(value.value);
      if (!value.ok())
        read.error = "'" + parts[i] + "': " + value.error;
    }
    return read;
  }
  std::vector<std::vector<double>> found;
  std::vector<double>              begun;
  join_words(words_of(text), kinds, 0, begun, found);
  if (found.empty())
    read.error = what + ", each with its unit";
  else if (found.size() > 1)
    read.error = what + "; put commas between them, as it can be read in more than one way";
  else
    read.values = found.front();
  return read;
}

std::string fault_of(const ScatterLaw &law)
{
  switch (law.kind)
  {
  case ScatterKind::uniform:
    if (!(law.first < law.second))
      return "the first limit must be below the second";
    break;
  case ScatterKind::normal:
    if (!(law.second > 0))
      return "the standard deviation must be above 0";
    break;
  case ScatterKind::triangular:
    if (!(law.first <= law.second && law.second <= law.third && law.first < law.third))
      return "least, likeliest and largest must rise";
    break;
  case ScatterKind::lognormal:
    if (!(law.first > 0))
      return "the median must be above 0";
    if (!(law.second > 1))
      return "the factor must be above 1: two thirds of all lie between median / factor "
             "and "
             "median x factor";
    break;
  }
  if (!(law.low < law.high))
    return "the first of the limits must be below the second";
  if (!(law.practical_least() < law.practical_largest()))
    return "the limits leave nothing of the law";
  return "";
}

/// `limits A, B` at the end, cut off the text.
std::string take_limits(std::string_view &text, const UnitKind kind, ScatterLaw &law)
{
  const std::size_t at = text.find("limits");
  if (at == std::string_view::npos)
    return "";
  const Values read = read_values(trimmed(text.substr(at + 6)), {kind, kind},
                                  "limits takes two values, as in limits 330 MPa, 400 MPa");
  text              = trimmed(text.substr(0, at));
  if (!text.empty() && text.back() == ',')
    text = trimmed(text.substr(0, text.size() - 1));
  if (!read.error.empty())
    return read.error;
  law.low  = read.values[0];
  law.high = read.values[1];
  return "";
}

ScatterReading read_law(const Notation &law, std::string_view text, const UnitKind kind)
{
  ScatterReading reading;
  reading.law.kind = law.kind;
  if (reading.error = take_limits(text, kind, reading.law); !reading.error.empty())
    return reading;
  std::vector<UnitKind> kinds(law.values, kind);
  if (law.kind == ScatterKind::lognormal)
    kinds.back() = UnitKind::ratio;
  const std::string name = to_text(law.kind);
  const Values      read =
      read_values(trimmed(text.substr(name.size())), kinds, name + " takes " + law.words);
  reading.error = read.error;
  if (!reading.error.empty())
    return reading;
  reading.law.first  = read.values[0];
  reading.law.second = read.values[1];
  reading.law.third  = read.values.size() > 2 ? read.values[2] : 0;
  reading.error      = fault_of(reading.law);
  return reading;
}

struct Sign
{
  std::size_t at = std::string_view::npos, size = 0;
};

Sign tolerance_sign(std::string_view text)
{
  for (const std::string_view sign : {"+-", "+/-", "\xC2\xB1"}) // the last is the sign ±
    if (const std::size_t at = text.find(sign); at != std::string_view::npos)
      return {at, sign.size()};
  return {};
}

/// The value in front of a tolerance; the case's own where there is none.
Quantity nominal(std::string_view text, const UnitKind kind, const double own)
{
  if (!trimmed(text).empty())
    return read_quantity(text, kind);
  Quantity value;
  value.value = own;
  return value;
}

std::string tolerance_fault(const Quantity &value, std::string_view what)
{
  return "'" + std::string(trimmed(what)) + "': " + value.error;
}

/// A tolerance as a length, ... or in per cent of the value.
Quantity tolerance(std::string_view text, const UnitKind kind, const double value)
{
  const std::string_view whole = trimmed(text);
  if (whole.empty() || whole.back() != '%')
    return read_quantity(whole, kind);
  Quantity share = read_quantity(whole, UnitKind::ratio);
  if (share.ok() && kind == UnitKind::ratio)
    share.error = "may be a share of the value or a step of it; write it as a plain number";
  share.value *= std::abs(value);
  return share;
}

ScatterReading within(const double least, const double largest)
{
  ScatterReading reading;
  reading.tolerance  = true;
  reading.law.kind   = ScatterKind::uniform;
  reading.law.first  = least;
  reading.law.second = largest;
  if (!(least < largest))
    reading.error = "the tolerance must be above 0";
  return reading;
}

ScatterReading read_tolerance(std::string_view text, const Sign sign, const UnitKind kind,
                              const double own)
{
  const std::string_view front = text.substr(0, sign.at),
                         back  = text.substr(sign.at + sign.size);
  const Quantity value         = nominal(front, kind, own);
  if (!value.ok())
    return fault(tolerance_fault(value, front));
  const Quantity by = tolerance(back, kind, value.value);
  if (!by.ok())
    return fault("the tolerance " + tolerance_fault(by, back));
  if (!(by.value > 0))
    return fault("the tolerance must be above 0");
  return within(value.value - by.value, value.value + by.value);
}

/// `10 mm +0.3 mm -0.1 mm`; nothing where the text is none of this kind.
std::optional<ScatterReading> read_two_tolerances(std::string_view text,
                                                  const UnitKind kind, const double own)
{
  const std::size_t plus  = text.find('+');
  const std::size_t minus = text.rfind('-');
  if (plus == std::string_view::npos || minus == std::string_view::npos || minus < plus)
    return std::nullopt;
  const std::string_view front = text.substr(0, plus);
  const std::string_view up    = text.substr(plus + 1, minus - plus - 1),
                         down  = text.substr(minus + 1);
  const Quantity value         = nominal(front, kind, own);
  if (!value.ok())
    return fault(tolerance_fault(value, front));
  const Quantity above = tolerance(up, kind, value.value);
  const Quantity below = tolerance(down, kind, value.value);
  if (!above.ok())
    return fault("the tolerance " + tolerance_fault(above, up));
  if (!below.ok())
    return fault("the tolerance " + tolerance_fault(below, down));
  if (above.value < 0 || below.value < 0)
    return fault("write the upper tolerance with one +, the lower one with one -");
  return within(value.value - below.value, value.value + above.value);
}
} // namespace

std::string to_text(const ScatterKind kind)
{
  switch (kind)
  {
  case ScatterKind::uniform:
    return "uniform";
  case ScatterKind::normal:
    return "normal";
  case ScatterKind::triangular:
    return "triangular";
  case ScatterKind::lognormal:
    return "lognormal";
  }
  return "";
}

double ScatterLaw::least() const
{
  double own = -std::numeric_limits<double>::infinity();
  if (kind == ScatterKind::uniform || kind == ScatterKind::triangular)
    own = first;
  else if (kind == ScatterKind::lognormal)
    own = 0;
  return std::max(own, low);
}

double ScatterLaw::largest() const
{
  double own = std::numeric_limits<double>::infinity();
  if (kind == ScatterKind::uniform)
    own = second;
  else if (kind == ScatterKind::triangular)
    own = third;
  return std::min(own, high);
}

double ScatterLaw::middle() const
{
  switch (kind)
  {
  case ScatterKind::uniform:
    return (first + second) / 2;
  case ScatterKind::normal:
  case ScatterKind::lognormal:
    return first;
  case ScatterKind::triangular:
  {
    // Where the area of the triangle on the longer side of the peak is a half.
    const double span = third - first;
    return second - first >= third - second
               ? first + std::sqrt(span * (second - first) / 2)
               : third - std::sqrt(span * (third - second) / 2);
  }
  }
  return 0;
}

double ScatterLaw::practical_least() const
{
  if (kind == ScatterKind::normal)
    return std::max(low, first - practical_deviations * second);
  if (kind == ScatterKind::lognormal)
    return std::max(low, first / std::pow(second, practical_deviations));
  return least();
}

double ScatterLaw::practical_largest() const
{
  if (kind == ScatterKind::normal)
    return std::min(high, first + practical_deviations * second);
  if (kind == ScatterKind::lognormal)
    return std::min(high, first * std::pow(second, practical_deviations));
  return largest();
}

ScatterReading read_scatter(std::string_view text, const UnitKind kind, const double own)
{
  const std::string_view whole = trimmed(text);
  if (whole.empty())
    return fault("has no value");
  const std::string word(whole.substr(0, whole.find_first_of(" \t")));
  for (const Notation &law : notations())
    if (word == to_text(law.kind))
      return read_law(law, whole, kind);
  if (const Sign sign = tolerance_sign(whole); sign.at != std::string_view::npos)
    return read_tolerance(whole, sign, kind, own);
  if (const auto reading = read_two_tolerances(whole, kind, own))
    return *reading;
  if (read_quantity(whole, kind).ok())
    return fault("is one value, which does not scatter; write a tolerance, as in " +
                 std::string(whole) + " +- " + (kind == UnitKind::ratio ? "0.02" : "1 %"));
  std::vector<std::string> names;
  for (const Notation &law : notations())
    names.push_back(to_text(law.kind));
  const auto nearest = nearest_name(lower_case(word), names);
  return fault(nearest ? "'" + word + "' is no law, did you mean '" + *nearest + "'?"
                       : "is no law");
}

std::string exact_text(const ScatterLaw &law, const UnitKind kind)
{
  std::string text =
      to_text(law.kind) + " " + exact_text(law.first, kind) + ", " +
      exact_text(law.second, law.kind == ScatterKind::lognormal ? UnitKind::ratio : kind);
  if (notation(law.kind).values > 2)
    text += ", " + exact_text(law.third, kind);
  if (std::isfinite(law.low) || std::isfinite(law.high))
    text += " limits " + exact_text(law.low, kind) + ", " + exact_text(law.high, kind);
  return text;
}

std::string scatter_notation()
{
  std::string text;
  for (const Notation &law : notations())
    text += (text.empty() ? "" : " | ") + to_text(law.kind) + " " + law.words;
  return "VALUE +- TOLERANCE | +- TOLERANCE | VALUE +UP -DOWN | " + text +
         "; behind a law: limits LOW, HIGH";
}
} // namespace throughbend
