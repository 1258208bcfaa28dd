#include "postprocess/runs/account_text.h"

#include <cmath>

namespace throughbend
{
namespace
{
std::string degrees_text(const double degrees, UnitSystem)
{
  return angle_text(degrees);
}

struct Measure
{
  const char *member;
  std::string (*text)(double, UnitSystem);
};
constexpr Measure measures[] = {
    {"length_mm", length_text},    {"room_mm", fine_length_text},
    {"force_N", force_text},       {"force_rise_N_per_mm", force_rise_text},
    {"pressure_MPa", stress_text}, {"angle_deg", degrees_text}};

/// A number of an account by what it measures; empty when there is no such number.
std::string account_number(const JsonMembers &members, const std::string &place,
                           const ShownNumber &shown)
{
  for (const Measure &measure : measures)
    if (const double value = members.number(place + "." + measure.member);
        std::isfinite(value))
      return measure.text == degrees_text ? angle_text(value) : shown(value, measure.text);
  return "";
}
} // namespace

std::string account_text(const JsonMembers &members, const std::string &path,
                         const ShownNumber &shown)
{
  const std::string words = members.word(path + ".words");
  std::string       text;
  std::size_t       from = 0;
  while (true)
  {
    const std::size_t open = words.find('{', from), close = words.find('}', open);
    if (open == std::string::npos || close == std::string::npos)
      return text + words.substr(from);
    const std::string number = account_number(
        members, path + "." + words.substr(open + 1, close - open - 1), shown);
    if (number.empty())
      return "";
    text += words.substr(from, open - from) + number;
    from = close + 1;
  }
}

std::string account_text(const RunRecord &run, const std::string &path,
                         const ShownNumber &shown)
{
  return account_text(run.summary, path, shown);
}

ShownNumber shown_in(const UnitSystem units)
{
  return [units](const double value, std::string (*text)(double, UnitSystem))
  { return text(value, units); };
}

std::string account_text(const RunRecord &run, const std::string &path,
                         const UnitSystem units)
{
  return account_text(run, path, shown_in(units));
}
} // namespace throughbend
