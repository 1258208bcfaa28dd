#include "postprocess/app/study_order.h"

#include "inputs/text/input_error.h"

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
       "folder of the study; default studies/NAME-VERB, where NAME is the name of the "
       "case file. The same command in the same folder continues a study that was "
       "stopped in any way",
       {}},
      {"overwrite",
       "",
       "replace another study in the folder. Its passes are kept and used again where "
       "they fit",
       {}},
      {"reuse",
       "FOLDER",
       "also use passes of this study whose case and program version are identical; may "
       "be repeated",
       {},
       Given::again},
      {"part",
       "K/N",
       "make only every N-th pass, starting with the K-th, in FOLDER/part-K-of-N; for N "
       "jobs of a batch system",
       {}},
      {"merge",
       "",
       "make no passes: merge those of FOLDER and its parts, and say what is missing",
       {}},
      {"workers",
       "N",
       "passes at the same time; default one per core, or one with mesh.dimension = 3",
       {}},
      {"bars",
       "",
       "error bars of the unchanged case: eight more passes show how much mesh, step "
       "and contact, friction +-0.03 and flow stress +-10 % change its force and "
       "strain; plane models only",
       {}},
      {"stop-at-capacity",
       "",
       "stop each pass at the ram's capacity. Otherwise passes continue beyond it, to "
       "find the force they would take",
       {}},
      units_option("of the printed output; the study's files stay in N, mm, MPa"),
      {"quiet", "", "no progress, no notes", {}},
  };
}

std::size_t given_count(const std::string &text, const std::string &option)
{
  if (text.empty() || text.size() > 6 ||
      text.find_first_not_of("0123456789") != std::string::npos || std::stoul(text) == 0)
    throw InputError(option + " " + text + ": a whole number above 0 is needed.");
  return std::stoul(text);
}

namespace
{
StudyPart given_part(const std::string &text)
{
  const std::size_t slash = text.find('/');
  if (slash == std::string::npos)
    throw InputError("--part " + text + ": K/N is needed, for example --part 3/40");
  const StudyPart part{given_count(text.substr(0, slash), "--part"),
                       given_count(text.substr(slash + 1), "--part")};
  if (part.part > part.of)
    throw InputError("--part " + text + ": the number of the part must be at most " +
                     std::to_string(part.of) + ".");
  return part;
}
} // namespace

StudyOrder study_order(const VerbArguments &given, const std::string &verb)
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
      throw InputError("--merge combines parts: it cannot be used with --part.");
    order.part = given_part(given.value("part"));
  }
  if (given.has("bars"))
  {
    if (order.merge || order.part)
      throw InputError("--bars makes its own passes: use it without --part and --merge.");
    order.bars = Bars::wanted;
  }
  if (given.has("workers"))
    order.workers = given_count(given.value("workers"), "--workers");
  if (given.has("stop-at-capacity"))
    order.at_capacity = AtCapacity::stop;
  order.units  = units_of(given);
  order.speech = given.has("quiet") ? Speech::verdict : Speech::full;
  return order;
}
} // namespace throughbend
