#include "inputs/case/shop_readings.h"

#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"
#include "inputs/units/display_units.h"
#include "inputs/units/exact_units.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace throughbend
{
namespace
{
constexpr double pi = 3.14159265358979323846;

struct EndWord
{
  EndKind     kind;
  const char *name;
  UnitKind    unit;
  double      usual_error; ///< where the file states none; common practice, no source
};
/// A protractor to 1 deg, a feeler gauge to 0.2 mm, marks on the face to 2 % of stretch:
/// each taken as two standard errors.
constexpr std::array<EndWord, 5> end_words = {
    {{EndKind::leg_angle, "leg angle", UnitKind::angle, 0.5},
     {EndKind::bend_angle, "bend angle", UnitKind::angle, 0.5},
     {EndKind::springback, "springback", UnitKind::angle, 0.5},
     {EndKind::nose_gap, "nose gap", UnitKind::length, 0.1},
     {EndKind::elongation, "mark elongation", UnitKind::ratio, 0.01}}};

const std::vector<std::string> travel_names   = {"travel", "plunger travel", "ram travel"};
const std::vector<std::string> stroke_names   = {"strokes", "pump strokes"};
const std::vector<std::string> force_names    = {"force", "ram force", "load"};
const std::vector<std::string> pressure_names = {"pressure", "gauge pressure"};
const std::vector<std::string> jack_names     = {"jack bore", "pump bore", "pump stroke",
                                                 "travel per stroke"};
const std::vector<std::string> mark_names = {"travel mark", "force mark", "pressure mark"};

/// A key of the jack from the case or the head of the readings, which may not disagree.
double jack_length(const ShopTable &table, const char *const name, const double in_case)
{
  const std::optional<double> given = table.note({name}, UnitKind::length);
  if (given && *given <= 0)
    throw InputError(table.name() + ": " + name + " must be above 0.");
  if (given && in_case > 0 && std::abs(*given - in_case) > 1e-9 * in_case)
    throw InputError(
        fmt::format("{}: {} is {} mm there and {} mm in the case. Leave out the wrong one.",
                    table.name(), name, decimal_text(*given, 3), decimal_text(in_case, 3)));
  return given.value_or(in_case);
}

/// Readings at every fifth millimetre are of a ruler that has millimetres [mm]: 1/16 in
/// (common practice, no source).
constexpr double coarsest_ruler = mm_per_inch / 16;

/// The step of which all values are whole multiples; 0 where they are not rounded. It need
/// not be the least difference of two: readings at 1.5, 3.5 and 5 mm are of a ruler with
/// half millimetres.
double mark_of(std::vector<double> values)
{
  constexpr int    most  = 20;    // marks between the two nearest readings
  constexpr double slack = 0.015; // of a mark; by chance all of six are so near 1 in 1e9
  std::sort(values.begin(), values.end());
  double least = 0;
  for (std::size_t i = 1; i < values.size(); ++i)
    if (const double step = values[i] - values[i - 1]; step > 1e-9 * values.back())
      least = least == 0 ? step : std::min(least, step);
  for (int parts = 1; least > 0 && parts <= most; ++parts)
  {
    const double mark = least / parts;
    if (std::all_of(values.begin(), values.end(),
                    [&](const double value)
                    { return std::abs(value / mark - std::round(value / mark)) < slack; }))
      return mark;
  }
  return 0;
}

/// `86.5 deg +- 1 deg`: value, and half of what stands behind +- as its standard error.
EndReading end_reading(const ShopTable &table, const EndWord &word, const ShopNote &note)
{
  const auto refuse = [&](const std::string &why)
  {
    throw InputError(fmt::format("{}:{}: {} = {}: {}.", table.name(), note.line, note.name,
                                 note.value, why));
  };
  const std::size_t sign  = note.value.find("+-");
  const auto        value = [&](std::string_view text)
  {
    std::string plain(trimmed(text));
    std::replace(plain.begin(), plain.end(), ',', '.');
    const Quantity quantity = read_quantity(plain, word.unit);
    if (!quantity.ok())
      refuse(quantity.error);
    return word.unit == UnitKind::angle ? quantity.value * 180 / pi : quantity.value;
  };
  EndReading end{word.kind, value(note.value.substr(0, sign)), word.usual_error, note.line};
  if (sign != std::string::npos)
    end.error = value(note.value.substr(sign + 2)) / 2;
  if (!(end.error > 0))
    refuse("what stands behind +- must be above 0");
  return end;
}

void check_notes(const ShopTable &table, ShopReadings &readings)
{
  std::vector<std::string> known = jack_names;
  known.insert(known.end(), mark_names.begin(), mark_names.end());
  for (const EndWord &word : end_words)
    known.emplace_back(word.name);
  for (const ShopNote &note : table.notes())
  {
    if (std::find(known.begin(), known.end(), note.name) != known.end())
      continue;
    if (const auto meant = nearest_name(note.name, known))
      throw InputError(fmt::format("{}:{}: unknown '{}', did you mean '{}'?", table.name(),
                                   note.line, note.name, *meant));
    if (!note.is_comment)
      readings.remarks.push_back(fmt::format("{}:{}: '{}' is not used.", table.name(),
                                             note.line, clipped(note.name, 40)));
  }
}

std::size_t one_column(const ShopTable &table, const std::vector<std::string> &first,
                       const std::vector<std::string> &second, const char *const heads,
                       bool &is_second)
{
  const auto a = table.find(first), b = table.find(second);
  if (a && b)
    throw InputError(table.name() + ": the columns '" + table.heads()[*a].text + "' and '" +
                     table.heads()[*b].text + "' say the same twice. Leave one out.");
  if (!a && !b)
  {
    std::string found;
    for (const ShopHead &head : table.heads())
      found += (found.empty() ? "'" : ", '") + clipped(head.text, 30) + "'";
    throw InputError(table.name() + ": no column for " + heads + ". Its heads are " +
                     found + ".\n" + readings_notation());
  }
  is_second = b.has_value();
  return is_second ? *b : *a;
}

double given_mark(const ShopTable &table, const char *const name, const UnitKind kind,
                  const double otherwise)
{
  const std::optional<double> given = table.note({name}, kind);
  if (given && *given < 0)
    throw InputError(table.name() + ": " + name + " must not be below 0.");
  return given.value_or(otherwise);
}

/// Column of travel [mm].
std::vector<double> travels(const ShopTable &table, const Jack &jack,
                            ShopReadings &readings)
{
  bool              by_strokes = false;
  const std::size_t column =
      one_column(table, travel_names, stroke_names, "travel [mm] or strokes", by_strokes);
  readings.travel_unit = table.heads()[column].unit;
  if (!by_strokes)
    return table.values(column, UnitKind::length);
  readings.travel_from              = TravelFrom::strokes;
  const double                bore  = jack_length(table, "jack bore", jack.bore);
  const double                pump  = jack_length(table, "pump bore", jack.pump_bore);
  const double                way   = jack_length(table, "pump stroke", jack.pump_stroke);
  const std::optional<double> given = table.note({"travel per stroke"}, UnitKind::length);
  if (given && *given <= 0)
    throw InputError(table.name() + ": travel per stroke must be above 0.");
  if (!given && !(bore > 0 && pump > 0 && way > 0))
    throw InputError(
        table.name() +
        ": strokes of the pump become travel by jack.bore, jack.pump_bore and "
        "jack.pump_stroke of the case. Give the missing ones there or in the head of the "
        "readings, as in jack bore = 60 mm; or what was measured: travel per stroke = 1.2 "
        "mm.");
  readings.per_stroke        = given ? *given : way * pump * pump / (bore * bore);
  std::vector<double> values = table.values(column, UnitKind::ratio);
  for (double &value : values)
    value *= readings.per_stroke;
  return values;
}

/// Column of force [N].
std::vector<double> forces(const ShopTable &table, const Jack &jack, ShopReadings &readings)
{
  bool              by_pressure = false;
  const std::size_t column      = one_column(table, force_names, pressure_names,
                                             "force [kN] or pressure [bar]", by_pressure);
  readings.force_unit           = table.heads()[column].unit;
  if (!by_pressure)
    return table.values(column, UnitKind::force);
  readings.force_from = ForceFrom::pressure;
  const double bore   = jack_length(table, "jack bore", jack.bore);
  if (!(bore > 0))
    throw InputError(
        table.name() +
        ": pressure becomes force by the jack's piston. Give jack.bore in the "
        "case, or its diameter in the head of the readings: jack bore = 60 mm.");
  readings.piston            = pi * bore * bore / 4;
  std::vector<double> values = table.values(column, UnitKind::stress);
  for (double &value : values)
    value *= readings.piston;
  return values;
}

void check_push(const ShopTable &table, const ShopReadings &readings)
{
  const std::vector<Reading> &push = readings.push;
  if (push.size() < fewest_readings)
    throw InputError(fmt::format(
        "{}: {} readings with travel and force, and at least {} are needed. To separate "
        "friction from strength take 15 or more, from the first touch to beyond the "
        "largest force.",
        table.name(), push.size(), fewest_readings));
  if (push.size() > most_readings)
    throw InputError(fmt::format("{}: {} readings, and {} are enough: in so dense a log "
                                 "the errors of neighbours are not independent. Keep "
                                 "every {}th row.",
                                 table.name(), push.size(), most_readings,
                                 push.size() / 200));
  for (std::size_t i = 0; i < push.size(); ++i)
  {
    const std::string place = fmt::format("{}:{}", table.name(), push[i].line);
    if (push[i].force < 0)
      throw InputError(place +
                       ": a force below 0, but a jack only pushes. Check the sign of "
                       "the readings.");
    if (i > 0 && push[i].travel < push[i - 1].travel)
      throw InputError(fmt::format(
          "{}: the {} went back from {} to {}. Readings must be in the order of one "
          "push: check for a wrong digit, or for two pushes in one file.",
          place, readings.travel_from == TravelFrom::strokes ? "strokes" : "travel",
          readings.travel_from == TravelFrom::strokes
              ? decimal_text(push[i - 1].travel / readings.per_stroke, 1)
              : decimal_text(push[i - 1].travel, 2) + " mm",
          readings.travel_from == TravelFrom::strokes
              ? decimal_text(push[i].travel / readings.per_stroke, 1)
              : decimal_text(push[i].travel, 2) + " mm"));
  }
  const auto largest = std::max_element(push.begin(), push.end(),
                                        [](const Reading &a, const Reading &b)
                                        { return a.force < b.force; });
  if (largest->force <= 0 || push.back().travel <= push.front().travel)
    throw InputError(table.name() + ": all forces are 0, or the travel stands still. Are "
                                    "these the readings of a push?");
}

/// Takes away what was read once the force has fallen to a fifth of its largest. The legs
/// stand then and slide; that force is small, and ripples with the mesh by as much as
/// friction changes it.
void leave_out_slide(const ShopTable &table, ShopReadings &readings)
{
  constexpr double      slide = 0.2;
  std::vector<Reading> &push  = readings.push;
  const auto            peak  = std::max_element(push.begin(), push.end(),
                                                 [](const Reading &a, const Reading &b)
                                                 { return a.force < b.force; });
  const auto            last  = std::find_if(peak, push.end(),
                                             [&](const Reading &reading)
                                             { return reading.force < slide * peak->force; });
  if (last == push.end())
    return;
  readings.remarks.push_back(fmt::format(
      "{}:{} and further: {} {} left out, from where the force has fallen to a fifth of "
      "its largest. The legs only slide there, and the mesh decides as much as friction.",
      table.name(), last->line, push.end() - last,
      push.end() - last == 1 ? "reading is" : "readings are"));
  push.erase(last, push.end());
  if (push.size() < fewest_readings)
    throw InputError(fmt::format(
        "{}: only {} readings are from before the force has fallen to a fifth of its "
        "largest, and at least {} are needed. Read from the first touch on.",
        table.name(), push.size(), fewest_readings));
}

/// A jack cannot have given more than it can.
void check_capacity(const ShopTable &table, const ShopReadings &readings, const Case &c)
{
  for (const Reading &reading : readings.push)
    if (c.ram.capacity > 0 && reading.force > 1.1 * c.ram.capacity)
      throw InputError(fmt::format(
          "{}:{}: {} is beyond what the case's ram can give ({}). Is the unit in the head "
          "the "
          "gauge's (kN, kgf, lbf; bar, psi){}, or is ram.capacity of another jack?",
          table.name(), reading.line, force_text(reading.force, UnitSystem::metric),
          force_text(c.ram.capacity, UnitSystem::metric),
          readings.force_from == ForceFrom::pressure
              ? ", is jack.bore the piston's diameter"
              : ""));
}
} // namespace

std::string to_text(const EndKind kind)
{
  for (const EndWord &word : end_words)
    if (word.kind == kind)
      return word.name;
  return "";
}

ShopReadings shop_readings(const ShopTable &table, const Case &c)
{
  ShopReadings readings;
  readings.file = table.name();
  check_notes(table, readings);
  const std::vector<double> travel = travels(table, c.ram.jack, readings);
  const std::vector<double> force  = forces(table, c.ram.jack, readings);
  std::size_t               empty  = 0;
  for (std::size_t row = 0; row < table.rows(); ++row)
    if (std::isfinite(travel[row]) && std::isfinite(force[row]))
      readings.push.push_back({travel[row], force[row], table.line(row)});
    else
      ++empty;
  if (empty > 0)
    readings.remarks.push_back(fmt::format(
        "{}: {} rows lack travel or force and are left out.", table.name(), empty));
  check_push(table, readings);
  check_capacity(table, readings, c);
  std::vector<double> read_travel, read_force;
  for (const Reading &reading : readings.push)
  {
    read_travel.push_back(reading.travel);
    read_force.push_back(reading.force);
  }
  readings.travel_mark = given_mark(table, "travel mark", UnitKind::length,
                                    readings.travel_from == TravelFrom::strokes
                                        ? readings.per_stroke
                                        : std::min(mark_of(read_travel), coarsest_ruler));
  readings.force_mark =
      readings.force_from == ForceFrom::pressure
          ? given_mark(table, "pressure mark", UnitKind::stress,
                       mark_of(read_force) / readings.piston) *
                readings.piston
          : given_mark(table, "force mark", UnitKind::force, mark_of(read_force));
  leave_out_slide(table, readings);
  for (const ShopNote &note : table.notes())
    for (const EndWord &word : end_words)
      if (note.name == word.name)
      {
        if (std::any_of(readings.ends.begin(), readings.ends.end(),
                        [&](const EndReading &end) { return end.kind == word.kind; }))
          throw InputError(fmt::format("{}:{}: '{}' is given twice.", table.name(),
                                       note.line, note.name));
        if (word.kind == EndKind::elongation && !c.weld.present())
          throw InputError(fmt::format(
              "{}:{}: the elongation between marks is taken over "
              "inspection.gauge_length about a weld, and the case has no weld. Leave "
              "the line out.",
              table.name(), note.line));
        readings.ends.push_back(end_reading(table, word, note));
      }
  return readings;
}

std::string readings_notation()
{
  return "Readings of one push are a table (comma, semicolon or tab) with the heads "
         "`travel [mm]` or `strokes`, and `force [kN]` or `pressure [bar]`, in any unit. "
         "Lines before it may say: jack bore, pump bore, pump stroke, travel per stroke; "
         "travel mark, force mark, pressure mark (of the scale); leg angle, bend angle, "
         "springback, nose gap, mark elongation, each as `leg angle = 86.5 deg +- 1 deg`.";
}
} // namespace throughbend
