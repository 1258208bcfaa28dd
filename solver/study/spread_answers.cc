#include "solver/study/spread_answers.h"

#include "inputs/text/json.h"
#include "solver/study/file/pass_mark.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
const std::string force_name        = "peak_ram_force_N";
const std::string strain_name       = "peak_face_strain_log";
constexpr double  given_quantiles[] = {0.05, 0.5, 0.95};

double figure(const StudyPass &pass, const std::string &name)
{
  const auto found = pass.figures.find(name);
  return found == pass.figures.end() ? std::numeric_limits<double>::quiet_NaN()
                                     : found->second;
}

bool decided(const StudyPass &pass)
{
  return pass.outcome != "undecided";
}

Happened event(const StudyPass &pass, const bool happened)
{
  if (!decided(pass))
    return Happened::not_known;
  return happened ? Happened::yes : Happened::no;
}

Happened not_through(const StudyPass &pass)
{
  return event(pass, pass.outcome != "through");
}

bool doubted(const StudyPass &pass)
{
  return decided(pass) && pass.accuracy != "sound";
}

/// Through, but not as a sound pass goes: a leg ironed, the frame touched. A pass of low
/// accuracy is not known to be sound.
Happened not_sound(const StudyPass &pass)
{
  if (doubted(pass) && pass.outcome == "through" && pass.events.empty())
    return Happened::not_known;
  return event(pass, pass.outcome != "through" || !pass.events.empty());
}

/// A coupon that jams holds any ram.
Happened too_much_force(const StudyPass &pass)
{
  return event(pass, pass.outcome == "over-capacity" || pass.outcome == "jammed" ||
                         figure(pass, "capacity_margin") < 0);
}

Happened too_much_stretch(const StudyPass &pass)
{
  if (!decided(pass) || (pass.metal != "within" && pass.metal != "beyond"))
    return Happened::not_known;
  return pass.metal == "beyond" ? Happened::yes : Happened::no;
}

/// Largest force of the ram, beyond its capacity what it would take [N]. Infinite for a
/// jam; NaN where it is not known.
double force_taken(const StudyPass &pass)
{
  if (!decided(pass))
    return std::numeric_limits<double>::quiet_NaN();
  if (pass.outcome == "jammed")
    return std::numeric_limits<double>::infinity();
  const double beyond = figure(pass, "finding.beyond_capacity.force_it_takes_N");
  if (pass.outcome == "over-capacity")
    return std::isnan(beyond) ? std::numeric_limits<double>::infinity() : beyond;
  return figure(pass, force_name);
}

double stretch_through(const StudyPass &pass)
{
  return pass.outcome == "through" ? figure(pass, strain_name)
                                   : std::numeric_limits<double>::quiet_NaN();
}

/// A study that was broken off lacks some passes; then sets are of unlike size and cannot
/// be told apart by number.
struct Made
{
  std::vector<const StudyPass *> passes;
  std::vector<std::size_t>       points; ///< which of the design
  std::size_t                    sets = 1;
};

Made made_passes(const SpreadDesign &design, const std::vector<const StudyPass *> &passes)
{
  Made made;
  for (std::size_t i = 0; i < passes.size(); ++i)
    if (passes[i] != nullptr)
    {
      made.passes.push_back(passes[i]);
      made.points.push_back(i);
    }
  // Only a gapless beginning keeps pass i in set i % sets.
  if (!made.points.empty() && made.points.back() + 1 == made.points.size() &&
      made.points.size() >= design.sets)
    made.sets = design.sets;
  return made;
}

template <class Event>
NamedChance named_chance(const std::string &what, const Made &made, const Event &happened)
{
  std::vector<Happened> all;
  for (const StudyPass *pass : made.passes)
    all.push_back(happened(*pass));
  return {what, chance(all, made.sets)};
}

template <class Figure>
FigureSpread figure_spread(const std::string &name, const SpreadDesign &design,
                           const Made &made, const Figure &of)
{
  FigureSpread             spread;
  std::vector<double>      all, finite;
  CubePoints               places;
  std::vector<std::size_t> sets;
  spread.name = name;
  for (std::size_t i = 0; i < made.passes.size(); ++i)
  {
    const double value = of(*made.passes[i]);
    if (std::isnan(value))
      continue;
    all.push_back(value);
    if (!std::isfinite(value))
      continue;
    finite.push_back(value);
    places.push_back(design.cube[made.points[i]]);
    sets.push_back(design.set_of(made.points[i]));
  }
  spread.passes = all.size();
  for (const double at : given_quantiles)
    spread.quantiles.push_back(quantile_band(all, at));
  spread.weights = figure_weights(places, finite, design.bases, sets);
  return spread;
}

Json number(const double value)
{
  return std::isfinite(value) ? Json(value) : Json();
}

std::string place_name(const double at)
{
  return Json(at).dump();
}

