#include "solver/output/run_folder.h"

#include "inputs/input_error.h"
#include "inputs/json.h"
#include "inputs/json_members.h"
#include "inputs/own_file.h"
#include "inputs/run_format.h"
#include "inputs/run_record.h"
#include "inputs/whole_file.h"

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

/// run.json of a run that has none of its own, by which the folder is known as ours.
std::string mark(const std::string &state)
{
  return json_text({{"program", "throughbend"}, {"format", run_format}, {"state", state}}) +
         '\n';
}

void remove_file(const fs::path &file)
{
  std::error_code reason;
  fs::remove(file, reason);
  if (reason)
    throw InputError("cannot overwrite the run: " + file.string() +
                     " cannot be removed: " + reason.message() +
                     ". Choose another folder, or free this one by hand.");
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
  clear_asides(run);
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
      throw InputError("cannot make the folder " + folder.string() + ": " +
                       reason.message() +
                       ". Choose a place that you may write in, with --into FOLDER.");
  }
  void keep() { made_.clear(); }

private:
  std::vector<fs::path> made_;
};

/// Whether anything is in the folder but the mark of who writes into it.
bool is_vacant(const fs::path &folder)
{
  for (const fs::directory_entry &entry : fs::directory_iterator(folder))
    if (entry.path().filename() != lock_file(folder).filename())
      return false;
  return true;
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
                     " does not hold a run of throughbend (no run.json of ours in it), so "
                     "--overwrite leaves it alone. Choose an empty or new folder.");
  for (const char *part : {"fields", "tools", checkpoint_folder, aside_name})
    if (is_link(folder / part))
      throw InputError((folder / part).string() +
                       " is a link, and --overwrite writes through none. Remove the link, "
                       "or choose another folder.");
  const fs::path aside = folder / aside_name;
  if (fs::exists(aside) &&
      (!fs::is_directory(aside) || (!is_vacant(aside) && !holds_a_run(aside))))
    throw InputError(aside.string() +
                     " is none of throughbend's, and that is where the new run would be "
                     "written. Rename it, or choose another folder.");
}

/// Throws where the name stands for something that cannot hold a run.
void check_name(const fs::path &place)
{
  std::error_code fault;
  if (fs::exists(place, fault) && !fs::is_directory(place, fault))
    throw InputError(place.string() +
                     " is a file, and a run needs a folder. Choose another name.");
  if (!fs::exists(place, fault) && is_link(place))
    throw InputError(place.string() +
                     " is a link that leads nowhere. Choose another name.");
}

void move_into(const fs::path &file, const fs::path &folder)
{
  fs::rename(file, folder / file.filename());
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
  const fs::path aside = place / aside_name;
  const fs::path path  = holds_a_run(aside) ? aside : place;
  for (const fs::path &part :
       {aside, path / "fields", path / "tools", path / checkpoint_folder})
    if (is_link(part))
      throw InputError(part.string() + " is a link, and a run is resumed through none. "
                                       "Put the folder itself in its place.");
  for (const char *file : {"run.json", "case.ini", "travel.csv", "beyond.csv",
                           "opening.csv", "surface.csv", "log.txt"})
    if (is_link(path / file))
      throw InputError((path / file).string() +
                       " is a link, and a run is resumed through none. Put the file itself "
                       "in its place.");
  if (!holds_a_run(path))
    throw InputError(
        "the folder " + path.string() +
        " does not hold a run of throughbend (no run.json of ours in it), so "
        "there is nothing to resume. Name the folder of a run, or push the case "
        "again.");
  if (read_run_record(path).word("state") == "finished")
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
  try
  {
    check_name(place_);
    // Looked at before anything is written: what is refused stays as it was.
    if (fs::is_directory(place_) && !is_vacant(place_))
    {
      if (const std::string writer = writer_of(place_); !writer.empty())
        throw in_use(place_, writer);
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
    const bool vacant = is_vacant(place_);
    if (!vacant)
      check_replaceable(place_, existing);
    path_ = vacant ? place_ : place_ / aside_name;
    made.make(path_);
    // First of all the mark: killed at any moment after, the folder is still known as ours.
    write_whole_file(summary_file(), mark("starting"));
    clear_earlier_run(path_);
    made.make(fields());
    made.make(tools());
    made.keep();
  }
  catch (const InputError &)
  {
    lock_.reset();
    throw;
  }
  catch (const std::runtime_error &error) // of the file system, or of the first file
  {
    lock_.reset();
    throw InputError("cannot use the run folder " + place_.string() + ": " + error.what());
  }
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
      const bool     ours      = extension == ".vtu" || extension == ".vtp";
      if (ours && names.count(name.string()) == 0 &&
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
    // Between here and the last line the folder holds no whole run, and says so.
    write_whole_file(place_ / "run.json", mark("being replaced"));
    clear_earlier_run(place_);
    for (const fs::path &part : {fields(), tools()})
    {
      const fs::path there = place_ / part.filename();
      fs::create_directory(there);
      for (const fs::directory_entry &entry : fs::directory_iterator(part))
        move_into(entry.path(), there);
      fs::remove(part);
    }
    std::vector<fs::path> files;
    for (const fs::directory_entry &entry : fs::directory_iterator(path_))
      if (entry.path() != summary_file() && !entry.is_directory())
        files.push_back(entry.path());
    for (const fs::path &file : files)
      move_into(file, place_);
    move_into(summary_file(), place_);
    std::error_code not_empty; // then it holds something of the user's
    fs::remove(path_, not_empty);
    path_ = place_;
  }
  catch (const std::runtime_error &error)
  {
    throw std::runtime_error("the run is whole in " + path_.string() +
                             ", but could not take the place of the earlier one in " +
                             place_.string() + ": " + error.what());
  }
}
} // namespace throughbend
