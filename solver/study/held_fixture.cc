#include "solver/study/held_fixture.h"

#include "inputs/keys/case_entries.h"
#include "inputs/keys/case_text.h"
#include "inputs/keys/option_table.h"
#include "inputs/text/input_error.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
bool counts_in_thicknesses(const Option &option)
{
  const auto *slot = std::get_if<NumberSlot>(&option.slot);
  return slot != nullptr && slot->thickness &&
         (option.section == "plunger" || option.section == "shoulders");
}

bool gives(const CaseEntries &entries, const std::string &key)
{
  return std::any_of(entries.entries.begin(), entries.entries.end(),
                     [&](const CaseEntry &entry) { return entry.key == key; });
}

/// The words without those that set a key.
std::vector<std::string> without(const std::vector<std::string> &words,
                                 const std::string              &key)
{
  std::vector<std::string> kept;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (words[i] == "--" + key)
      ++i; // its value
    else if (words[i].rfind("--" + key + "=", 0) != 0)
      kept.push_back(words[i]);
  return kept;
}
} // namespace

std::vector<std::string> with_fixture_held(const std::string              &case_text,
                                           const std::string              &name,
                                           const std::vector<std::string> &overrides)
{
  const CaseReading reading = read_case_text(case_text, name, overrides);
  if (!reading.value)
    throw InputError("the case cannot be used:\n" + error_list(reading.errors));
  const CaseEntries        in_file  = entries_of_text(case_text, name);
  const CaseEntries        in_words = entries_of_words(overrides);
  std::vector<std::string> held     = overrides;
  for (const Option &option : option_table())
    if (counts_in_thicknesses(option) &&
        (gives(in_file, option.key()) || gives(in_words, option.key())))
    {
      held = without(held, option.key());
      held.push_back("--" + option.key());
      held.push_back(value_text(option, *reading.value));
    }
  return held;
}

StudyCase with_fixture_held(const StudyCase &given)
{
  return {given.text(), given.name(),
          with_fixture_held(given.text(), given.name(), given.overrides())};
}

void hold_opening(const Case &own, const std::vector<StudyKey> &keys, StudyPoint &point)
{
  const std::string above = "frame.clearance_above";
  const auto        place = [&](const std::string &key)
  {
    return static_cast<std::size_t>(std::find_if(keys.begin(), keys.end(),
                                                 [&](const StudyKey &k)
                                                 { return k.key == key; }) -
                                    keys.begin());
  };
  const std::size_t thickness = place("coupon.thickness"), clearance = place(above);
  if (!own.fixture.frame.present() || thickness == keys.size() ||
      std::isnan(point.values[thickness]))
    return;
  const double thicker = point.values[thickness] - own.coupon.thickness;
  if (clearance < keys.size() && !std::isnan(point.values[clearance]))
    point.values[clearance] -= thicker;
  else
  {
    point.words.push_back("--" + above);
    point.words.push_back(
        exact_text(own.fixture.frame.clearance_above - thicker, UnitKind::length));
  }
}
} // namespace throughbend
