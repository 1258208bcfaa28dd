#include "inputs/keys/case_reader.h"

#include "inputs/keys/case_entries.h"
#include "inputs/keys/option_table.h"
#include "inputs/keys/validation.h"
#include "inputs/text/file_text.h"
#include "inputs/text/plain_text.h"

#include <algorithm>
#include <filesystem>
#include <limits>
#include <map>
#include <set>

namespace throughbend
{
namespace
{
constexpr std::size_t shown_of_value = 60; // bytes of a value in a message
constexpr std::size_t most_listed    = 20; // errors; of more only the number is told

std::string section_of(const std::string &key)
{
  const std::size_t dot = key.find('.');
  return dot == std::string::npos ? "" : key.substr(0, dot);
}

/// `coupon.thickness` of `spread.coupon.thickness`.
std::string key_of_spread(const std::string &key)
{
  return key.substr(std::string(spread_section).size() + 1);
}

/// One reading of one case, step by step.
class Reading
{
public:
  explicit Reading(const std::string &name) : name_(name) {}

  void take_file(std::string_view text)
  {
    const CaseEntries entries = entries_of_text(text, name_);
    is_text_                  = entries.is_text;
    take(entries, Layer::file);
  }
  void take_words(const std::vector<std::string> &words)
  {
    take(entries_of_words(words), Layer::command_line);
  }
  CaseReading finish();

private:
  enum class Layer
  {
    file,
    command_line
  };
  struct Given
  {
    CaseEntry entry;
    Layer     layer;
  };

  void take(const CaseEntries &entries, Layer layer);
  void take_known(const CaseEntry &entry, Layer layer);
  void take_spread(const CaseEntry &entry, Layer layer);
  void refuse_unknown(const CaseEntry &entry);
  void set(const Option &option);
  void read_spreads();
  bool model_failed(const Option &option);
  void look_into_file(const Option &option, const CaseEntry &entry);
  void remark_idle_models();
  void follow_later_models();
  void set_given(const Option &option, const CaseEntry &entry);
  bool typed_later(const std::string &key) const;
  void remark_what_stays(const Option &option, const CaseEntry &entry);
  void cross_check();
  bool any_failed(const std::vector<std::string> &keys) const;

