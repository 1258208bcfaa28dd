#include "solver/study/study_case.h"

#include "inputs/keys/case_entries.h"
#include "inputs/keys/case_text.h"
#include "inputs/keys/option_table.h"
#include "inputs/text/file_text.h"
#include "inputs/text/input_error.h"
#include "inputs/units/exact_units.h"
#include "solver/study/held_fixture.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace throughbend
{
namespace
{
/// Number and unit kind of an option; null slots where it has no number.
struct Numbered
{
  const NumberSlot *number = nullptr;
  const CountSlot  *count  = nullptr;
};

Numbered numbered(const Option &option)
{
  return {std::get_if<NumberSlot>(&option.slot), std::get_if<CountSlot>(&option.slot)};
}

const Option &option_of(const StudyKey &key)
{
  const Option *const option = find_option(key.key);
  if (option == nullptr)
    throw InputError("there is no key " + key.key + ".");
  return *option;
}

struct ShownUnit
{
  const char *name;
  double      scale; ///< in N, mm, MPa, s
};

/// Lengths in mm or inch and so on, as inputs/units/display_units has them.
ShownUnit shown_unit(const UnitKind kind, const UnitSystem units)
{
  const bool us = units == UnitSystem::us;
  switch (kind)
  {
  case UnitKind::length:
    return us ? ShownUnit{"in", mm_per_inch} : ShownUnit{"mm", 1};
  case UnitKind::force:
    return us ? ShownUnit{"kip", n_per_kip} : ShownUnit{"kN", 1000};
  case UnitKind::stress:
    return us ? ShownUnit{"ksi", mpa_per_ksi} : ShownUnit{"MPa", 1};
  case UnitKind::angle:
    return {"deg", 3.14159265358979323846 / 180};
  case UnitKind::density:
    return {"kg/m^3", 1};
  case UnitKind::time:
    return {"s", 1};
  case UnitKind::energy:
    return {"J", 1000};
  case UnitKind::ratio:
  case UnitKind::count:
    break;
  }
  return {"", 1};
}
} // namespace

StudyCase::StudyCase(const std::string &case_file, std::vector<std::string> overrides)
    : name_(case_file), overrides_(std::move(overrides))
{
  FileText file = read_file_text(case_file);
  if (!file.problem.empty())
    throw InputError("the case cannot be used:\n" +
                     error_list(read_case(case_file, overrides_).errors));
  text_ = std::move(file.text);
  read();
}

StudyCase::StudyCase(std::string text, std::string name, std::vector<std::string> overrides)
    : text_(std::move(text)), name_(std::move(name)), overrides_(std::move(overrides))
{
  read();
}

void StudyCase::read()
{
  const CaseReading reading = read_case_text(text_, name_, overrides_);
  if (!reading.value)
    throw InputError("the case cannot be used:\n" + error_list(reading.errors));
  own_     = *reading.value;
  remarks_ = reading.remarks;
  spreads_ = reading.spreads;
}

StudyKey StudyCase::key(const std::string &name, const UnitSystem units) const
{
  const Option *const option = find_option(name);
  if (option == nullptr)
  {
    const auto nearest = nearest_key(name);
    throw InputError("there is no key '" + name + "'" +
                     (nearest ? ", did you mean '" + *nearest + "'?" : ".") +
                     " Keys of a case: throughbend push --help");
  }
  const Numbered slot = numbered(*option);
  if (slot.number == nullptr && slot.count == nullptr)
    throw InputError("the key " + name +
                     " has no number, so it cannot be varied. It is one of: " +
                     allowed_text(*option, units));
  if (option->applies && !option->applies(own_))
    throw InputError("the key " + name +
                     " has no effect in this case (only: " + option->applies_text + ").");
  const ShownUnit unit =
      shown_unit(slot.number != nullptr ? slot.number->kind : UnitKind::count, units);
  StudyKey key{name, unit.name, unit.scale, 0};
  key.own = value_in(own_, key);
  return key;
}

std::vector<std::string> StudyCase::what_stays(const std::vector<StudyKey> &keys) const
{
  const auto varied = [&](const std::string &name)
  {
    return std::any_of(keys.begin(), keys.end(),
                       [&](const StudyKey &key) { return key.key == name; });
  };
  const auto typed = [&](const std::string &name)
  {
    return std::any_of(overrides_.begin(), overrides_.end(),
                       [&](const std::string &word) {
                         return word == "--" + name ||
                                word.rfind("--" + name + "=", 0) == 0;
                       });
  };
  std::vector<std::string> sentences;
  for (const std::string &name : own_.stated)
  {
    const Option &option = *find_option(name);
    if (const auto followed =
            std::find_if(option.looks_at.begin(), option.looks_at.end(), varied);
        option.rule && followed != option.looks_at.end() && !varied(name) && !typed(name))
      sentences.push_back(name + " stays " + value_text(option, own_) +
                          " in all passes, as " + name_ +
                          " has it. Left out, it would be " + option.rule_text);
  }
  return sentences;
}

double value_in(const Case &c, const StudyKey &key)
{
  Case           copy = c; // slots give the place, not the value
  const Numbered slot = numbered(option_of(key));
  return slot.number != nullptr ? slot.number->at(copy) : slot.count->at(copy);
}

bool is_count(const StudyKey &key)
{
  return numbered(option_of(key)).count != nullptr;
}

double StudyCase::given(const StudyKey &key, const std::string &text,
                        const std::string &option) const
{
  Case          scratch = own_;
  const Option &slot    = option_of(key);
  const Setting setting = set_option(slot, text, scratch);
  if (!setting.error.empty())
    throw InputError(option + " " + text + ": " + setting.error + "; " + key.key + " is " +
                     allowed_text(slot, UnitSystem::metric));
  return value_in(scratch, key);
}

double StudyCase::given_difference(const StudyKey &key, const std::string &text,
                                   const std::string &option) const
{
  const Numbered slot = numbered(option_of(key));
  const Quantity quantity =
      read_quantity(text, slot.number != nullptr ? slot.number->kind : UnitKind::count);
  if (!quantity.ok())
    throw InputError(option + " " + text + ": " + quantity.error);
  return quantity.value;
}

std::vector<std::string> StudyCase::words_at(const std::vector<StudyKey> &keys,
                                             const StudyPoint            &given) const
{
  if (given.values.size() != keys.size())
    throw std::logic_error("a point needs a value for each key of the study");
  StudyPoint point = given;
  if (holds_frame_)
    hold_opening(own_, keys, point);
  std::vector<std::string> own;
  for (std::size_t i = 0; i < keys.size(); ++i)
    if (!std::isnan(point.values[i]))
    {
      own.push_back("--" + keys[i].key);
      own.push_back(written_value(keys[i], point.values[i]));
    }
  own.insert(own.end(), point.words.begin(), point.words.end());
  // Of a key that is given twice the later value counts: the study's.
  const auto is_varied = [&](const std::string &word)
  {
    for (std::size_t i = 0; i < own.size(); i += 2)
      if (word == own[i] || word.rfind(own[i] + "=", 0) == 0)
        return true;
    return false;
  };
  std::vector<std::string> words;
  for (std::size_t i = 0; i < overrides_.size(); ++i)
    if (!is_varied(overrides_[i]))
      words.push_back(overrides_[i]);
    else if (overrides_[i].find('=') == std::string::npos)
      ++i; // its value
  words.insert(words.end(), own.begin(), own.end());
  return words;
}

CaseReading StudyCase::at(const std::vector<StudyKey> &keys, const StudyPoint &point) const
{
  return read_case_text(text_, name_, words_at(keys, point));
}

std::string StudyCase::push_command(const std::vector<StudyKey> &keys,
                                    const StudyPoint            &point) const
{
  const std::vector<std::string> words   = words_at(keys, point);
  const CaseEntries              in_file = entries_of_text(text_, name_);
  const auto is_given = [&](const std::string &word, const std::string &value)
  {
    return std::any_of(in_file.entries.begin(), in_file.entries.end(),
                       [&](const CaseEntry &entry)
                       { return "--" + entry.key == word && entry.value == value; });
  };
  std::string command = "throughbend push " + name_;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (words[i].find('=') != std::string::npos || i + 1 == words.size())
      command += " " + words[i];
    else
    {
      if (!is_given(words[i], words[i + 1]))
        command += " " + words[i] + " \"" + words[i + 1] + "\"";
      ++i;
    }
  return command;
}

std::vector<double> even_levels(const StudyKey &key, const double from, const double to,
                                const std::size_t count)
{
  const double        step   = (to - from) / key.scale / static_cast<double>(count - 1);
  const double        digits = std::max(0., 3 - std::floor(std::log10(step)));
  const double        tenth  = std::pow(10, digits);
  std::vector<double> levels = {from};
  for (std::size_t i = 1; i + 1 < count; ++i)
  {
    const double shown = from / key.scale + step * static_cast<double>(i);
    levels.push_back(is_count(key) ? std::round(shown)
                                   : inside_value(key, std::round(shown * tenth) / tenth));
  }
  levels.push_back(to);
  return levels;
}

std::string case_value(const StudyKey &key, const double value)
{
  const Numbered slot = numbered(option_of(key));
  return slot.number != nullptr ? exact_text(value, slot.number->kind)
                                : fmt::format("{}", std::lround(value));
}

std::string written_value(const StudyKey &key, const double value)
{
  const Option &option = option_of(key);
  for (int digits = 4; digits <= 12; ++digits)
  {
    const std::string text = fmt::format("{:.{}g}", value / key.scale, digits) +
                             (key.unit.empty() ? "" : " " + key.unit);
    Case scratch;
    if (set_option(option, text, scratch).error.empty() && value_in(scratch, key) == value)
      return text;
  }
  return case_value(key, value);
}

double inside_value(const StudyKey &key, const double shown)
{
  const std::string text =
      fmt::format("{:.12g}", shown) + (key.unit.empty() ? "" : " " + key.unit);
  Case scratch;
  return set_option(option_of(key), text, scratch).error.empty() ? value_in(scratch, key)
                                                                 : shown * key.scale;
}

std::string shown_value(const StudyKey &key, const double value)
{
  return fmt::format("{:.6g}", value / key.scale);
}
} // namespace throughbend
