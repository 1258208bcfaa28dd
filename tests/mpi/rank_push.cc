// A push that all ranks share however small the model is, by the words of the verb `push`.
// The program leaves small models to its first rank.
//
//     rank_push CASE [options of push]

#include "postprocess/app/push_order.h"
#include "postprocess/app/push_verb.h"
#include "postprocess/verbs/guarded.h"
#include "solver/app/process/interrupt.h"
#include "solver/app/push/rank_share.h"
#include "solver/fem/mpi_session.h"

int main(int argc, char **argv)
{
  using namespace throughbend;
  watch_for_interrupts();
  return static_cast<int>(guarded(
      [&]
      {
        const PushOrder order =
            push_order(verb_arguments(push_verb(), {argv + 1, argv + argc}));
        const CaseReading reading = read_case(order.case_file, order.overrides);
        const MpiSession  mpi(argv[0], StartSpeech::tell);
        return push_shared(order, reading, MPI_COMM_WORLD);
      }));
}
