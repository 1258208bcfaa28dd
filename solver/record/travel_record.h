#pragma once
// travel.csv: one row per accepted step, written as the run goes, so that a killed run
// leaves every step it made. Columns are those of PassSample in N, mm, MPa and degrees
// whatever the user's display units are; no figure is derived here but the smooth course of
// the ram force, when the pass has ended.

#include "inputs/text/csv_table.h"
#include "inputs/text/growing_file.h"
#include "solver/outcome/pass_sample.h"
#include "solver/setup/pass_setup.h"

#include <filesystem>
#include <string>
#include <vector>

namespace throughbend
{
class TravelRecord
{
public:
  /// Starts a new file with the line of heads.
  explicit TravelRecord(const std::filesystem::path &file);

  /// Adds one row; it is with the operating system when this returns. Throws
  /// WriteError when the disk does not take it.
  void add(const PassSample &sample);

  /// The pass has ended: writes the file anew (aside, then renamed) with the smooth course
  /// of the ram force and its ripple, which need the samples on both sides; "nan" until
  /// then.
  void finish(const PassSetup &setup);

private:
  GrowingFile out_;
};

/// Heads of travel.csv with their units, in order.
std::vector<std::string> travel_heads();

/// Reads travel.csv back. Throws InputError when it is not one of this version.
std::vector<PassSample> read_travel_record(const std::filesystem::path &file);

/// Same from a table that has been read already.
std::vector<PassSample> travel_samples(const CsvTable &table);
} // namespace throughbend
