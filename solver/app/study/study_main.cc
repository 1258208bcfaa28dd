// The companion that makes many passes: limits, maps, fits. Started by the front program
// with the verb and the words behind it.

#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "postprocess/app/card_verb.h"
#include "postprocess/app/choose_verb.h"
#include "postprocess/app/fit_pass_verb.h"
#include "postprocess/app/help.h"
#include "postprocess/app/spread_verb.h"
#include "postprocess/app/study_verbs.h"
#include "postprocess/verbs/guarded.h"
#include "solver/app/process/blas.h"
#include "solver/app/process/interrupt.h"
#include "solver/app/process/launch.h"
#include "solver/app/process/rank_group.h"
#include "solver/app/study/study_tasks.h"
#include "solver/fem/mpi_session.h"
#include "solver/study/file/study_file.h"
#include "solver/study/passes/rank_crew.h"
#include "solver/study/passes/study_pass.h"

#include <algorithm>
#include <iostream>
#include <optional>

namespace throughbend
{
namespace
{
struct StudyTask
{
  Verb verb;
  ExitCode (*carry_out)(const VerbArguments &, const StudyCase &,
                        std::unique_ptr<PassCrew>);
};

std::vector<StudyTask> study_tasks()
{
  return {{limit_verb(), limit_study},
          {map_verb(), map_study},
          {spread_verb(), spread_study},
          {choose_verb(), choose_study},
          {fit_pass_verb(), fit_pass_study}};
}

ExitCode carry_out(const StudyTask &task, const VerbArguments &given, char *program)
{
  watch_for_interrupts();
  const StudyOrder order = task.verb.name == fit_pass_verb().name
                               ? fit_pass_order(given).study
                               : study_order(given, task.verb.name);
  const StudyCase  base(order.case_file, order.overrides);
  if (may_print() && order.speech == Speech::full)
    for (const std::string &remark : base.remarks())
      std::cerr << "note: " << shown_text(remark) << '\n';
  use_one_blas_thread();
  const AtCapacity at_capacity = order.at_capacity;
  const PassMaker  make = [at_capacity](const Case &c, const std::function<bool()> &stop)
  { return study_pass(c, at_capacity, stop); };

  std::optional<MpiSession> mpi;
  if (is_one_of_many())
    mpi.emplace(program, may_print() ? StartSpeech::tell : StartSpeech::keep_quiet);
  const RankGroup ranks(MPI_COMM_WORLD);
  if (!ranks.is_first())
  {
    serve_passes(make, MPI_COMM_WORLD, interrupt_asked);
    return ExitCode::finding;
  }
  std::unique_ptr<PassCrew> crew;
  if (!ranks.is_alone())
    crew = std::make_unique<RankCrew>(make, MPI_COMM_WORLD);
  else
    crew = std::make_unique<ThreadCrew>(make, base.own().mesh.dimension == 3 ? 1
                                              : order.workers > 0            ? order.workers
                                                                  : usual_workers(2));
  // While MPI is there: its destructor waits for the other ranks, which wait for the crew.
  return guarded([&] { return task.carry_out(given, base, std::move(crew)); });
}

ExitCode study(std::vector<std::string> words, char *program)
{
  const std::string first = words.empty() ? "--help" : words.front();
  if (asks_for_version(first))
    return show(version_line("throughbend-study"));
  if (first == card_verb().name)
  {
    words.erase(words.begin());
    return make_card(verb_arguments(card_verb(), words), read_study);
  }
  for (const StudyTask &task : study_tasks())
    if (task.verb.name == first)
    {
      words.erase(words.begin());
      const VerbArguments given = verb_arguments(task.verb, words);
      return given.help ? show(verb_help(task.verb)) : carry_out(task, given, program);
    }
  throw InputError("throughbend-study is a part of throughbend. Call throughbend limit, "
                   "map, spread, choose or fit-pass.");
}
} // namespace
} // namespace throughbend

int main(int argc, char **argv)
{
  using namespace throughbend;
  return static_cast<int>(guarded(
      [&] {
        return study({argv + std::min(argc, 1), argv + argc}, argc > 0 ? argv[0] : nullptr);
      }));
}
