#pragma once
// Keys, values and answers of a study in words, the same on the page, in its pictures and
// on the class page. Text only; nothing is escaped.

#include "inputs/case/case.h"
#include "inputs/text/json_members.h"
#include "postprocess/words/reader_units.h"
#include "solver/study/file/study_record.h"

#include <optional>

namespace throughbend
{
/// What the page reads of a study, each made once.
struct ReportedStudy
{
  StudyRecord         record;
  JsonMembers         answers;
  std::optional<Case> own; ///< of the study; none where its text cannot be read
};
ReportedStudy reported_study(const StudyRecord &record);

std::string key_name(const std::string &key); ///< "coupon.thickness": "coupon thickness"

/// The key among those of the study; nullptr if there is none.
const StudyKey *find_key(const StudyRecord &record, const std::string &key);

/// The pass whose number stands in the answers; nullptr if there is none.
const StudyPass *numbered_pass(const ReportedStudy &study, const std::string &path);

std::string key_title(const StudyKey &key); ///< "coupon thickness [mm]"

/// A value inside [N, mm, MPa, s; -] in the key's unit: "11.55 mm".
std::string value_text(const StudyKey &key, double value);
std::string number_in_unit(const StudyKey &key, double value); ///< without the unit

/// Of any key, varied or not, in the case's own units where it is known.
std::string any_value_text(const ReportedStudy &study, const std::string &key,
                           double value);

/// "coupon thickness 11.55 mm, friction shoulders 0.12".
std::string values_text(const StudyRecord &record, const StudyPass &pass);

/// A figure of a pass; NaN where it is not there or the pass has no finding.
double figure_of(const StudyPass &pass, const std::string &name);

/// A figure by its name in run.json with its unit: "peak_force": "29.7 kN (6.68 kip)".
std::string figure_name(const std::string &name);
std::string figure_text(const std::string &name, double value, const ReaderUnits &units);

/// "3.0 % of the passes, between ...": of all passes those where it is known, and those
/// where it may be [-].
std::string percent_with_bounds(double share, double most, double low, double high,
                                double level);

/// What was varied, in one sentence.
std::string question(const ReportedStudy &study);

/// What the passes say together: one or two plain sentences, and what is not known.
std::vector<std::string> answer(const ReportedStudy &study, const ReaderUnits &units);

/// "12 passes: 7 through, 5 over capacity".
std::string tally(const std::vector<StudyPass> &passes);
} // namespace throughbend