Json figures_json(const SpreadDesign &design, const SpreadAnswers &answers)
{
  Json quantiles = Json::object(), bands = Json::object(), weights = Json::object(),
       ranks = Json::object(), surrogates = Json::object();
  for (const FigureSpread &f : answers.figures)
  {
    quantiles[f.name] = Json::object();
    bands[f.name]     = Json::object();
    for (const QuantileBand &q : f.quantiles)
    {
      quantiles[f.name][place_name(q.at)] = number(q.value);
      bands[f.name][place_name(q.at)]     = {number(q.low), number(q.high)};
    }
    ranks[f.name] = Json::array();
    for (std::size_t d = 0; d < f.weights.ranks.size(); ++d)
      ranks[f.name].push_back({{"key", design.spreads[design.own_law[d]].key},
                               {"rank", number(f.weights.ranks[d].rank)},
                               {"error", number(f.weights.ranks[d].error)}});
    Json all = Json::array();
    for (std::size_t d = 0; d < f.weights.weights.size(); ++d)
    {
      const KeyWeight &w = f.weights.weights[d];
      all.push_back({{"key", design.spreads[design.own_law[d]].key},
                     {"first", number(w.first)},
                     {"first_error", number(w.first_error)},
                     {"total", number(w.total)},
                     {"total_error", number(w.total_error)}});
    }
    weights[f.name]    = all;
    surrogates[f.name] = {{"used", !f.weights.weights.empty()},
                          {"terms", f.weights.terms},
                          {"passes", f.passes},
                          {"left_out_share", number(f.weights.left_out_share)}};
  }
  Json json              = Json::object();
  json["quantiles"]      = quantiles;
  json["quantile_bands"] = bands;
  json["weights"]        = weights;
  json["ranks"]          = ranks;
  Json surrogate         = Json::object();
  surrogate["used"]      = false;
  for (const FigureSpread &f : answers.figures)
    if (!f.weights.weights.empty())
      surrogate["used"] = true;
  surrogate["by_figure"] = surrogates;
  json["surrogate"]      = surrogate;
  return json;
}
} // namespace

SpreadAnswers spread_answers(const SpreadDesign                   &design,
                             const std::vector<const StudyPass *> &passes)
{
  const Made    made = made_passes(design, passes);
  SpreadAnswers answers;
  answers.done = made.passes.size();
  for (const StudyPass *pass : made.passes)
  {
    answers.undecided += decided(*pass) ? 0 : 1;
    answers.low_accuracy += doubted(*pass) ? 1 : 0;
    answers.close += is_close(*pass) ? 1 : 0;
    answers.metal_known =
        answers.metal_known || too_much_stretch(*pass) != Happened::not_known;
    const auto known =
        std::find_if(answers.outcomes.begin(), answers.outcomes.end(),
                     [&](const auto &outcome) { return outcome.first == pass->outcome; });
    if (known == answers.outcomes.end())
      answers.outcomes.emplace_back(pass->outcome, 1);
    else
      ++known->second;
  }
  std::stable_sort(answers.outcomes.begin(), answers.outcomes.end(),
                   [](const auto &a, const auto &b) { return a.second > b.second; });
  answers.chances.push_back(named_chance("not through", made, not_through));
  answers.chances.push_back(named_chance("not through, or with an event", made, not_sound));
  answers.chances.push_back(
      named_chance("force beyond the ram's capacity", made, too_much_force));
  if (answers.metal_known)
    answers.chances.push_back(
        named_chance("stretch beyond what the metal bears", made, too_much_stretch));
  answers.figures.push_back(figure_spread(force_name, design, made, force_taken));
  answers.figures.push_back(figure_spread(strain_name, design, made, stretch_through));
  return answers;
}

std::string spread_json(const SpreadDesign &design, const SpreadAnswers &answers)
{
  Json json            = Json::object();
  json["samples"]      = design.points.size();
  json["done"]         = answers.done;
  json["undecided"]    = answers.undecided;
  json["close"]        = answers.close;
  json["low_accuracy"] = answers.low_accuracy;
  Json inputs          = Json::array();
  for (const KeySpread &s : design.spreads)
    inputs.push_back({{"key", s.key},
                      {"law", s.follows.empty() ? to_text(s.law.kind) : "as " + s.follows},
                      {"says", s.says},
                      {"source", s.source}});
  json["inputs"] = inputs;
  Json chances   = Json::array();
  for (const NamedChance &c : answers.chances)
    chances.push_back({{"what", c.what},
                       {"share", c.chance.known > 0 ? Json(c.chance.share) : Json()},
                       {"most_share", c.chance.known > 0 ? Json(c.chance.most) : Json()},
                       {"low", c.chance.low},
                       {"high", c.chance.high},
                       {"level", c.chance.level},
                       {"passes", c.chance.events},
                       {"of", c.chance.known},
                       {"not_known", c.chance.not_known}});
  json["chances"] = chances;
  json.update(figures_json(design, answers));
  return json_text(json);
}
} // namespace throughbend
