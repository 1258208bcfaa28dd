#include "postprocess/app/push_order.h"

#include "inputs/text/input_error.h"

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

// `undecided` is none: it says nothing about the coupon, and has an exit code of its own.
constexpr Outcome outcomes[] = {Outcome::through, Outcome::jammed, Outcome::over_capacity,
                                Outcome::stroke_out, Outcome::dropped};

std::vector<std::string> outcome_words()
{
  std::vector<std::string> words;
  for (const Outcome outcome : outcomes)
    words.push_back(to_text(outcome));
  return words;
}
} // namespace

std::vector<VerbOption> push_options()
{
  return {
      {"into",
       "FOLDER",
       "folder of the run; default runs/NAME, where NAME is the name of the case file "
       "(of a file called case.ini, the name of its folder). Missing folders are made. "
       "Only one run at a time can write into a folder",
       {}},
      {"overwrite",
       "",
       "replace the run in the folder and remove its report. The new run is written to "
       "FOLDER/unfinished and replaces the earlier one when it has a finding. If it is "
       "interrupted or fails, it stays there and the earlier run is kept. Only files of "
       "a run are ever removed",
       {}},
      {"resume",
       "RUN",
       "continue the unfinished run in the folder RUN from its newest checkpoint. The "
       "record is the same as without the interruption. The case is taken from RUN; if "
       "you also give a CASE or keys, they must be the same",
       {}},
      units_option("of the printed output; files stay in N, mm, MPa"),
      {"expect", "OUTCOME", "exit code 1 on any other finding", outcome_words()},
      {"stop-at-capacity",
       "",
       "stop at the ram's capacity. Otherwise the pass continues beyond it, to find the "
       "force it would take",
       {}},
      {"bars",
       "",
       "error bars: seven more passes show how much mesh, step and contact settings, "
       "friction +-0.03 and flow stress +-10 % change force, strain and finding. Plane "
       "models on one rank only",
       {}},
      {"print-case", "", "check the case, print it with all defaults, and stop", {}},
      {"quiet", "", "print only the two answers: the finding and the metal", {}},
  };
}

PushOrder push_order(const VerbArguments &given)
{
  PushOrder order;
  if (given.help)
  {
    order.task = Task::help;
    return order;
  }
  if (given.has("resume"))
  {
    for (const char *other : {"into", "overwrite", "print-case"})
      if (given.has(other))
        throw InputError("--resume continues a run in its own folder: it cannot be used "
                         "with --" +
                         std::string(other) + ".");
    order.existing  = ExistingRun::resume;
    order.into      = given.value("resume");
    order.case_file = given.operands.empty()
                          ? (run_to_resume(order.into).path / "case.ini").string()
                          : given.operands.front();
  }
  else
    order.case_file = the_case_file(given, "push");
  order.overrides = given.overrides;
  if (given.has("print-case"))
    order.task = Task::print_case;
  if (given.has("overwrite"))
    order.existing = ExistingRun::overwrite;
  if (given.has("quiet"))
    order.speech = Speech::verdict;
  if (given.has("stop-at-capacity"))
    order.at_capacity = AtCapacity::stop;
  if (given.has("bars"))
    order.bars = Bars::wanted;
  order.units = units_of(given);
  for (const Outcome outcome : outcomes)
    if (given.value("expect") == to_text(outcome))
      order.expected = outcome;
  if (given.has("into"))
  {
    order.into = given.value("into");
    if (order.into.empty())
      throw InputError("--into names no folder.");
  }
  return order;
}

fs::path default_folder(const std::string &case_file)
{
  std::error_code fault;
  const fs::path  file   = fs::absolute(case_file, fault);
  const fs::path  stem   = file.stem();
  const fs::path  folder = file.parent_path().filename();
  return fs::path("runs") / (stem == "case" && !folder.empty() ? folder : stem);
}
} // namespace throughbend
