// The companion that makes a pass: the one place that knows MPI_COMM_WORLD. Started by the
// front program with the words behind `push`. One rank alone starts no MPI.

#include "inputs/keys/case_reader.h"
#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "postprocess/app/help.h"
#include "postprocess/app/push_order.h"
#include "postprocess/app/push_verb.h"
#include "postprocess/verbs/guarded.h"
#include "solver/app/process/interrupt.h"
#include "solver/app/process/launch.h"
#include "solver/app/push/rank_share.h"
#include "solver/fem/mpi_session.h"

#include <algorithm>
#include <iostream>

namespace throughbend
{
namespace
{
ExitCode push(const std::vector<std::string> &words, char *program)
{
  if (const std::string text = companion_text(
          "throughbend-push", version_line("throughbend-push"), push_verb(), words);
      !text.empty())
    return show(text);
  const PushOrder order = push_order(verb_arguments(push_verb(), words));
  if (order.task != Task::push)
    throw InputError("throughbend-push is a part of throughbend. Call throughbend push.");
  const CaseReading reading = read_case(order.case_file, order.overrides);
  if (!reading.errors.empty())
    throw InputError("the case cannot be used:\n" + error_list(reading.errors));
  if (may_print() && order.speech == Speech::full)
    for (const std::string &remark : reading.remarks)
      std::cerr << "note: " << shown_text(remark) << '\n';

  if (order.bars == Bars::wanted &&
      (reading.value->mesh.dimension == 3 || is_one_of_many()))
    throw InputError("--bars needs mesh.dimension = 2 and works without mpirun.");

  if (!is_one_of_many())
  {
    use_one_library_thread();
    return push_shared(order, reading, MPI_COMM_SELF);
  }
  const MpiSession mpi(program, may_print() ? StartSpeech::tell : StartSpeech::keep_quiet);
  return push_on_ranks(order, reading, MPI_COMM_WORLD);
}
} // namespace
} // namespace throughbend

int main(int argc, char **argv)
{
  using namespace throughbend;
  watch_for_interrupts();
  return static_cast<int>(guarded(
      [&] {
        return push({argv + std::min(argc, 1), argv + argc}, argc > 0 ? argv[0] : nullptr);
      }));
}
