#include "solver/record/run_folder.h"

#include "inputs/text/input_error.h"
#include "inputs/text/json.h"
#include "inputs/text/json_members.h"
#include "inputs/text/own_file.h"
#include "inputs/text/whole_file.h"
#include "solver/record/run_format.h"
#include "solver/record/shape_parts.h"
#include "solver/record/summary_file.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

namespace throughbend
{
namespace fs = std::filesystem;

namespace
{
// What an earlier run leaves at the top of its folder and the next must not find. run.json
// is replaced first. case.ini is replaced by the new one and never missing in between: it
// may be the very case that is run again.
constexpr std::array<std::string_view, 5> earlier_files = {
    "travel.csv", "beyond.csv", "opening.csv", "surface.csv", "log.txt"};

// What a killed program may have been writing aside at the top of the folder.
constexpr std::array<std::string_view, 9> aside_files = {
    "run.json",    "case.ini", "travel.csv",  "beyond.csv", "opening.csv",
    "surface.csv", "log.txt",  "report.html", "index.html"};

constexpr const char *aside_name = "unfinished";

/// For the record of a run that could not even begin, or that fails on a full disk [bytes].
constexpr std::size_t room_for_record = 64u << 10;

/// run.json of a run that has none of its own, by which the folder is known as ours.
std::string mark(const std::string &state, const std::string &failure = "")
{
  Json json = {{"program", "throughbend"}, {"format", run_format}, {"state", state}};
  if (!failure.empty())
    json["failure"] = failure;
  return json_text(json) + '\n';
}

void write_mark(const fs::path &run, const std::string &state)
{
  write_durable_file(run / "run.json", mark(state), FolderLink::follow);
}

void remove_file(const fs::path &file)
{
  std::error_code reason;
  fs::remove(file, reason);
  if (reason)
    throw_place_fault("cannot overwrite the run: " + file.string() +
                          " cannot be removed: " + reason.message() +
                          ". Choose another folder, or free this one by hand.",
                      reason.value());
}

/// Removes the files with one of these endings. A linked folder is left as it is.
template <std::size_t n>
void clear_folder(const fs::path &folder, const std::array<std::string_view, n> &endings)
{
  if (!fs::is_directory(fs::symlink_status(folder)))
    return;
  for (const fs::directory_entry &entry : fs::directory_iterator(folder))
  {
    const fs::path file = entry.path().filename();
    const fs::path name = name_of_aside(file).value_or(file.string());
    const bool     ours = std::find(endings.begin(), endings.end(),
                                    name.extension().string()) != endings.end();
    if (ours && entry.symlink_status().type() == fs::file_type::regular)
      remove_file(entry.path());
  }
}

/// The page and the pictures of a report, which tell of the earlier run. A page that
/// somebody has written, and pictures that are not the report's, stay.
void clear_earlier_report(const fs::path &run)
{
  const fs::path page = run / "report.html";
  if (fs::is_regular_file(fs::symlink_status(page)) && is_own_file(page, report_mark))
    remove_file(page);
  const fs::path pictures = run / "pictures";
  if (!fs::is_directory(fs::symlink_status(pictures)))
    return;
  for (const fs::directory_entry &entry : fs::directory_iterator(pictures))
  {
    const fs::path file = entry.path().filename();
    const fs::path name = name_of_aside(file).value_or(file.string());
    if (name.string().rfind("strain_", 0) == 0 && name.extension() == ".png" &&
        entry.symlink_status().type() == fs::file_type::regular)
      remove_file(entry.path());
  }
  std::error_code not_empty; // then it holds something of the user's
  fs::remove(pictures, not_empty);
}

void remove_checkpoints(const fs::path &run)
{
  const fs::path folder = run / checkpoint_folder;
  clear_folder(folder, std::array<std::string_view, 1>{".state"});
  std::error_code not_empty; // then it holds something of the user's
  if (fs::is_directory(fs::symlink_status(folder)))
    fs::remove(folder, not_empty);
}

void clear_asides(const fs::path &run)
{
  for (const fs::directory_entry &entry : fs::directory_iterator(run))
    if (const auto name = name_of_aside(entry.path());
        name && !fs::is_directory(entry.symlink_status()) &&
        std::find(aside_files.begin(), aside_files.end(), *name) != aside_files.end())
      remove_file(entry.path());
}

void clear_earlier_run(const fs::path &run)
{
  using Endings = std::array<std::string_view, 3>;
  clear_folder(run / "fields", Endings{".vtu", ".pvtu", ".pvd"});
  clear_folder(run / "tools", Endings{".vtp", ".vtm", ".pvd"});
  remove_checkpoints(run);
  for (const std::string_view name : earlier_files)
    remove_file(run / name);
  clear_earlier_report(run);
}

/// Folders made on the way to a run, taken away again where no run comes of it.
class MadeFolders
{
public:
  MadeFolders() = default;
  ~MadeFolders()
  {
    std::error_code not_empty;
    for (auto folder = made_.rbegin(); folder != made_.rend(); ++folder)
      fs::remove(*folder, not_empty);
  }
  MadeFolders(const MadeFolders &)            = delete;
  MadeFolders &operator=(const MadeFolders &) = delete;

