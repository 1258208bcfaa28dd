#pragma once
// What one key of a case is: where it lives in the Case, what it may hold, what it is if it
// is left out, and a line of help. Which keys there are is said in
// inputs/keys/option_table.

#include "inputs/case/case.h"
#include "inputs/units/units.h"

#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace throughbend
{
enum class Edge
{
  closed, ///< the limit itself is allowed
  open    ///< only values short of the limit
};

/// The values a number may have, in inside units.
struct Range
{
  double low       = -std::numeric_limits<double>::infinity();
  double high      = std::numeric_limits<double>::infinity();
  Edge   low_edge  = Edge::closed;
  Edge   high_edge = Edge::closed;

  bool        contains(double value) const;
  std::string text(UnitKind kind, UnitSystem system) const; ///< as `0 mm < value <= 9 mm`
};

/// A number with a unit.
struct NumberSlot
{
  UnitKind                        kind = UnitKind::ratio;
  Range                           range;
  std::function<double &(Case &)> at;
  /// What `t` stands for in a length such as `4t` or `6t + 1/8 in` [mm], 0 = not known;
  /// empty: no such lengths here.
  std::function<double(const Case &)> thickness = {};
};

/// A whole number.
struct CountSlot
{
  Range                        range;
  std::function<int &(Case &)> at;
};

/// One of a few words.
struct ChoiceSlot
{
  std::vector<std::string>                 names; ///< in the order of the enum
  std::function<std::size_t(const Case &)> get;
  std::function<void(Case &, std::size_t)> set;
};

/// What a line of text is.
enum class TextKind
{
  words,
  path ///< of a file; in a case file it counts from that file's folder
};

/// A line of free text.
struct TextSlot
{
  std::function<std::string &(Case &)> at;
  TextKind                             kind = TextKind::words;
};

/// A case that holds what an option is if it is left out, or why there is none.
struct ModelCase
{
  std::optional<Case> value;
  std::string         fault; ///< empty: no fault, though there may be no model either
};

/// One thing that is wrong in a file that an option names.
struct FileFault
{
  std::string place;
  std::string text;
};

/// A tabulated flow curve.
struct TableSlot
{
  std::function<std::vector<FlowPoint> &(Case &)> at;
};

/// The two texts that make a flow curve of the user's own.
enum class FormulaPart
{
  expression,
  constants
};
struct FormulaSlot
{
  std::function<FlowFormula &(Case &)> at;
  FormulaPart                          part = FormulaPart::expression;
};

/// Where an option is taken from if it is left out, such as a grade of a catalogue.
struct OptionModel
{
  std::string                            key; ///< the option that names the model
  std::function<ModelCase(const Case &)> of;
};

/// One key. The order of options in the table is the order in which they are set, so a
/// rule may look at every option above its own.
struct Option
{
  std::string                                                                       section;
  std::string                                                                       name;
  std::string                                                                       help;
  std::variant<NumberSlot, CountSlot, ChoiceSlot, TextSlot, TableSlot, FormulaSlot> slot;

  std::string default_text; ///< as a user would type it; empty: see rule
  /// Default that follows from other options; nothing: the option is required.
  std::function<std::optional<double>(const Case &)> rule;
  std::string                                        rule_text; ///< the rule in words
  /// Defaults taken from models, the first that has a value; they take precedence over the
  /// others.
  std::vector<OptionModel> models;
  /// What is wrong in the file that the option names; empty: it names none.
  std::function<std::vector<FileFault>(const Case &)> file_faults;
  /// Whether the option has a meaning in this case; empty: always.
  std::function<bool(const Case &)> applies;
  std::string                       applies_text; ///< that condition in words
  std::vector<std::string>          looks_at;     ///< keys that rule and applies look at
  /// Says only where other values come from: it is not kept with the effective case, which
  /// holds those values.
  bool only_origin = false;

  std::string key() const { return section + "." + name; }
};

/// What became of setting an option.
struct Setting
{
  std::string error;                       ///< empty if the value was taken
  std::string note;                        ///< worth telling the user
  UnitSystem  system = UnitSystem::metric; ///< family of the unit that was typed
  bool        open = false; ///< good by itself, but the thickness it counts in is not known
};

/// Reads the text into its place in the case, or leaves the case as it is.
Setting set_option(const Option &option, std::string_view text, Case &into);

/// Sets an option that is left out; an error if it is required, or if what it would be by
/// rule is out of its range, so that it could not be written down and read again.
Setting set_default(const Option &option, Case &into);

/// The option's value as text that reads back as the very same value.
std::string value_text(const Option &option, Case from);

/// The values the option may have, for messages and help.
std::string allowed_text(const Option &option, UnitSystem system);

/// The default in words, or that the option is required.
std::string default_in_words(const Option &option);
} // namespace throughbend
