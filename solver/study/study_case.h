#pragma once
// The case that all passes of a study share, and the keys in which they differ. A point of
// the study is what `push CASE --KEY VALUE` with the same values pushes, to the last digit.

#include "inputs/keys/case_reader.h"
#include "inputs/units/units.h"
#include "solver/study/file/study_record.h"

#include <string>
#include <vector>

namespace throughbend
{
/// One pass that a study wants.
struct StudyPoint
{
  /// One a key of the study [N, mm, MPa, s; -]; NaN leaves the key as it is in the case,
  /// where it may follow from another key.
  std::vector<double> values;
  /// Further keys as on the command line, `--material.grade` `S355`, that have no number.
  std::vector<std::string> words = {};
};

class StudyCase
{
public:
  /// Reads the file once. Throws InputError that lists all that is wrong.
  StudyCase(const std::string &case_file, std::vector<std::string> overrides);
  /// From text; `name` stands for the file in messages.
  StudyCase(std::string text, std::string name, std::vector<std::string> overrides);

  const Case                     &own() const { return own_; }
  const std::string              &name() const { return name_; }
  const std::vector<std::string> &remarks() const { return remarks_; }
  const std::string              &text() const { return text_; }
  const std::vector<std::string> &overrides() const { return overrides_; }
  const std::vector<KeySpread>   &spreads() const { return spreads_; } ///< of [spread]

  /// A key with a number, in the units that are shown. Throws InputError, with the key that
  /// may have been meant.
  StudyKey key(const std::string &name, UnitSystem units) const;

  /// What a user typed for the key, `11 mm`, in N, mm, MPa, s. Throws InputError that names
  /// the option and the range.
  double given(const StudyKey &key, const std::string &text,
               const std::string &option) const;

  /// The same of a difference between two values, which may be below what the key may be.
  double given_difference(const StudyKey &key, const std::string &text,
                          const std::string &option) const;

  /// Keys that the file states and that would follow a key of the study if they were left
  /// out, a sentence each: a left shoulder stays greased while the shoulders get dry.
  std::vector<std::string> what_stays(const std::vector<StudyKey> &keys) const;

  /// From now on the frame's opening stays where it is over the case's own coupon while
  /// coupon.thickness varies; it is told from the coupon, and would grow with it.
  void hold_frame() { holds_frame_ = true; }

  /// The words of the command line that make the case at a point from the file.
  std::vector<std::string> words_at(const std::vector<StudyKey> &keys,
                                    const StudyPoint            &point) const;

  /// The command that pushes the coupon of a point: throughbend push CASE --KEY "VALUE".
  std::string push_command(const std::vector<StudyKey> &keys,
                           const StudyPoint            &point) const;

  /// The case at a point; its errors where there is none.
  CaseReading at(const std::vector<StudyKey> &keys, const StudyPoint &point) const;

private:
  void read();

  std::string              text_, name_;
  std::vector<std::string> overrides_, remarks_;
  std::vector<KeySpread>   spreads_;
  Case                     own_;
  bool                     holds_frame_ = false;
};

/// What the case has for the key [N, mm, MPa, s; -].
double value_in(const Case &c, const StudyKey &key);

/// Whether only whole numbers make sense for it.
bool is_count(const StudyKey &key);

/// So many values from one to the other, both among them, evenly but for a rounding to four
/// digits of their distance that makes them short to write.
std::vector<double> even_levels(const StudyKey &key, double from, double to,
                                std::size_t count);

/// A value of a key as it can be written into a case, exact: `11.55 mm`, `0.12`.
std::string case_value(const StudyKey &key, double value);

/// As it can be written into a case, in the unit that is shown where that reads back as the
/// very same value, else exact in metric units: `11.55 mm`, `0.375 in`.
std::string written_value(const StudyKey &key, double value);

/// A number in the unit of the key as a case reads it [N, mm, MPa, s; -]: 0.375 in is 9.525
/// mm, which the product of the two doubles is not.
double inside_value(const StudyKey &key, double shown);

/// The number in the unit of the key, for people: `11.55`.
std::string shown_value(const StudyKey &key, double value);
} // namespace throughbend
