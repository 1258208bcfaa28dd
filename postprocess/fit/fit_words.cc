#include "postprocess/fit/fit_words.h"

#include "inputs/text/plain_text.h"
#include "inputs/text/text_columns.h"
#include "inputs/units/display_units.h"
#include "inputs/units/exact_units.h"
#include "solver/study/fit/fitted_case.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92;

std::string lines(const std::string &words)
{
  return wrapped(words, "  ", columns);
}

/// Half widths and errors have two digits that count; estimates as many behind the point.
int digits_for(const double error)
{
  return std::isfinite(error) && error > 0
             ? std::clamp(1 - static_cast<int>(std::floor(std::log10(error))), 0, 5)
             : 3;
}

struct Shown
{
  std::string name, unit;
  double      scale = 1;
};

Shown shown(const FitKey key, const UnitSystem units)
{
  const bool us = units == UnitSystem::us;
  switch (key)
  {
  case FitKey::friction:
    return {"friction", "", 1};
  case FitKey::factor:
    return {"flow-stress factor", "", 1};
  case FitKey::travel_zero:
    return {"zero of travel", us ? "in" : "mm", us ? mm_per_inch : 1};
  case FitKey::force_zero:
    return {"zero of force", us ? "kip" : "kN", us ? n_per_kip : 1000};
  }
  return {};
}

std::string estimates(const FitReport &r, const UnitSystem units)
{
  TextColumns table({"", "estimate", "standard error", "95 % interval", "in the case"});
  for (std::size_t k = 0; k < fit_keys; ++k)
  {
    const Shown       key   = shown(static_cast<FitKey>(k), units);
    const double      value = r.search.fit.estimate[k] / key.scale;
    const std::string name  = key.name + (key.unit.empty() ? "" : " [" + key.unit + "]");
    const std::string own   = k == 0   ? fmt::format("{:.4g}", r.own.friction.shoulders)
                              : k == 1 ? "1"
                                       : "0";
    if (r.question.held[k])
    {
      table.add({name, fmt::format("{:.4g}", value), "held", "", own});
      continue;
    }
    const double error  = std::sqrt(r.search.covariance[k][k]) / key.scale;
    const int    digits = digits_for(error);
    const bool   known  = k == 0   ? r.judgement.friction_known
                          : k == 1 ? r.judgement.factor_known
                                   : true;
    if (!std::isfinite(error))
      table.add({name, "not known", "", "", own});
    else
      table.add({name, known ? decimal_text(value, digits) : "not known",
                 decimal_text(error, digits),
                 decimal_text(low_of(r, k) / key.scale, digits) + " to " +
                     decimal_text(value + r.judgement.half[k] / key.scale, digits),
                 own});
  }
  return table.text();
}

std::string correlations(const FitReport &r)
{
  std::string text;
  const auto &c = r.search.covariance;
  for (std::size_t a = 0; a < fit_keys; ++a)
    for (std::size_t b = a + 1; b < fit_keys; ++b)
      if (!r.question.held[a] && !r.question.held[b] && c[a][a] > 0 && c[b][b] > 0 &&
          std::isfinite(c[a][a] * c[b][b]))
        text += (text.empty() ? "" : "; ") + to_text(static_cast<FitKey>(a)) + " and " +
                to_text(static_cast<FitKey>(b)) + " " +
                decimal_text(c[a][b] / std::sqrt(c[a][a] * c[b][b]), 2);
  return text.empty() ? "" : lines("Correlations: " + text + ".");
}

std::string place_of(const FitReport &r, const std::size_t reading)
{
  return r.question.readings.file + ":" +
         std::to_string(r.question.readings.push[reading].line);
}

std::string share(const double part, const double whole)
{
  return whole > 0 ? percent_text(part / whole) : "unknown";
}

