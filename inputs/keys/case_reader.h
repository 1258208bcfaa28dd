#pragma once
// From a case file and command-line overrides to a Case, or to all that is wrong with them
// at once. Bad input throws nothing here: it comes back as a list that says where, what and
// the cure. Checks between fields are made by inputs/keys/validation.

#include "inputs/case/case.h"
#include "inputs/keys/spread.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// One thing that is wrong.
struct CaseError
{
  std::string place;    ///< `case.ini:12`, `case.ini` or `command line`
  std::string key;      ///< may be empty if no key can be blamed
  std::string value;    ///< as it was typed, clipped
  std::string problem;  ///< what is wrong
  std::string allowed;  ///< the range or the cure; may be empty
  std::string nearest;  ///< the known key that may have been meant; may be empty
  std::size_t line = 0; ///< in the file; 0 if the error stands in no line

  /// `place: key = value; problem; allowed ...; did you mean ...?` on one line.
  std::string text() const;
};

/// What reading gave: a case, or the errors; remarks in either event.
struct CaseReading
{
  std::optional<Case>      value;
  std::vector<CaseError>   errors;
  std::vector<std::string> remarks; ///< accepted, but worth telling the user
  std::vector<KeySpread>   spreads; ///< of section [spread], in the file's order
};

/// Overrides are command-line words, `--coupon.thickness` `11 mm` or
/// `--friction.frame=0.2`.
CaseReading read_case(const std::string &path, const std::vector<std::string> &overrides);

/// The same from text in memory; `name` stands for the file in messages.
CaseReading read_case_text(std::string_view text, const std::string &name,
                           const std::vector<std::string> &overrides);

/// One line per error, ready for the terminal.
std::string error_list(const std::vector<CaseError> &errors);
} // namespace throughbend
