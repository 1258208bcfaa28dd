#pragma once
// The folder that holds one run: makes it, names its files, and clears an earlier run out
// of it when asked. Writes no content but the first run.json, by which a folder is known as
// a run of ours; it deletes only what a run has made and never a file it does not know.

#include <filesystem>

namespace throughbend
{
/// What to do when the folder is there and not empty.
enum class ExistingRun
{
  refuse,   ///< leave it alone and say so
  overwrite ///< clear the earlier run, if it is one
};

class RunFolder
{
public:
  /// Makes the folder ready for a new run. Throws InputError when the name is a file, the
  /// parent is missing, it cannot be written, or what it holds must not be overwritten; it
  /// is then as it was before.
  RunFolder(const std::filesystem::path &path, ExistingRun existing);

  const std::filesystem::path &path() const { return path_; }
  std::filesystem::path case_file() const { return path_ / "case.ini"; } ///< effective case
  std::filesystem::path summary_file() const
  {
    return path_ / "run.json";
  } ///< finding, figures
  std::filesystem::path travel_file() const
  {
    return path_ / "travel.csv";
  } ///< row per step
  /// A row per step beyond the ram's capacity.
  std::filesystem::path beyond_file() const { return path_ / "beyond.csv"; }
  std::filesystem::path opening_file() const { return path_ / "opening.csv"; } ///< of flaws
  std::filesystem::path surface_file() const { return path_ / "surface.csv"; }
  std::filesystem::path log_file() const { return path_ / "log.txt"; }
  std::filesystem::path fields() const
  {
    return path_ / "fields";
  }                                                               ///< folder of .vtu, .pvd
  std::filesystem::path tools() const { return path_ / "tools"; } ///< folder of .vtp, .pvd

private:
  std::filesystem::path path_;
};

/// Whether a folder holds a run of this program, finished or not.
bool holds_a_run(const std::filesystem::path &folder);
} // namespace throughbend