std::string residual_text(const FitReport &r, const UnitSystem units)
{
  const Residuals &res = r.judgement.residuals;
  std::string      text =
      fmt::format("Residuals: {} in the mean square, {} of the largest force. ",
                  force_text(res.rms, units), share(res.rms, res.peak));
  text +=
      res.runs < runs_too_rare
          ? fmt::format("Their signs do not look like noise (runs test, p = "
                        "{:.2g}): readings and model differ by {} over stretches of "
                        "travel. ",
                        res.runs, share(res.wave, res.peak))
          : fmt::format("Their signs look like noise (runs test, p = {:.2g}). ", res.runs);
  const double over =
      r.question.readings.push.back().travel - r.question.readings.push.front().travel;
  if (res.drifts < runs_too_rare)
    text +=
        fmt::format("They drift by {} from the first to the last reading (p = {:.2g}). ",
                    force_text(res.drift * over, units), res.drifts);
  else
    text += "They do not drift. ";
  if (!r.search.fit.residual.empty())
    text += fmt::format("The worst reading is {}: {} off, {} standard errors.",
                        place_of(r, res.worst),
                        force_text(r.search.fit.residual[res.worst], units),
                        decimal_text(std::abs(res.worst_scaled), 1));
  text = lines(text);
  for (std::size_t i = 0; i < r.question.readings.ends.size(); ++i)
  {
    const EndReading &end = r.question.readings.ends[i];
    const double      off =
        i < r.search.fit.end_scaled.size() ? r.search.fit.end_scaled[i] : NAN;
    text += lines(std::isfinite(off)
                      ? fmt::format("The {} that was measured stands {} standard errors "
                                    "from the model's.",
                                    to_text(end.kind), decimal_text(std::abs(off), 1))
                      : fmt::format("The passes do not give the {}, so it was left out: "
                                    "they did not reach the end of the push.",
                                    to_text(end.kind)));
  }
  const std::size_t all = r.question.readings.push.size();
  if (r.search.fit.used < all)
    text += lines(fmt::format("{} of {} readings lie beyond the travel that the passes "
                              "reach, and were left out.",
                              all - r.search.fit.used, all));
  return text;
}

std::string not_apart_text(const FitReport &r)
{
  const FitJudgement &j    = r.judgement;
  const FitValues    &p    = r.search.fit.estimate;
  std::string         text = "Only this is known: ";
  if (!r.question.held[0] && !r.question.held[1] && std::isfinite(j.half_given))
  {
    text += "pairs that fit: ";
    for (const double friction : {0.05, 0.10, 0.15, 0.20, 0.30})
      text +=
          fmt::format("{}friction {:.2f} with factor {:.2f}", friction == 0.05 ? "" : ", ",
                      friction, p[1] + j.slope * (friction - p[0]));
    text +=
        fmt::format("; each factor to +-{:.2f} if its friction is the true one, near the "
                    "estimate of {:.2f}.",
                    j.half_given, p[0]);
  }
  else
    text += "the interval above.";
  return lines(text);
}

std::string advice_text(const FitReport &r)
{
  std::string text;
  for (const FitAdvice &advice : r.judgement.advice)
  {
    const auto half = [](const double value)
    {
      return !std::isfinite(value) ? std::string("not known")
                                   : fmt::format("+-{:.2g}", value);
    };
    text += lines(
        "- " + advice.says + ": friction " +
        (r.question.held[0] ? "held" : half(advice.friction)) + ", factor " +
        (r.question.held[1] || advice.says.find("--hold strength") != std::string::npos
             ? "held"
             : half(advice.factor)));
  }
  return text.empty() ? ""
                      : "What would help, with the half widths of the 95 % intervals to be "
                        "expected then\n" +
                            text;
}

std::string cause_text(const FitReport &r)
{
  const FitJudgement &j = r.judgement;
  std::string         text;
  if (!r.search.wrong_units.empty())
  {
    for (const std::string &slip : r.search.wrong_units)
      text += (text.empty() ? "They would fit if " : ", or if ") + slip;
    return lines(text + ". Check the unit on the scale, correct the head, and fit again.");
  }
  if (j.end_missed)
    text += "Was the " + to_text(*j.end_missed) +
            " measured on this coupon, of one leg, at the moment and with the error that "
            "the head says? Leave it out if that is in doubt. ";
  if (j.residuals.rising_end)
    text +=
        "The last readings stand above the model by more than a tenth of the largest "
        "force and do not fall: did the coupon jam, meet the frame or bottom out? Leave "
        "out the readings after that. ";
  if (r.search.own && !r.search.own->lets_go && r.search.own->outcome != "stroke-out")
    text += "The nearest pass ends like this: " + r.search.own->verdict + " ";
  if (j.verdict == FitVerdict::at_bound)
    text += fmt::format(
        "Search ranges: friction from {} to {}, the factor from {} to {}, the zeros of "
        "travel from {} to {} mm and of force from {} to {} kN. ",
        least_friction, most_friction, least_factor, most_factor,
        decimal_text(r.search.bounds.low[2], 1), decimal_text(r.search.bounds.high[2], 1),
        decimal_text(r.search.bounds.low[3] / 1000, 1),
        decimal_text(r.search.bounds.high[3] / 1000, 1));
  return lines(text +
               "Are these the readings of this fixture and coupon: thickness, width, "
               "plunger, opening, radius? Of one push, from first touch? Are the units "
               "and the jack's bore right?");
}

