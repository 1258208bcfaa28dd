#include "postprocess/study/study_words.h"

#include "inputs/keys/option_table.h"
#include "inputs/keys/stored_case.h"
#include "postprocess/study/finding_mark.h"
#include "postprocess/study/limit_chart.h"
#include "postprocess/words/doubt_words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace throughbend
{
namespace
{
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

std::string passes_text(const std::size_t n)
{
  return std::to_string(n) + (n == 1 ? " pass" : " passes");
}

/// "a, b and c".
std::string joined(const std::vector<std::string> &parts)
{
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i)
    text += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
  return text;
}

std::string own_range(const ReportedStudy &study, const std::size_t k)
{
  double low = INFINITY, high = -INFINITY;
  for (const StudyPass &pass : study.record.passes)
    if (k < pass.values.size())
    {
      low  = std::min(low, pass.values[k]);
      high = std::max(high, pass.values[k]);
    }
  const StudyKey &key = study.record.keys[k];
  if (!(low <= high))
    return key_name(key.key);
  if (low == high)
    return key_name(key.key) + " at " + value_text(key, low);
  return key_name(key.key) + " from " + number_in_unit(key, low) + " to " +
         value_text(key, high);
}

/// A side of a change with all answers of its pass: a coupon that is through may have its
/// metal beyond its limits.
std::string with_finding(const ReportedStudy &study, const std::string &side,
                         const StudyKey *key)
{
  const JsonMembers &answers = study.answers;
  const double       value   = answers.number(side + ".value");
  const StudyPass   *pass    = numbered_pass(study, side + ".pass");
  return (key ? value_text(*key, value) : fmt::format("{:.5g}", value)) + " (" +
         (pass ? finding_words(*pass) : answers.word(side + ".outcome")) + ")";
}

void answer_limits(const ReportedStudy &study, std::vector<std::string> &lines)
{
  const JsonMembers &answers = study.answers;
  bool               any     = false; ///< whether any key has a change
  const std::string  until   = answers.word("until");
  for (std::size_t i = 0; answers.has("limits." + std::to_string(i)); ++i)
  {
    const std::string here = "limits." + std::to_string(i);
    const StudyKey   *key  = find_key(study.record, answers.word(here + ".key"));
    std::string       line;
    for (std::size_t c = 0; answers.has(here + ".changes." + std::to_string(c)); ++c)
    {
      const std::string change = here + ".changes." + std::to_string(c);
      const std::string below  = with_finding(study, change + ".below", key),
                        above  = with_finding(study, change + ".above", key);
      const bool holds_below   = answers.truth(change + ".below.holds").value_or(false);
      line += (line.empty() ? "" : " ") +
              (holds_below ? "\"" + until + "\" holds at " + below + " and no longer at " +
                                 above + "."
                           : "\"" + until + "\" does not hold at " + below +
                                 " and holds at " + above + ".");
    }
    const std::string name = key_name(answers.word(here + ".key"));
    if (line.empty())
    {
      std::vector<StudyPass> along;
      if (key)
        for (const std::size_t pass : passes_along(
                 study.record, static_cast<std::size_t>(key - study.record.keys.data())))
          along.push_back(study.record.passes[pass]);
      line = "no change of \"" + until + "\" was found" +
             (key ? " from " + number_in_unit(*key, answers.number(here + ".from")) +
                        " to " + value_text(*key, answers.number(here + ".to"))
                  : "") +
             "; along it " + tally(along) + ". Between them nothing was computed.";
    }
    if (answers.has(here + ".undecided.0"))
      line += " Some passes are on neither side: see the table.";
    lines.push_back(char(std::toupper(static_cast<unsigned char>(name[0]))) +
                    name.substr(1) + ": " + line);
    any = any || answers.has(here + ".changes.0");
  }
  if (any)
    lines.emplace_back("Nothing was computed between the two sides. Use the side where "
                       "the condition holds, with a margin for differences in plate, "
                       "grease and fixture.");
}

bool is_near(const double a, const double b)
{
  return std::abs(a - b) <= 1e-9 * std::max({std::abs(a), std::abs(b), 1e-9});
}

/// The case's own pass, and how the passes within the rule's range fare.
void answer_map(const ReportedStudy &study, std::vector<std::string> &lines)
{
  const StudyRecord &record = study.record;
  std::size_t        within = 0, sound = 0;
  bool               has_rule = false;
  for (const StudyPass &pass : record.passes)
  {
    bool is_own = !record.keys.empty(), allowed = true;
    for (std::size_t k = 0; k < record.keys.size() && k < pass.values.size(); ++k)
    {
      const std::string rule = "rule." + record.keys[k].key;
      const double      low  = study.answers.number(rule + ".0"),
                   high      = study.answers.number(rule + ".1");
      has_rule               = has_rule || study.answers.has(rule);
      allowed = allowed && !(pass.values[k] < low && !is_near(pass.values[k], low)) &&
                !(pass.values[k] > high && !is_near(pass.values[k], high));
      is_own = is_own && is_near(pass.values[k], record.keys[k].own);
    }
    if (is_own)
      lines.push_back("The case's own values: " + finding_words(pass) + ".");
    within += allowed ? 1 : 0;
    sound += allowed && mark_of(pass).letters == "T" ? 1 : 0;
  }
  if (has_rule && within > 0)
    lines.push_back(fmt::format("Of the {} within the rule's range {} are through with the "
                                "metal within its limits and sound figures.",
                                passes_text(within), sound));
}

void answer_spread(const ReportedStudy &study, std::vector<std::string> &lines)
{
  const JsonMembers &answers = study.answers;
  for (std::size_t i = 0; answers.has("chances." + std::to_string(i)); ++i)
  {
    const std::string here = "chances." + std::to_string(i) + ".";
    lines.push_back("Chance of \"" + answers.word(here + "what") + "\": " +
                    percent_with_bounds(
                        answers.number(here + "share"), answers.number(here + "most_share"),
                        answers.number(here + "low"), answers.number(here + "high"),
                        answers.number(here + "level")) +
                    ".");
  }
  if (const double passes = answers.number("low_accuracy"); passes > 0)
    lines.push_back(low_accuracy_words(passes));
  if (const double passes = answers.number("close"); passes > 0)
    lines.push_back(close_words(passes));
}

void answer_choice(const ReportedStudy &study, std::vector<std::string> &lines)
{
  const JsonMembers       &answers = study.answers;
  std::vector<std::string> parts;
  std::set<std::string>    names; // a key has a dot, so paths are taken whole
  for (const std::string &name : answers.names_in("fixture"))
    names.insert(name);
  for (const std::string &name : names)
  {
    parts.push_back(key_name(name) + " " +
                    any_value_text(study, name, answers.number("fixture." + name)));
  }
  const std::string goal = answers.word("goal");
  if (parts.empty())
    lines.push_back("No fixture is chosen: none of those computed takes the whole family.");
  else
    lines.push_back("Chosen" + (goal.empty() ? "" : " for " + goal) + ": " + joined(parts) +
                    ".");
  if (const double corners = answers.number("corners"); corners > 0)
  {
    const double sample = answers.number("sample");
    lines.push_back(fmt::format(
        "It was pushed with {:.0f} corners{} of the family.", corners,
        sample > 0 ? fmt::format(" and {:.0f} samples", sample) : std::string()));
  }
  if (const double passes = answers.number("metal_not_known"); passes > 0)
    lines.push_back(metal_not_known_words(passes));
}
} // namespace