  std::string                  name_;
  bool                         is_text_ = true;
  std::map<std::string, Given> given_;
  std::set<std::string>        meant_;  ///< keys that a mistyped one probably stands for
  std::set<std::string>        failed_; ///< keys without a good value
  std::set<std::string>        unknown_sections_;
  std::vector<std::string>     spread_keys_; ///< keys in [spread], without that name
  Case                         case_;
  CaseReading                  result_;
};

void Reading::take(const CaseEntries &entries, Layer layer)
{
  for (const NotationFault &fault : entries.faults)
    result_.errors.push_back(
        {fault.place, "", fault.text, fault.problem, "", "", fault.line});
  for (const CaseEntry &entry : entries.entries)
    if (section_of(entry.key) == spread_section)
      take_spread(entry, layer);
    else if (find_option(entry.key))
      take_known(entry, layer);
    else
      refuse_unknown(entry);
}

/// A key of [spread] is known if the case has one of that name.
void Reading::take_spread(const CaseEntry &entry, Layer layer)
{
  const std::string key = key_of_spread(entry.key);
  if (find_option(key))
  {
    if (given_.count(entry.key) == 0)
      spread_keys_.push_back(key);
    take_known(entry, layer);
    return;
  }
  CaseError error{entry.place,
                  entry.key,
                  clipped(entry.value, shown_of_value),
                  "[spread] has no such key",
                  "",
                  "",
                  entry.line};
  if (const auto nearest = nearest_key(key))
    error.nearest = spread_section + ("." + *nearest);
  else
    error.allowed = "use the keys of the case: coupon.thickness = +- 0.1 mm";
  result_.errors.push_back(error);
}

void Reading::take_known(const CaseEntry &entry, Layer layer)
{
  const auto before = given_.find(entry.key);
  if (before != given_.end() && before->second.layer == layer)
  {
    result_.errors.push_back({entry.place, entry.key, clipped(entry.value, shown_of_value),
                              "is given twice, first at " + before->second.entry.place,
                              "one value per key", "", entry.line});
    return;
  }
  given_[entry.key] = {entry, layer};
}

void Reading::refuse_unknown(const CaseEntry &entry)
{
  const std::vector<std::string> sections = option_sections();
  const std::string              section  = section_of(entry.key);
  CaseError error{entry.place, entry.key, clipped(entry.value, shown_of_value), "", "",
                  "",          entry.line};
  if (section.empty())
    error.problem = "unknown key outside any section";
  else if (std::find(sections.begin(), sections.end(), section) == sections.end())
    error.problem = "unknown section '" + section + "'";
  else
    error.problem = "unknown key";

  // A look at every key, which takes its time: not for errors that nobody will read.
  const bool listed = result_.errors.size() < most_listed;
  if (const auto nearest = listed ? nearest_key(entry.key) : std::nullopt)
  {
    error.nearest = *nearest;
    meant_.insert(*nearest);
  }
  else
    error.allowed = "throughbend --help lists all keys";
  result_.errors.push_back(error);
}

bool Reading::any_failed(const std::vector<std::string> &keys) const
{
  return std::any_of(keys.begin(), keys.end(),
                     [&](const std::string &key) { return failed_.count(key) > 0; });
}

void Reading::set_given(const Option &option, const CaseEntry &entry)
{
  const Setting setting = set_option(option, entry.value, case_);
  if (!setting.note.empty())
    result_.remarks.push_back(entry.place + ": " + entry.key + ": " + setting.note);
  if (setting.open)
    failed_.insert(entry.key);
  if (option.rule)
    case_.stated.push_back(entry.key);
  if (setting.error.empty() && option.file_faults)
    look_into_file(option, entry);
  if (setting.error.empty())
    return;
  failed_.insert(entry.key);
  result_.errors.push_back(
      {entry.place, entry.key, clipped(entry.value, shown_of_value), setting.error,
       "allowed: " + allowed_text(option, setting.system), "", entry.line});
}

/// On the command line, as a key or by a model that sets it.
bool Reading::typed_later(const std::string &key) const
{
  const auto typed = [&](const std::string &name)
  {
    const auto given = given_.find(name);
    return given != given_.end() && given->second.entry.line == 0;
  };
  const Option &option = *find_option(key);
  return typed(key) || std::any_of(option.models.begin(), option.models.end(),
                                   [&](const OptionModel &m) { return typed(m.key); });
}

/// A value of the file that would follow a key of the command line if it were left out, and
/// does not: a left shoulder stays greased where the shoulders are made dry.
void Reading::remark_what_stays(const Option &option, const CaseEntry &entry)
{
  const auto *const number = std::get_if<NumberSlot>(&option.slot);
  if (number == nullptr || !option.rule || entry.line == 0 || any_failed({entry.key}) ||
      any_failed(option.looks_at) ||
      std::none_of(option.looks_at.begin(), option.looks_at.end(),
                   [&](const std::string &key) { return typed_later(key); }))
    return;
  Case other = case_;
  if (const std::optional<double> by_rule = option.rule(case_))
    number->at(other) = *by_rule;
  const auto shown = [&](Case &of)
  { return to_text(number->at(of), number->kind, UnitSystem::metric); };
  if (value_text(option, case_) != value_text(option, other))
    result_.remarks.push_back(entry.place + ": " + entry.key + " stays " + shown(case_) +
                              ", as the file has it; left out, it would be " +
                              shown(other) + " (" + option.rule_text + ")");
}

void Reading::set(const Option &option)
{
  const std::string key   = option.key();
  const auto        given = given_.find(key);
  // Whether the key applies, and what it is by default, cannot be said without the keys it
  // looks at. What was typed can still be judged by itself.
  const bool open = any_failed(option.looks_at);
  if (!open && option.applies && !option.applies(case_))
  {
    if (given != given_.end())
      result_.remarks.push_back(given->second.entry.place + ": " + key +
                                " has no effect here (only: " + option.applies_text + ")");
    return;
  }
  if (given != given_.end())
  {
    set_given(option, given->second.entry);
    remark_what_stays(option, given->second.entry);
  }
  else if (open || model_failed(option))
    failed_.insert(key);
  else if (const Setting setting = set_default(option, case_); !setting.error.empty())
  {
    failed_.insert(key);
    if (meant_.count(key) == 0)
      result_.errors.push_back({name_, key, "", setting.error,
                                "allowed: " + allowed_text(option, UnitSystem::metric),
                                ""});
  }
}

/// A path in a case file counts from that file, one on the command line from where the user
/// stands.
std::string path_from(const CaseEntry &entry, const std::string &case_file)
{
  const std::filesystem::path path{std::string(trimmed(entry.value))};
  if (entry.line == 0 || path.empty() || path.is_absolute())
    return path.string();
  return (std::filesystem::path(case_file).parent_path() / path).string();
}

void Reading::look_into_file(const Option &option, const CaseEntry &entry)
{
  std::get<TextSlot>(option.slot).at(case_) = path_from(entry, name_);
  for (const FileFault &fault : option.file_faults(case_))
  {
    failed_.insert(entry.key);
    result_.errors.push_back({entry.place, entry.key, clipped(entry.value, shown_of_value),
                              fault.text, "", "", entry.line});
  }
}

/// Whether the model that an option is to be taken from cannot be had. Told once, at the
/// key that names the model.
bool Reading::model_failed(const Option &option)
{
  for (const OptionModel &source : option.models)
  {
    const ModelCase model = source.of(case_);
    if (model.value)
      return false;
    if (model.fault.empty())
      continue;
    if (failed_.insert(source.key).second)
    {
      const CaseEntry &entry = given_.at(source.key).entry;
      result_.errors.push_back({entry.place, entry.key,
                                clipped(entry.value, shown_of_value), model.fault, "", "",
                                entry.line});
    }
    return true;
  }
  return false;
}

/// A name that no catalogue knows does no harm where all it would give is given by keys, as
/// in the effective case of a pass with somebody's own catalogue.
void Reading::remark_idle_models()
{
  std::set<std::string> stated = failed_;
  for (const Option &option : option_table())
    for (const OptionModel &source : option.models)
      if (stated.count(source.key) == 0 && given_.count(source.key))
        if (const ModelCase model = source.of(case_); !model.fault.empty())
        {
          stated.insert(source.key);
          result_.remarks.push_back(
              given_.at(source.key).entry.place + ": " + source.key + ": " + model.fault +
              "; it has no effect here, because every key it could set is given");
        }
}

/// A model named on the command line, as --material.grade s355, is meant to take the place
/// of what the file says piece by piece; a key beside it on the command line still goes
/// first.
void Reading::follow_later_models()
{
  std::map<std::string, std::string> replaced; // by the model's key
  for (const Option &option : option_table())
  {
    const auto own = given_.find(option.key());
    if (own == given_.end() || own->second.entry.line == 0)
      continue;
    const auto later =
        std::find_if(option.models.begin(), option.models.end(),
                     [&](const OptionModel &source)
                     {
                       const auto model = given_.find(source.key);
                       return model != given_.end() && model->second.entry.line == 0;
                     });
    if (later == option.models.end())
      continue;
    std::string &names = replaced[later->key];
    names += (names.empty() ? "" : ", ") + option.name;
    given_.erase(own);
  }
  for (const auto &[key, names] : replaced)
    result_.remarks.push_back(key + " " + given_.at(key).entry.value +
                              " takes the place of the file's " + names);
}

void Reading::cross_check()
{
  for (const Objection &objection : find_objections(case_))
  {
    if (any_failed(objection.keys))
      continue;
    // Blame a key the user wrote, not a default.
    const auto typed =
        std::find_if(objection.keys.begin(), objection.keys.end(),
                     [&](const std::string &key) { return given_.count(key) > 0; });
    const std::string key = typed == objection.keys.end() ? objection.keys.front() : *typed;
    CaseError error{name_, key, "", objection.problem, "allowed: " + objection.cure, "", 0};
    if (typed != objection.keys.end())
    {
      error.place = given_.at(key).entry.place;
      error.line  = given_.at(key).entry.line;
      error.value = clipped(given_.at(key).entry.value, shown_of_value);
    }
    result_.errors.push_back(error);
  }
}

/// After all other keys: a tolerance may stand about the case's own value.
void Reading::read_spreads()
{
  std::vector<CaseEntry> read;
  for (const std::string &key : spread_keys_)
  {
    const CaseEntry &entry  = given_.at(spread_section + ("." + key)).entry;
    const Option    &option = *find_option(key);
    if (any_failed(option.looks_at) || failed_.count(key) > 0)
      continue;
    const KeySpreadReading spread = read_key_spread(option, entry.value, case_);
    if (!spread.remark.empty())
      result_.remarks.push_back(entry.place + ": " + entry.key + ": " + spread.remark);
    if (spread.error.empty())
    {
      result_.spreads.push_back(spread.spread);
      read.push_back(entry);
    }
    else
      result_.errors.push_back({entry.place, entry.key,
                                clipped(entry.value, shown_of_value), spread.error,
                                spread.allowed, "", entry.line});
  }
  if (read.size() < spread_keys_.size())
    return;
  for (const SpreadFault &fault : spread_faults(result_.spreads))
  {
    const CaseEntry &entry = read[fault.which];
    result_.errors.push_back({entry.place, entry.key, clipped(entry.value, shown_of_value),
                              fault.problem, fault.allowed, "", entry.line});
  }
}

CaseReading Reading::finish()
{
  // All keys missing from a picture or a program is no news.
  if (!is_text_)
    return result_;
  follow_later_models();
  for (const Option &option : option_table())
    set(option);
  case_.material.flow.settle_yield();
  case_.fixture.plunger.settle_nose();
  read_spreads();
  cross_check();
  remark_idle_models();
  // In the order in which the user meets them: down the file, then what stands nowhere in
  // it.
  const auto place = [](const CaseError &error)
  { return error.line > 0 ? error.line : std::numeric_limits<std::size_t>::max(); };
  std::stable_sort(result_.errors.begin(), result_.errors.end(),
                   [&](const CaseError &a, const CaseError &b)
                   { return place(a) < place(b); });
  if (result_.errors.empty())
  {
    for (const std::string &remark : find_remarks(case_))
      result_.remarks.push_back(remark);
    result_.value = case_;
  }
  return result_;
}
} // namespace

std::string CaseError::text() const
{
  std::string words = place + ": ";
  if (key.empty())
    words += value.empty() ? "" : "'" + value + "'; ";
  else
    words += key + (value.empty() ? "" : " = " + value) + "; ";
  words += problem;
  if (!allowed.empty())
    words += "; " + allowed;
  if (!nearest.empty())
    words += "; did you mean '" + nearest + "'?";
  return words;
}

CaseReading read_case_text(std::string_view text, const std::string &name,
                           const std::vector<std::string> &overrides)
{
  Reading reading(name);
  reading.take_file(text);
  reading.take_words(overrides);
  return reading.finish();
}

CaseReading read_case(const std::string &path, const std::vector<std::string> &overrides)
{
  const FileText file = read_file_text(path);
  if (file.problem.empty())
    return read_case_text(file.text, path, overrides);
  CaseReading reading;
  reading.errors.push_back({path.empty() ? "command line" : path, "", "", file.problem,
                            file.by_user ? "throughbend starter prints a case to begin from"
                                         : "the system gives this reason",
                            "", 0});
  return reading;
}

std::string error_list(const std::vector<CaseError> &errors)
{
  std::string       list;
  const std::size_t listed = std::min(errors.size(), most_listed);
  for (std::size_t i = 0; i < listed; ++i)
    list += errors[i].text() + "\n";
  if (errors.size() > listed)
    list += "and " + std::to_string(errors.size() - listed) +
            " more; they are listed when these are corrected\n";
  return list;
}
} // namespace throughbend