std::string model_text(const FitReport &r)
{
  const FitSearch &s    = r.search;
  std::string      text = fmt::format(
           "Made with the {} mesh; a pass on the {} mesh at the estimate differs by {} "
                "of the largest force (mean square)",
           r.mesh, r.other_mesh, percent_text(s.mesh_change));
  if (r.question.finer_is_better)
    text += fmt::format(
        " and corrects all others. That moved friction by {:+.3f} and factor by "
        "{:+.3f}. The errors above contain half of that, for what the finer mesh still "
        "lacks, and half of that difference of force as a random error along the travel.",
        s.by_mesh[0], s.by_mesh[1]);
  else
    text += "; the errors above contain half of its effect on the estimate, and half of "
            "that difference of force as a random error along the travel.";
  text += fmt::format(" Between its passes the force is interpolated to {}.",
                      percent_text(s.surface_error));
  text += " Friction stands for " + friction_keys(r.own) +
          ", which are the same grease in the case";
  if (const std::string stay = frictions_that_stay(r.own); !stay.empty())
    text += "; held: " + stay;
  text +=
      ". The factor is on every flow stress of the case. It also absorbs what the model "
      "leaves out, such as curling edges: plane strain needs a few per cent more force "
      "than a coupon of finite width. Use it with this kind of model, not as a tension "
      "test.";
  return lines(text);
}

/// What is held is taken for true: the interval knows nothing of its error.
std::string held_text(const FitReport &r)
{
  std::string what;
  const auto  add = [&](const std::string &words)
  { what += (what.empty() ? "" : ", ") + words; };
  if (r.question.held[0])
    add(fmt::format("if the friction is {:.4g}", r.own.friction.shoulders));
  if (r.question.held[1])
    add("if the flow stress is that of the case");
  if (r.question.held[2])
    add("if the ruler shows 0 at first touch");
  if (r.question.held[3])
    add("if the gauge shows 0 without load");
  return what.empty() ? ""
                      : lines("This is so " + what +
                              ". An error there is not in the intervals and shifts the "
                              "estimates.");
}

/// A zero that the readings ask for and that is more than an eye overlooks.
std::string zeros_text(const FitReport &r, const UnitSystem units)
{
  constexpr double seen_travel = 1.5, seen_force = 0.03; // [mm]; of the largest force
  const FitValues &p          = r.search.fit.estimate;
  const auto       stands_out = [&](const std::size_t k, const double seen)
  {
    return !r.question.held[k] && std::abs(p[k]) > seen &&
           std::abs(p[k]) > r.judgement.half[k];
  };
  // A pump's dead strokes are a zero of travel that nobody overlooks.
  const bool strokes = r.question.readings.travel_from == TravelFrom::strokes;
  const bool travel  = !strokes && stands_out(2, seen_travel),
             force   = stands_out(3, seen_force * r.search.fit.peak);
  if (!travel && !force)
    return "";
  const Shown gauge = shown(FitKey::force_zero, units);
  return lines(
      "Check this first: the fit holds only if " +
      (travel ? "the ruler showed " + fine_length_text(p[2], units) + " at first touch"
              : std::string()) +
      (travel && force ? " and " : "") +
      (force ? "the gauge showed " + decimal_text(p[3] / gauge.scale, 2) + " " +
                   gauge.unit + " without load"
             : std::string()) +
      ". If they showed 0, friction and factor are wrong: use --hold zeros.");
}

std::string far_text(const FitReport &r)
{
  const double factor = r.search.fit.estimate[1];
  if (r.question.held[1] || (factor > 0.75 && factor < 1.33))
    return "";
  return lines(fmt::format(
      "A factor of {:.2f} is large for a plate: measure thickness and width again "
      "before you use it. The force grows with the square of the thickness.",
      factor));
}
} // namespace