ReportedStudy reported_study(const StudyRecord &record)
{
  ReportedStudy reported;
  reported.record = record;
  if (!record.answers.empty())
    reported.answers = JsonMembers(record.answers, "the answers of the study");
  if (!record.case_text.empty())
    reported.own = stored_case(record.case_text, "case of the study").value;
  return reported;
}

const StudyPass *numbered_pass(const ReportedStudy &study, const std::string &path)
{
  const double number = study.answers.number(path);
  return number >= 0 && number < static_cast<double>(study.record.passes.size())
             ? &study.record.passes[static_cast<std::size_t>(number)]
             : nullptr;
}

std::string key_name(const std::string &key)
{
  std::string name = key;
  std::replace(name.begin(), name.end(), '.', ' ');
  std::replace(name.begin(), name.end(), '_', ' ');
  return name.empty() ? "key" : name;
}

const StudyKey *find_key(const StudyRecord &record, const std::string &key)
{
  const auto found = std::find_if(record.keys.begin(), record.keys.end(),
                                  [&](const StudyKey &one) { return one.key == key; });
  return found == record.keys.end() ? nullptr : &*found;
}

std::string key_title(const StudyKey &key)
{
  return key_name(key.key) + " [" + (key.unit.empty() ? "-" : key.unit) + "]";
}

std::string number_in_unit(const StudyKey &key, const double value)
{
  return std::isfinite(value) ? fmt::format("{:.5g}", value / key.scale) : "unknown";
}

std::string value_text(const StudyKey &key, const double value)
{
  return number_in_unit(key, value) + (key.unit.empty() ? "" : " " + key.unit);
}

std::string any_value_text(const ReportedStudy &study, const std::string &name,
                           const double value)
{
  if (const StudyKey *key = find_key(study.record, name))
    return value_text(*key, value);
  if (!std::isfinite(value))
    return "not known";
  const Option *option = find_option(name);
  const auto   *number = option ? std::get_if<NumberSlot>(&option->slot) : nullptr;
  return number ? to_text(value, number->kind, UnitSystem::metric)
                : fmt::format("{:.5g}", value);
}

