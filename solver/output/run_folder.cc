#include "solver/output/run_folder.h"

#include "inputs/input_error.h"
#include "solver/output/whole_file.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>
#include <system_error>

namespace throughbend
{
namespace fs = std::filesystem;

namespace
{
// What an earlier run leaves at the top of its folder and the next must not find. run.json
// is replaced first. case.ini is replaced by the new one and never missing in between: it
// may be the very case that is run again.
constexpr std::array<std::string_view, 10> earlier_files = {
    "travel.csv",       "beyond.csv",      "opening.csv",   "surface.csv",
    "log.txt",          "run.json.part",   "case.ini.part", "log.txt.part",
    "surface.csv.part", "report.html.part"};

// run.json of a run that has not got as far as writing its own.
constexpr std::string_view first_summary =
    "{\n  \"program\": \"throughbend\",\n  \"state\": \"starting\"\n}\n";

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
    fs::path name = entry.path().filename();
    if (name.extension() == ".part")
      name = name.stem();
    const bool ours = std::find(endings.begin(), endings.end(),
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
  if (fs::is_regular_file(fs::symlink_status(page)))
  {
    std::ifstream     in(page, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in),
                           std::istreambuf_iterator<char>()};
    in.close();
    if (text.find("<meta name=\"generator\" content=\"throughbend report\">") !=
        std::string::npos)
      remove_file(page);
  }
  const fs::path pictures = run / "pictures";
  if (!fs::is_directory(fs::symlink_status(pictures)))
    return;
  for (const fs::directory_entry &entry : fs::directory_iterator(pictures))
  {
    fs::path name = entry.path().filename();
    if (name.extension() == ".part")
      name = name.stem();
    if (name.string().rfind("strain_", 0) == 0 && name.extension() == ".png" &&
        entry.symlink_status().type() == fs::file_type::regular)
      remove_file(entry.path());
  }
  std::error_code not_empty; // then it holds something of the user's
  fs::remove(pictures, not_empty);
}

void clear_earlier_run(const RunFolder &folder)
{
  using Endings = std::array<std::string_view, 3>;
  clear_folder(folder.fields(), Endings{".vtu", ".pvtu", ".pvd"});
  clear_folder(folder.tools(), Endings{".vtp", ".vtm", ".pvd"});
  for (const std::string_view name : earlier_files)
    remove_file(folder.path() / name);
  clear_earlier_report(folder.path());
}

void make_directory(const fs::path &folder)
{
  std::error_code reason;
  fs::create_directory(folder, reason);
  if (reason)
    throw InputError("cannot make the folder " + folder.string() + ": " + reason.message() +
                     ". Choose a place that you may write in, with --into FOLDER.");
}
} // namespace

bool holds_a_run(const fs::path &folder)
{
  std::ifstream     in(folder / "run.json", std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in),
                         std::istreambuf_iterator<char>()};
  return text.find("\"program\": \"throughbend\"") != std::string::npos;
}

RunFolder::RunFolder(const fs::path &path, const ExistingRun existing) : path_(path)
{
  if (path.empty())
    throw InputError("no run folder is named. Say where the results go: --into FOLDER.");

  // "runs/a/" and "runs/a" are one folder; only the second has the parent we mean.
  if (!path_.has_filename())
    path_ = path_.parent_path();

  try
  {
    if (fs::exists(path_) && !fs::is_directory(path_))
      throw InputError(path_.string() +
                       " is a file, and a run needs a folder. Choose another name.");
    if (!fs::exists(path_))
    {
      const fs::path parent = path_.has_parent_path() ? path_.parent_path() : fs::path(".");
      if (!fs::is_directory(parent))
        throw InputError("cannot make the run folder " + path_.string() +
                         ": there is no folder " + parent.string() +
                         ". Make it first: mkdir -p " + parent.string());
      make_directory(path_);
    }
    else if (!fs::is_empty(path_))
    {
      if (existing == ExistingRun::refuse)
        throw InputError(
            "the folder " + path_.string() +
            " is not empty. Choose another, or add --overwrite to replace the run in it.");
      if (!holds_a_run(path_))
        throw InputError(
            "the folder " + path_.string() +
            " does not hold a run of throughbend (no run.json of ours in it), so "
            "--overwrite leaves it alone. Choose an empty or new folder.");
    }

    // First of all the mark: killed at any moment after, the folder is still known as ours.
    write_whole_file(summary_file(), first_summary);
    clear_earlier_run(*this);
    for (const fs::path &folder : {fields(), tools()})
      if (!fs::is_directory(folder))
        make_directory(folder);
  }
  catch (const InputError &)
  {
    throw;
  }
  catch (const std::runtime_error &error) // of the file system, or of the first file
  {
    throw InputError("cannot use the run folder " + path_.string() + ": " + error.what());
  }
}
} // namespace throughbend