bool is_offered(const FitJudgement &judgement)
{
  return judgement.verdict == FitVerdict::good;
}

std::string fit_headline(const FitReport &r)
{
  const FitJudgement &j = r.judgement;
  const FitValues    &p = r.search.fit.estimate;
  switch (j.verdict)
  {
  case FitVerdict::good:
  {
    std::string text = "FITTED:";
    if (!r.question.held[0])
      text += fmt::format(" friction {} +-{}", decimal_text(p[0], digits_for(j.half[0])),
                          decimal_text(j.half[0], digits_for(j.half[0])));
    if (!r.question.held[1])
      text += fmt::format("{} flow stress times {} +-{}", r.question.held[0] ? "" : ",",
                          decimal_text(p[1], digits_for(j.half[1])),
                          decimal_text(j.half[1], digits_for(j.half[1])));
    return text + " (95 %)." +
           (j.residuals.runs < runs_too_rare
                ? " The residuals have a pattern: something else acts, too, and may shift "
                  "the values by more than that."
                : "");
  }
  case FitVerdict::not_apart:
    if (!r.question.held[0] && !r.question.held[1] && !j.friction_known && !j.factor_known)
      return "NOT KNOWN: these readings cannot separate friction from strength.";
    return std::string("NOT KNOWN: these readings do not give the ") +
           (!j.friction_known ? "friction" : "strength") +
           " more closely than it is known without them.";
  case FitVerdict::elastic:
    return "NOT KNOWN: all readings are in the elastic range, where the force hardly "
           "depends on flow stress and friction.";
  case FitVerdict::at_bound:
    return "NOT EXPLAINED: the best fit lies at the end of the search range.";
  case FitVerdict::wrong_unit:
    return "NOT EXPLAINED: the readings fit another unit than the one in their head.";
  case FitVerdict::unexplained:
    break;
  }
  if (j.end_missed)
    return "NOT EXPLAINED: the force of the readings and the " + to_text(*j.end_missed) +
           " that was measured do not go together.";
  return "NOT EXPLAINED: no friction and strength give the force of the readings.";
}

std::string fit_text(const FitReport &r, const UnitSystem units)
{
  const ShopReadings &readings = r.question.readings;
  std::string         text     = fit_headline(r) + "\n\n";
  text += lines(fmt::format(
      "{}: {} readings of {} against {}, {} to {} of travel, up to {}. Marks: {} of "
      "travel, "
      "{} of force.",
      readings.file, readings.push.size(),
      readings.travel_from == TravelFrom::strokes ? "pump strokes" : "travel",
      readings.force_from == ForceFrom::pressure ? "gauge pressure" : "force",
      length_text(readings.push.front().travel, units),
      length_text(readings.push.back().travel, units),
      force_text(std::max_element(readings.push.begin(), readings.push.end(),
                                  [](const Reading &a, const Reading &b)
                                  { return a.force < b.force; })
                     ->force,
                 units),
      readings.travel_mark > 0 ? fine_length_text(readings.travel_mark, units)
                               : "none seen",
      readings.force_mark > 0
          ? decimal_text(readings.force_mark / (units == UnitSystem::us ? n_per_kip : 1000),
                         3) +
                (units == UnitSystem::us ? " kip" : " kN")
          : "none seen"));
  const bool numbers = r.judgement.verdict == FitVerdict::good ||
                       r.judgement.verdict == FitVerdict::not_apart;
  if (numbers)
    text += "\n" + estimates(r, units) + correlations(r);
  if (r.judgement.verdict == FitVerdict::not_apart)
    text += not_apart_text(r);
  if (numbers)
    text += zeros_text(r, units) + held_text(r) + far_text(r);
  if (r.search.fit.used >= fewest_readings && r.search.wrong_units.empty())
    text += "\n" + residual_text(r, units);
  if (!numbers && r.judgement.verdict != FitVerdict::elastic)
    text += cause_text(r);
  if (!r.judgement.advice.empty())
    text += "\n" + advice_text(r);
  if (numbers)
    text += "\n" + model_text(r);
  text += "\n";
  if (!r.fitted_file.empty())
    text += "The fitted case: " + r.fitted_file + "\n";
  else
    text += is_offered(r.judgement)
                ? "No fitted case is written: the keys of the case cannot scale its flow "
                  "curve.\n"
                : "No fitted case is written, because a value is not known.\n";
  return text;
}
} // namespace throughbend
