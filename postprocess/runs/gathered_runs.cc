#include "postprocess/runs/gathered_runs.h"

#include "inputs/text/input_error.h"
#include "postprocess/runs/run_table.h"
#include "solver/study/file/study_file.h"

#include <algorithm>
#include <set>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

bool is_run(const fs::path &folder)
{
  std::error_code fault;
  return fs::exists(fs::symlink_status(folder / "run.json", fault)) ||
         fs::exists(fs::symlink_status(folder / "travel.csv", fault));
}

/// Folders in a folder, by name; what cannot be opened has none.
std::vector<fs::path> folders_in(const fs::path &parent)
{
  std::vector<fs::path> found;
  std::error_code       fault;
  for (fs::directory_iterator at(parent, fault), end; !fault && at != end;
       at.increment(fault))
    if (std::error_code ignored; fs::is_directory(at->path(), ignored))
      found.push_back(at->path());
  std::sort(found.begin(), found.end());
  return found;
}

class Gathering
{
public:
  void add_named(const std::string &name)
  {
    const fs::path  place = name;
    std::error_code fault;
    if (name.empty() || !fs::exists(place, fault))
      throw InputError("'" + name +
                       "': there is no such folder. Name folders of runs, or a "
                       "folder that holds them.");
    if (!fs::is_directory(place, fault))
      result.passed_over.push_back(name + ": that is a file, not a run.");
    else if (is_run(place))
      add_run(place);
    else
      add_parent(place);
  }

  GatheredRuns result;

private:
  void add_run(const fs::path &folder)
  {
    std::error_code fault;
    if (!seen_.insert(fs::weakly_canonical(folder, fault)).second)
    {
      result.passed_over.push_back(folder.string() + ": named twice, used once.");
      return;
    }
    try
    {
      const RunRecord run = read_run_summary(folder);
      check_row(run);
      result.runs.push_back(run);
    }
    catch (const InputError &error)
    {
      result.left_out.emplace_back(error.what());
    }
  }

  void add_parent(const fs::path &parent)
  {
    if (is_study(parent))
    {
      result.left_out.push_back(study_words(parent));
      return;
    }
    const std::vector<fs::path> inner = folders_in(parent);
    if (std::none_of(inner.begin(), inner.end(), is_run))
      result.left_out.push_back(parent.string() + ": this is not a run and contains none.");
    else
      for (const fs::path &folder : inner)
        if (is_run(folder))
          add_run(folder);
        else
          result.left_out.push_back(is_study(folder)
                                        ? study_words(folder)
                                        : folder.string() + ": this is not a run.");
  }

  static bool is_study(const fs::path &folder)
  {
    std::error_code fault;
    return fs::exists(folder / study_file_name, fault);
  }
  static std::string study_words(const fs::path &folder)
  {
    return folder.string() +
           ": this is a study; study.csv in it is the table of its passes.";
  }

  std::set<fs::path> seen_;
};
} // namespace

GatheredRuns gathered_runs(const std::vector<std::string> &named)
{
  Gathering gathering;
  for (const std::string &name : named)
    gathering.add_named(name);
  if (!gathering.result.runs.empty())
    return std::move(gathering.result);
  std::string list;
  for (const std::string &reason : gathering.result.left_out)
    list += "\n  " + reason;
  throw InputError("none of the named folders is a run. Name folders made by "
                   "throughbend push, or a folder that holds them." +
                   list);
}
} // namespace throughbend
