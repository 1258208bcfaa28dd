#include "solver/record/run_folder.h"

#include "inputs/text/input_error.h"
#include "inputs/text/whole_file.h"
#include "solver/record/earlier_run.h"
#include "solver/record/shape_parts.h"

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
/// For the record of a run that could not even begin, or that fails on a full disk [bytes].
constexpr std::size_t room_for_record = 64u << 10;

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
  for (const char *part : {"fields", "tools", checkpoint_folder, unfinished_folder})
    if (is_link(folder / part))
      throw InputError((folder / part).string() +
                       " is a link, and --overwrite does not follow links. Remove the "
                       "link, or choose another folder.");
  const fs::path aside = folder / unfinished_folder;
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

} // namespace

RunPlace run_to_resume(const fs::path &folder)
{
  fs::path place = folder;
  if (!place.has_filename() && place != place.root_path())
    place = place.parent_path();
  std::error_code fault;
  if (!fs::is_directory(place, fault))
    throw InputError("there is no run folder " + place.string() + " to resume.");
  if (place.filename() == unfinished_folder &&
      holds_a_run(fs::absolute(place).parent_path()))
    place = place.has_parent_path() ? place.parent_path() : fs::path(".");
  finish_replacing(place);
  const fs::path aside = place / unfinished_folder;
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
      room_->spend(bare_record("failed", why));
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
    path_ = is_new ? place_ : place_ / unfinished_folder;
    made.make(path_);
    vacant = is_vacant(path_);
    reserve_room();
    // First of all the mark: killed at any moment after, the folder is still known as ours.
    write_bare_record(path_, "starting");
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