std::string values_text(const StudyRecord &record, const StudyPass &pass)
{
  std::string text;
  for (std::size_t k = 0; k < std::min(record.keys.size(), pass.values.size()); ++k)
    text += (k > 0 ? ", " : "") + key_name(record.keys[k].key) + " " +
            value_text(record.keys[k], pass.values[k]);
  for (const std::string &word : pass.words)
    text += (text.empty() ? "" : ", ") + word;
  return text;
}

double figure_of(const StudyPass &pass, const std::string &name)
{
  const auto found = pass.figures.find(name);
  return found == pass.figures.end() || !has_finding(pass) ? nan : found->second;
}

std::string figure_name(const std::string &name)
{
  if (name == "peak_ram_force_N")
    return "largest ram force";
  if (name == "peak_face_strain_log")
    return "largest strain of the convex face";
  if (name == "peak_face_elongation")
    return "largest stretch of the convex face";
  if (name == "capacity_margin")
    return "margin to the ram's capacity";
  std::string words = name;
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

std::string figure_text(const std::string &name, const double value,
                        const ReaderUnits &units)
{
  const auto ends = [&](const std::string &tail)
  {
    return name.size() > tail.size() &&
           name.compare(name.size() - tail.size(), tail.size(), tail) == 0;
  };
  if (!std::isfinite(value))
    return "not known";
  if (name == "peak_face_strain_log")
    return percent_text(std::expm1(value)) + " (log " + decimal_text(value, 3) + ")";
  if (ends("_N"))
    return units.force(value);
  if (ends("_mm"))
    return units.length(value);
  if (ends("_deg"))
    return angle_text(value);
  if (ends("_elongation") || ends("_margin"))
    return percent_text(value);
  return fmt::format("{:.3g}", value);
}

std::string percent_with_bounds(const double share, const double most, const double low,
                                const double high, const double level)
{
  if (!std::isfinite(share))
    return "not known";
  const bool open = most > share;
  if (share == 0 && !open && std::isfinite(high))
    return fmt::format(
        "none of the passes; it is at most {:.1f} % with {:.0f} % confidence", 100 * high,
        100 * level);
  const std::string of_passes = open ? percent_text(share) + " to " + percent_text(most) +
                                           " of the passes, not all of "
                                           "which tell"
                                     : percent_text(share);
  return of_passes +
         (std::isfinite(low) && std::isfinite(high)
              ? fmt::format(", between {:.1f} and {:.1f} % with {:.0f} % confidence",
                            100 * low, 100 * high, 100 * level)
              : ", its error is not known");
}

std::string question(const ReportedStudy &study)
{
  std::vector<std::string> ranges, names;
  for (std::size_t k = 0; k < study.record.keys.size(); ++k)
  {
    ranges.push_back(own_range(study, k));
    names.push_back(key_name(study.record.keys[k].key));
  }
  switch (study.record.kind)
  {
  case StudyKind::limit:
  {
    std::vector<std::string> asked;
    for (std::size_t i = 0; study.answers.has("limits." + std::to_string(i)); ++i)
    {
      const std::string here = "limits." + std::to_string(i);
      const StudyKey   *key  = find_key(study.record, study.answers.word(here + ".key"));
      if (key)
        asked.push_back(key_name(key->key) + " from " +
                        number_in_unit(*key, study.answers.number(here + ".from")) +
                        " to " + value_text(*key, study.answers.number(here + ".to")));
    }
    if (asked.empty())
      asked = ranges;
    return asked.size() == 1
               ? "Where does the finding change along " + asked[0] + "?"
               : "Where does the finding change when these are varied, one at a time: " +
                     joined(asked) + "?";
  }
  case StudyKind::map:
    return "What is found when these are varied: " + joined(ranges) + "?";
  case StudyKind::spread:
    return "What happens when these scatter together: " + joined(names) + "?";
  case StudyKind::choice:
    return "Which fixture takes the whole family of coupons? Tried: " + joined(ranges) +
           ".";
  }
  return "";
}

std::vector<std::string> answer(const ReportedStudy &study, const ReaderUnits &)
{
  std::vector<std::string> lines;
  if (study.record.kind == StudyKind::limit)
    answer_limits(study, lines);
  else if (study.record.kind == StudyKind::spread)
    answer_spread(study, lines);
  else if (study.record.kind == StudyKind::choice && !study.record.answers.empty())
    answer_choice(study, lines);
  else if (study.record.kind == StudyKind::map)
    answer_map(study, lines);
  if (lines.empty() && study.record.kind != StudyKind::map)
    lines.push_back("The answer is not known yet: the study has not ended.");
  lines.push_back(tally(study.record.passes) + ".");
  return lines;
}

std::string tally(const std::vector<StudyPass> &passes)
{
  std::string text  = passes_text(passes.size());
  bool        first = true;
  for (const CountedMark &one : count_marks(passes))
  {
    text += (first ? ": " : "; ") + std::to_string(one.count) + " " +
            (one.mark.letters == "?" ? "without a finding, which says nothing about the "
                                       "coupon"
                                     : one.mark.brief);
    first = false;
  }
  return text;
}
} // namespace throughbend
