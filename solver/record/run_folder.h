#pragma once
// The folder that holds one run: makes it, keeps other runs out while it is written, names
// its files, and puts a new run in the place of an earlier one when asked. Writes no
// content but the first run.json, by which a folder is known as a run of ours; it deletes
// only what a run has made and never a file it does not know.

#include "inputs/text/whole_file.h"
#include "solver/record/folder_lock.h"
#include "solver/record/run_format.h"

#include <filesystem>
#include <map>
#include <optional>
#include <string>

namespace throughbend
{
/// What to do when the folder is there and not empty.
enum class ExistingRun
{
  refuse,    ///< leave it alone and say so
  overwrite, ///< replace the earlier run, if it is one
  resume     ///< go on with it: it must be there, and unfinished
};

/// Where a run that is to be resumed lies.
struct RunPlace
{
  std::filesystem::path place; ///< the folder that is kept for one run at a time
  std::filesystem::path path;  ///< the same, or `unfinished` in it
};

/// The unfinished run in the folder: the one that was to replace another, if there is one.
/// Throws InputError, with the cure, when there is none, or when it is finished.
RunPlace run_to_resume(const std::filesystem::path &folder);

/// A run that replaces another is written into the folder `unfinished` inside the other's,
/// and takes its place once it has ended: the earlier one stays whole until then.
class RunFolder
{
public:
  /// Makes the folder, and those it is in, ready for a new run. Throws InputError when the
  /// name is a file, another run is written into it, it cannot be written, or what it holds
  /// must not be overwritten; it is then as it was before. To resume, nothing is changed.
  RunFolder(const std::filesystem::path &path, ExistingRun existing);

  /// Takes away the shapes that are none of these, by name without folder. The parts of a
  /// shape that stays stay, too.
  void keep_shapes(const std::map<std::string, double> &fields,
                   const std::map<std::string, double> &tools) const;

  /// Keeps room for a run.json that must find some when the disk is full; a new run has it
  /// from the start, one that is resumed when it goes on. Throws WriteError.
  void reserve_room();
  void free_room(); ///< once the run's last record is written

  /// The text as run.json, in the room that was kept. False where that fails, too.
  bool spend_room(std::string_view text) noexcept;

  /// Has the system put all of the run's files on the disk. Throws WriteError.
  void sync() const;

  /// Takes away the checkpoints of a run that has ended.
  void clear_checkpoints() const;

  /// Puts a run that was written aside in the place of the earlier one. Throws
  /// std::runtime_error that says where the new run is if that fails.
  void take_place();

  /// Where the run is being written: the folder that was named, or `unfinished` in it.
  const std::filesystem::path &path() const { return path_; }
  const std::filesystem::path &place() const { return place_; } ///< the folder named
  bool aside() const { return path_ != place_; } ///< whether an earlier run stands there

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
  } ///< folder of .vtu, .pvtu, .pvd
  std::filesystem::path tools() const { return path_ / "tools"; } ///< folder of .vtp, .pvd
  std::filesystem::path checkpoints() const { return path_ / checkpoint_folder; }

private:
  std::filesystem::path       place_, path_;
  std::optional<FolderLock>   lock_;
  std::optional<ReservedFile> room_;
};
} // namespace throughbend
