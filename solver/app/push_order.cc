#include "solver/app/push_order.h"

#include "inputs/input_error.h"

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
       "where the run goes; default runs/NAME after the case file (of a file called "
       "case.ini, after the folder it is in). Folders that are missing are made; one run "
       "at "
       "a time writes into a folder",
       {}},
      {"overwrite",
       "",
       "replace the run that is in the folder, and take its report away. The new run is "
       "written to FOLDER/unfinished and takes the place of the other once it has a "
       "finding; interrupted or failed it stays there, and the earlier run as it was. "
       "Nothing but a run's own files is ever removed",
       {}},
      {"resume",
       "RUN",
       "go on with the unfinished run in the folder RUN from its newest checkpoint; it "
       "ends "
       "with the record of the unbroken run. The case is the run's own; a CASE or keys "
       "that "
       "are given as well must be the same",
       {}},
      units_option("of the printed output; files stay in N, mm, MPa"),
      {"expect", "OUTCOME", "end with exit code 1 on any other finding", outcome_words()},
      {"stop-at-capacity",
       "",
       "stop where the ram's force runs out; else the force that it would take is found, "
       "too",
       {}},
      {"bars",
       "",
       "error bars: seven further passes tell how far mesh, step and contact settings, "
       "friction +-0.03 and flow stress +-10 % move force, strain and finding. A plane "
       "model, one rank",
       {}},
      {"print-case", "", "check the case, print it with all its defaults, and stop", {}},
      {"quiet",
       "",
       "print the two answers alone: what the pass came to, and the metal",
       {}},
  };
}

PushOrder push_order(const GivenWords &given)
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
        throw InputError("--resume goes on with a run where it is: it does not go with --" +
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
