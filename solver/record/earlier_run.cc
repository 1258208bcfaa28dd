#include "solver/record/earlier_run.h"

#include "inputs/text/input_error.h"
#include "inputs/text/json.h"
#include "inputs/text/json_members.h"
#include "inputs/text/own_file.h"
#include "inputs/text/whole_file.h"
#include "solver/record/folder_lock.h"
#include "solver/record/run_format.h"
#include "solver/record/summary_file.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
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

constexpr const char *clearing = "being replaced";   ///< the earlier run is taken away
constexpr const char *moving   = "taking its place"; ///< and now the new one moves in

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

void move_into(const fs::path &file, const fs::path &folder)
{
  fs::rename(file, folder / file.filename());
}

} // namespace

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

std::string bare_record(const std::string &state, const std::string &failure)
{
  Json json = {{"program", "throughbend"}, {"format", run_format}, {"state", state}};
  if (!failure.empty())
    json["failure"] = failure;
  return json_text(json) + '\n';
}

void write_bare_record(const fs::path &run, const std::string &state)
{
  write_durable_file(run / "run.json", bare_record(state), FolderLink::follow);
}

std::string recorded_state(const fs::path &folder)
{
  return read_summary_file(folder).members.word("state");
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

void replace_run(const fs::path &place, const fs::path &aside, const std::string &state)
{
  if (state != moving)
  {
    // Until the last line the folder holds no whole run, and says so.
    write_bare_record(place, clearing);
    clear_asides(place);
    clear_earlier_run(place);
    write_bare_record(place, moving);
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

void finish_replacing(const fs::path &place)
{
  const fs::path aside = place / unfinished_folder;
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
} // namespace throughbend
