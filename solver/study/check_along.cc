#include "solver/study/check_along.h"

#include "inputs/text/input_error.h"

#include <optional>

namespace throughbend
{
namespace
{
constexpr int steps = 20, halvings = 10; // 20 * 2^10 places in all

struct Said
{
  double      at      = 0;
  Verdict     verdict = Verdict::ok;
  std::string line, says;
};

std::optional<Said> said_at(const StudyCase &base, const StudyKey &key, const double value)
{
  const CaseReading reading = base.at({key}, {{value}});
  if (!reading.value)
    return std::nullopt;
  Case c = *reading.value;
  c.fixture.rule.clear();
  Said       said{value, Verdict::ok, "", ""};
  const auto rank = [](Verdict verdict) {
    return verdict == Verdict::no ? 2 : verdict == Verdict::close ? 1 : 0;
  };
  for (const ScreenSection &section : screen(c).sections)
    for (const ScreenLine &line : section.lines)
      if (rank(line.verdict) > rank(said.verdict))
        said = {value, line.verdict, line.key, line.quantity};
  return said;
}

bool alike(const Said &a, const Said &b)
{
  return a.verdict == b.verdict && a.line == b.line;
}
} // namespace

std::vector<CheckStretch> check_along(const StudyCase &base, const StudyKey &key,
                                      const double from, const double to)
try
{
  std::vector<CheckStretch> stretches;
  std::optional<Said>       last = said_at(base, key, from);
  if (!last)
    return {};
  stretches.push_back({from, to, last->verdict, last->line, last->says});
  const int n = is_count(key) ? std::min(steps, static_cast<int>(to - from)) : steps;
  for (int i = 1; i <= n; ++i)
  {
    std::optional<Said> now = said_at(base, key, from + (to - from) * i / n);
    if (!now)
      return {};
    if (!alike(*last, *now))
    {
      Said low = *last, high = *now;
      for (int k = 0; k < (is_count(key) ? 0 : halvings); ++k)
      {
        const std::optional<Said> middle = said_at(base, key, (low.at + high.at) / 2);
        if (!middle)
          return {};
        (alike(*middle, low) ? low : high) = *middle;
      }
      stretches.back().to = low.at;
      stretches.push_back({high.at, to, now->verdict, now->line, now->says});
    }
    last = now;
  }
  return stretches;
}
catch (const InputError &)
{
  return {};
}
} // namespace throughbend
