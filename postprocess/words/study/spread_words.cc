#include "inputs/text/plain_text.h"
#include "inputs/units/display_units.h"
#include "postprocess/words/doubt_words.h"
#include "solver/study/spread_answers.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92;

/// 0.0231: `2.3 %`, with as many digits as so few passes bear.
std::string share_text(const double share)
{
  return decimal_text(100 * share, share > 0 && share < 0.01 ? 2 : 1) + " %";
}

/// Rounded up: an error is never told smaller than it is.
std::string error_text(const double error)
{
  return decimal_text(std::ceil(100 * error - 1e-9) / 100, 2);
}

std::string law_words(const KeySpread &s, const UnitSystem units)
{
  if (!s.follows.empty())
    return "as " + s.follows;
  const auto  text = [&](const double value) { return to_text(value, s.kind, units); };
  std::string words;
  switch (s.law.kind)
  {
  case ScatterKind::uniform:
    words = text(s.law.first) + " to " + text(s.law.second) + ", all alike";
    break;
  case ScatterKind::normal:
    words = "normal, mean " + text(s.law.first) + ", deviation " + text(s.law.second);
    break;
  case ScatterKind::triangular:
    words =
        text(s.law.first) + " to " + text(s.law.third) + ", most at " + text(s.law.second);
    break;
  case ScatterKind::lognormal:
    words = "lognormal, median " + text(s.law.first) + ", factor " +
            to_text(s.law.second, UnitKind::ratio, units);
    break;
  }
  if (std::isfinite(s.law.low) || std::isfinite(s.law.high))
    words += ", limits " + text(s.law.low) + " and " + text(s.law.high);
  return words;
}

std::string chance_words(const NamedChance &named)
{
  const Chance     &c     = named.chance;
  const std::string share = c.known == 0 ? "?"
                            : c.not_known > 0
                                ? share_text(c.share) + " to " + share_text(c.most)
                                : share_text(c.share);
  return fmt::format("  {:<38} {:>16}   {} to {}   {} of {}{}\n", named.what, share,
                     share_text(c.low), share_text(c.high), c.events, c.known + c.not_known,
                     c.not_known > 0 ? fmt::format(", {} not known", c.not_known) : "");
}

std::string figure_text(const std::string &name, const double value, const UnitSystem units)
{
  if (!std::isfinite(value))
    return std::isnan(value) ? "not known" : "no force would do";
  return name == "peak_ram_force_N" ? force_text(value, units)
                                    : percent_text(std::exp(value) - 1);
}

std::string figure_words(const FigureSpread &f, const UnitSystem units)
{
  const std::string head = f.name == "peak_ram_force_N"
                               ? "Ram force that it takes"
                               : "Stretch of the convex face where it goes through";
  std::string       text = fmt::format("{}, of {} passes:\n", head, f.passes);
  for (const QuantileBand &q : f.quantiles)
    text +=
        fmt::format("  {:>4} % lie below {:<12} ({} to {})\n", decimal_text(100 * q.at, 0),
                    figure_text(f.name, q.value, units), figure_text(f.name, q.low, units),
                    figure_text(f.name, q.high, units));
  return text;
}

std::string weight_words(const FigureSpread &f, const SpreadDesign &design)
{
  const FigureWeights &w = f.weights;
  if (w.ranks.empty())
    return "";
  std::vector<std::size_t> order(w.ranks.size());
  for (std::size_t d = 0; d < order.size(); ++d)
    order[d] = d;
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b)
            {
              return w.weights.empty()
                         ? std::abs(w.ranks[a].rank) > std::abs(w.ranks[b].rank)
                         : w.weights[a].total > w.weights[b].total;
            });
  std::string text = "  What matters";
  if (w.weights.empty())
    text += ", by rank correlation (1 or -1: this key alone), 95 %:\n";
  else
    text += fmt::format(", as shares of the variance: alone, and with its interactions\n"
                        "  (polynomial of {} terms; explains {} of passes left out):\n",
                        w.terms, percent_text(w.left_out_share));
  for (const std::size_t d : order)
  {
    const std::string &key = design.spreads[design.own_law[d]].key;
    if (w.weights.empty())
      text += fmt::format("    {:<26} {:>6} +- {}\n", key, decimal_text(w.ranks[d].rank, 2),
                          error_text(w.ranks[d].error));
    else
      text += fmt::format(
          "    {:<26} {:>5} +- {}   {:>5} +- {}   {}\n", key,
          decimal_text(w.weights[d].first, 2), error_text(w.weights[d].first_error),
          decimal_text(w.weights[d].total, 2), error_text(w.weights[d].total_error),
          std::abs(w.ranks[d].rank) <= w.ranks[d].error ? ""
          : w.ranks[d].rank < 0                         ? "falls with it"
                                                        : "rises with it");
  }
  return text;
}
} // namespace

std::string spread_words(const SpreadDesign &design, const SpreadAnswers &answers,
                         const Case &own, const UnitSystem units)
{
  std::string text = fmt::format("Spread of {} passes{}\n", answers.done,
                                 own.title.empty() ? "" : ": " + clipped(own.title, 70));
  if (answers.done < design.points.size())
    text += fmt::format("Incomplete: {} were requested.\n", design.points.size());
  for (const KeySpread &s : design.spreads)
    text += fmt::format("  {:<26} {}\n", s.key, law_words(s, units)) +
            wrapped(s.source, "    ", columns);
  text += "\nFindings:";
  for (const auto &[outcome, count] : answers.outcomes)
    text += fmt::format(" {} {};", outcome, count);
  text.back() = '\n';
  if (answers.undecided > 0)
    text +=
        fmt::format("{} undecided: the computation gave up, which says nothing about the "
                    "coupon; the upper ends below count them as failures.\n",
                    answers.undecided);
  if (answers.low_accuracy > 0)
    text +=
        wrapped(low_accuracy_words(static_cast<double>(answers.low_accuracy)), "", columns);
  if (answers.close > 0)
    text += wrapped(close_words(static_cast<double>(answers.close)), "", columns);
  text += "\nProbability, and its interval of 95 %:\n";
  for (const NamedChance &chance : answers.chances)
    text += chance_words(chance);
  text += "  events: what a sound pass does not have, for example an ironed leg or a "
          "touched frame\n";
  if (!answers.metal_known)
    text += "  stretch beyond the metal's limit: not known of any pass\n";
  for (const FigureSpread &f : answers.figures)
    text += "\n" + figure_words(f, units) + weight_words(f, design);
  return text + "\n" +
         wrapped(
             "Intervals are those of so few passes alone. They do not contain errors of "
             "the laws, of the mesh and of the friction law.",
             "", columns);
}
} // namespace throughbend