  /// With those it is in, as far as they are missing.
  void make(const fs::path &folder)
  {
    if (fs::is_directory(folder))
      return;
    if (folder.has_parent_path() && folder.parent_path() != folder)
      make(folder.parent_path());
    std::error_code reason;
    if (fs::create_directory(folder, reason))
      made_.push_back(folder);
    if (reason)
      throw_place_fault("cannot make the folder " + folder.string() + ": " +
                            reason.message() +
                            ". Choose a place that you may write in, with --into FOLDER.",
                        reason.value());
  }
  void keep() { made_.clear(); }

private:
  std::vector<fs::path> made_;
};

/// Whether nothing is in the folder but the mark of who writes into it, what a run leaves
/// that was killed before it had its first file, and an empty folder of checkpoints that
/// the disk did not let go.
bool is_vacant(const fs::path &folder)
{
  const auto is_left_over = [&](const fs::directory_entry &entry)
  {
    return entry.path().filename() == lock_file(folder).filename() ||
           name_of_aside(entry.path()) == "run.json" ||
           (entry.path().filename() == checkpoint_folder &&
            fs::is_directory(entry.symlink_status()) && fs::is_empty(entry.path()));
  };
  return std::all_of(fs::directory_iterator(folder), fs::directory_iterator(),
                     is_left_over);
}

bool is_link(const fs::path &path)
{
  return fs::is_symlink(fs::symlink_status(path));
}

/// Throws unless a new run may take the place of what is in the folder.
void check_replaceable(const fs::path &folder, const ExistingRun existing)
{
  if (existing == ExistingRun::refuse)
    throw InputError(
        "the folder " + folder.string() +
        " is not empty. Choose another, or add --overwrite to replace the run in it.");
  if (!holds_a_run(folder))
    throw InputError("the folder " + folder.string() +
                     " is not the folder of a throughbend run (no run.json made by "
                     "throughbend, or none that may be read), so --overwrite does not "
                     "touch it. Choose an empty or new folder.");
  for (const char *part : {"fields", "tools", checkpoint_folder, aside_name})
    if (is_link(folder / part))
      throw InputError((folder / part).string() +
                       " is a link, and --overwrite does not follow links. Remove the "
                       "link, or choose another folder.");
  const fs::path aside = folder / aside_name;
  if (fs::exists(aside) &&
      (!fs::is_directory(aside) || (!is_vacant(aside) && !holds_a_run(aside))))
    throw InputError(aside.string() +
                     " was not made by throughbend, and the new run would be written "
                     "there. Rename it, or choose another folder.");
}

/// Throws where the name stands for something that cannot hold a run.
void check_name(const fs::path &place)
{
  std::error_code fault;
  if (fs::exists(place, fault) && !fs::is_directory(place, fault))
    throw InputError(place.string() +
                     " is a file, and a run needs a folder. Choose another name.");
  if (!fs::exists(place, fault) && is_link(place))
    throw InputError(place.string() + " is a broken link. Choose another name.");
}

void move_into(const fs::path &file, const fs::path &folder)
{
  fs::rename(file, folder / file.filename());
}

constexpr const char *clearing = "being replaced";   ///< the earlier run is taken away
constexpr const char *moving   = "taking its place"; ///< and now the new one moves in

/// The new run, which is whole in `aside`, in the place of the earlier one: from wherever
/// this was broken off.
void replace_run(const fs::path &place, const fs::path &aside, const std::string &state)
{
  if (state != moving)
  {
    // Until the last line the folder holds no whole run, and says so.
    write_mark(place, clearing);
    clear_asides(place);
    clear_earlier_run(place);
    write_mark(place, moving);
  }
  for (const char *shapes : {"fields", "tools"})
  {
    const fs::path there = place / shapes, part = aside / shapes;
    if (!fs::is_directory(part))
      continue;
    fs::create_directory(there);
    for (const fs::directory_entry &entry : fs::directory_iterator(part))
      move_into(entry.path(), there);
    fs::remove(part);
    sync_names(there);
  }
  std::vector<fs::path> files;
  for (const fs::directory_entry &entry : fs::directory_iterator(aside))
    if (entry.path().filename() != "run.json" && !entry.is_directory())
      files.push_back(entry.path());
  for (const fs::path &file : files)
    move_into(file, place);
  sync_names(place);
  move_into(aside / "run.json", place);
  remove_checkpoints(aside); // where the disk did not let them go before
  std::error_code not_empty; // then it holds something of the user's
  fs::remove(aside, not_empty);
  sync_names(place);
}

/// `finished`, `running` and the like; empty where run.json is missing or cut off.
std::string recorded_state(const fs::path &folder)
{
  return read_summary_file(folder).members.word("state");
}

/// Goes on where a run was broken off that took the place of another.
void finish_replacing(const fs::path &place)
{
  const fs::path aside = place / aside_name;
  if (!holds_a_run(place) || is_link(aside) || !holds_a_run(aside))
    return;
  const std::string state = recorded_state(place);
  if ((state != clearing && state != moving) || recorded_state(aside) != "finished")
    return;
  for (const char *shapes : {"fields", "tools"})
    if (is_link(place / shapes) || is_link(aside / shapes))
      return;
  const FolderLock lock(place);
  clear_asides(aside);
  replace_run(place, aside, state);
}
} // namespace

RunPlace run_to_resume(const fs::path &folder)
{
  fs::path place = folder;
  if (!place.has_filename() && place != place.root_path())
    place = place.parent_path();
  std::error_code fault;
  if (!fs::is_directory(place, fault))
    throw InputError("there is no run folder " + place.string() + " to resume.");
  if (place.filename() == aside_name && holds_a_run(fs::absolute(place).parent_path()))
    place = place.has_parent_path() ? place.parent_path() : fs::path(".");
  finish_replacing(place);
  const fs::path aside = place / aside_name;
  const fs::path path  = holds_a_run(aside) ? aside : place;
  for (const fs::path &part :
       {aside, path / "fields", path / "tools", path / checkpoint_folder})
    if (is_link(part))
      throw InputError(part.string() + " is a link, and --resume does not follow links. "
                                       "Put the folder itself in its place.");
  for (const char *file : {"run.json", "case.ini", "travel.csv", "beyond.csv",
                           "opening.csv", "surface.csv", "log.txt"})
    if (is_link(path / file))
      throw InputError((path / file).string() +
                       " is a link, and --resume does not follow links. Put the file "
                       "itself in its place.");
  if (!holds_a_run(path))
    throw InputError(
        "the folder " + path.string() +
        " is not the folder of a throughbend run (no run.json made by throughbend, or none "
        "that may be read), so there is nothing to resume. Name the folder of a run, or "
        "push the case again.");
  if (recorded_state(path) == "finished")
    throw InputError("the run in " + path.string() +
                     " is finished: there is nothing to resume. To make it again: "
                     "throughbend push " +
                     (path / "case.ini").string() + " --into ANOTHER_FOLDER");
  return {place, path};
}

bool holds_a_run(const fs::path &folder)
{
  const fs::path  file = folder / "run.json";
  std::error_code fault;
  if (!fs::is_regular_file(file, fault))
    return false;
  try
  {
    return read_members(file).word("program") == "throughbend";
  }
  catch (const InputError &)
  {
    return false;
  }
}

RunFolder::RunFolder(const fs::path &path, const ExistingRun existing)
    : place_(existing == ExistingRun::resume ? run_to_resume(path).place : path),
      path_(place_)
{
  if (path.empty())
    throw InputError("no run folder is named. Say where the results go: --into FOLDER.");

  // "runs/a/" and "runs/a" are one folder; only the second has the parent we mean.
  if (!place_.has_filename() && place_ != place_.root_path())
    place_ = place_.parent_path();

  MadeFolders made;
  bool        marked = false, vacant = true;
  // Leaves the folder as it was, or, where an unfinished run was in it, says what befell
  // it.
  const auto undo = [&](const std::string &why)
  {
    std::error_code ignored;
    if (marked && vacant)
      fs::remove(summary_file(), ignored);
    else if (marked && room_)
      room_->spend(mark("failed", why));
    room_.reset();
    lock_.reset();
  };
  try
  {
    check_name(place_);
    // Looked at before anything is written: what is refused stays as it was.
    if (fs::is_directory(place_) && !is_vacant(place_))
    {
      if (const std::string writer = writer_of(place_); !writer.empty())
        throw in_use(place_, writer);
      if (existing == ExistingRun::overwrite)
        finish_replacing(place_);
      if (existing != ExistingRun::resume)
        check_replaceable(place_, existing);
    }
    if (existing == ExistingRun::resume)
    {
      lock_.emplace(place_);
      path_ = run_to_resume(place_).path; // once more: it may have ended since
      fs::create_directory(fields());
      fs::create_directory(tools());
      return;
    }

    made.make(place_);
    lock_.emplace(place_);
    // Once more, for another run may have begun and ended since.
    const bool is_new = is_vacant(place_);
    if (!is_new)
      check_replaceable(place_, existing);
    path_ = is_new ? place_ : place_ / aside_name;
    made.make(path_);
    vacant = is_vacant(path_);
    reserve_room();
    // First of all the mark: killed at any moment after, the folder is still known as ours.
    write_mark(path_, "starting");
    marked = true;
    clear_earlier_run(path_);
    made.make(fields());
    made.make(tools());
    made.keep();
  }
  catch (const InputError &error)
  {
    undo(error.what());
    throw;
  }
  catch (const fs::filesystem_error &error)
  {
    undo(error.what());
    throw_place_fault("cannot use the run folder " + place_.string() + ": " + error.what(),
                      error.code().value());
  }
  catch (const WriteError &error)
  {
    undo(error.what());
    throw_place_fault("cannot use the run folder " + place_.string() + ": " + error.what(),
                      error.reason);
  }
  catch (const std::exception &error)
  {
    undo(error.what());
    throw;
  }
}

void RunFolder::reserve_room()
{
  clear_asides(path_);
  room_.emplace(summary_file(), room_for_record);
}

void RunFolder::free_room()
{
  room_.reset();
}

bool RunFolder::spend_room(const std::string_view text) noexcept
{
  return room_ && room_->spend(text);
}

void RunFolder::sync() const
{
  for (const fs::path &folder : {fields(), tools(), path_})
    sync_folder(folder);
}

void RunFolder::keep_shapes(const std::map<std::string, double> &fields,
                            const std::map<std::string, double> &tools) const
{
  const auto keep = [](const fs::path &folder, const std::map<std::string, double> &names)
  {
    std::vector<fs::path> others;
    for (const fs::directory_entry &entry : fs::directory_iterator(folder))
    {
      const fs::path name      = entry.path().filename();
      const fs::path extension = name.extension();
      const bool ours = extension == ".vtu" || extension == ".pvtu" || extension == ".vtp";
      if (ours && names.count(name.string()) == 0 &&
          names.count(shape_of_part(name.string())) == 0 &&
          entry.symlink_status().type() == fs::file_type::regular)
        others.push_back(entry.path());
    }
    for (const fs::path &file : others)
      remove_file(file);
  };
  keep(this->fields(), fields);
  keep(this->tools(), tools);
}

void RunFolder::clear_checkpoints() const
{
  remove_checkpoints(path_);
}

void RunFolder::take_place()
{
  if (!aside())
    return;
  try
  {
    free_room();
    replace_run(place_, path_, "");
    path_ = place_;
  }
  catch (const std::runtime_error &error)
  {
    throw std::runtime_error("the run is complete in " + path_.string() +
                             ", but could not take the place of the earlier one in " +
                             place_.string() + ": " + error.what());
  }
}
} // namespace throughbend
