#pragma once
// What a run folder says in words and numbers: run.json, case.ini and travel.csv, read back
// for a report or a card. Takes what is there: a run that was killed, or a file that is
// gone, becomes a line in `missing`. Reads no shapes; those are in
// postprocess/shapes/pass_shapes.

#include "inputs/case/case.h"
#include "inputs/text/csv_table.h"
#include "inputs/text/json_members.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
struct RunRecord
{
  std::filesystem::path folder;
  std::string           name;       ///< of the folder, for comparing runs
  JsonMembers           summary;    ///< run.json
  std::string           case_text;  ///< case.ini as it stands
  std::optional<Case>   known_case; ///< what the run was made with, as far as known
  /// What was changed in case.ini since the run, a line per key; `known_case` is then the
  /// case that run.json recorded.
  std::vector<std::string> changed;
  std::optional<CsvTable>  travel;  ///< a row per step
  std::vector<std::string> missing; ///< files that are not there or not readable

  /// A member of run.json by its path; empty, or NaN, when it is not there. Throws
  /// InputError when it is of another kind.
  std::string         word(const std::string &path) const { return summary.word(path); }
  std::string         digits(const std::string &path) const { return summary.digits(path); }
  double              number(const std::string &path) const { return summary.number(path); }
  std::optional<bool> truth(const std::string &path) const { return summary.truth(path); }

  /// A column of travel.csv by its head, without the row of the released coupon. Empty when
  /// there is no such column.
  std::vector<double> column(const std::string &head) const;

  std::string title() const;    ///< of the case, or the folder's name
  bool        complete() const; ///< finished, decided, and every file there

  /// Whether the right half was computed and stands for both sides, of a plane or of a
  /// body.
  bool right_half() const;

  /// Largest and last figures also where a killed run has no key figures: from run.json if
  /// it has them, else from travel.csv; NaN if neither knows.
  double peak_force() const;        ///< [N]
  double peak_force_travel() const; ///< [mm]
  double last_travel() const;       ///< [mm]
};

/// How to go on with a run that has not ended, as a sentence; empty where it has, or where
/// it left no checkpoint.
std::string how_to_resume(const RunRecord &run);

/// Throws InputError when the folder is not there or is no run of this program, and when
/// its run.json is none that a run leaves. One that is cut off is named in `missing`.
RunRecord read_run_record(const std::filesystem::path &folder);

/// run.json alone, with the case that it recorded: for many runs side by side, whose
/// figures must mean the same. Throws InputError with the reason where there is no whole
/// run.json of a form that this program reads.
RunRecord read_run_summary(const std::filesystem::path &folder);

/// The cases of runs, one each; null where it is not known what the run was made with.
std::vector<const Case *> cases_of(const std::vector<RunRecord> &runs);
} // namespace throughbend
