#include "solver/app/study_order.h"

#include "inputs/input_error.h"

namespace throughbend
{
std::string StudyPart::folder() const
{
  return "part-" + std::to_string(part) + "-of-" + std::to_string(of);
}

std::vector<VerbOption> study_options()
{
  return {
      {"out",
       "FOLDER",
       "where the study goes; default studies/NAME-VERB after the case file. The same "
       "command in the same folder goes on where it was stopped, however it was stopped",
       {}},
      {"overwrite",
       "",
       "put this study in the place of another one in the folder; its passes stay and are "
       "taken over where they fit",
       {}},
      {"reuse",
       "FOLDER",
       "take over passes of this study, too, where case and program are the very same; may "
       "be given again",
       {},
       Given::again},
      {"part",
       "K/N",
       "make only every N-th pass, beginning with the K-th, into FOLDER/part-K-of-N: for "
       "the N jobs of a batch system",
       {}},
      {"merge",
       "",
       "make no pass: put together those of FOLDER and of its parts, and say what is "
       "missing",
       {}},
      {"workers",
       "N",
       "passes at a time in this process; default one per core, with mesh.dimension = 3 "
       "one",
       {}},
      {"bars",
       "",
       "error bars of the case as it is: eight passes more, which tell how far mesh, step "
       "and contact, friction +-0.03 and flow stress +-10 % move its force and strain; "
       "plane models only",
       {}},
      {"stop-at-capacity",
       "",
       "end passes where the ram's force runs out; else the force that each would take is "
       "found, too",
       {}},
      units_option("of the printed output; the study's files stay in N, mm, MPa"),
      {"quiet", "", "no progress, no notes", {}},
  };
}

std::size_t told_count(const std::string &text, const std::string &option)
{
  if (text.empty() || text.size() > 6 ||
      text.find_first_not_of("0123456789") != std::string::npos || std::stoul(text) == 0)
    throw InputError(option + " " + text + ": a whole number above 0 is needed.");
  return std::stoul(text);
}

namespace
{
StudyPart told_part(const std::string &text)
{
  const std::size_t slash = text.find('/');
  if (slash == std::string::npos)
    throw InputError("--part " + text + ": K/N is needed, as in --part 3/40");
  const StudyPart part{told_count(text.substr(0, slash), "--part"),
                       told_count(text.substr(slash + 1), "--part")};
  if (part.part > part.of)
    throw InputError("--part " + text + ": there is no part beyond the last of " +
                     std::to_string(part.of) + ".");
  return part;
}
} // namespace

StudyOrder study_order(const GivenWords &given, const std::string &verb)
{
  StudyOrder order;
  order.case_file = the_case_file(given, verb);
  order.overrides = given.overrides;
  if (given.has("out") && given.value("out").empty())
    throw InputError("--out names no folder.");
  order.folder = given.has("out") ? std::filesystem::path(given.value("out"))
                                  : "studies" / default_folder(order.case_file).filename();
  if (!given.has("out"))
    order.folder += "-" + verb;
  order.overwrite = given.has("overwrite");
  for (const std::string &folder : given.values("reuse"))
    order.reuse.emplace_back(folder);
  order.merge = given.has("merge");
  if (given.has("part"))
  {
    if (order.merge)
      throw InputError("--merge puts parts together: it does not go with --part.");
    order.part = told_part(given.value("part"));
  }
  if (given.has("bars"))
  {
    if (order.merge || order.part)
      throw InputError("--bars makes passes of its own: give it to the whole study, "
                       "without --part and --merge.");
    order.bars = Bars::wanted;
  }
  if (given.has("workers"))
    order.workers = told_count(given.value("workers"), "--workers");
  if (given.has("stop-at-capacity"))
    order.at_capacity = AtCapacity::stop;
  order.units  = units_of(given);
  order.speech = given.has("quiet") ? Speech::verdict : Speech::full;
  return order;
}
} // namespace throughbend
