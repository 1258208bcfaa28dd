// Catch2's main for programs that use MPI: every rank runs the tests and prints, and a
// failure on any rank fails them all.
#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>

#include "own_scratch.h"

#include <deal.II/base/mpi.h>

int main(int argc, char **argv)
{
  const throughbend::OwnScratch                  scratch;
  const dealii::Utilities::MPI::MPI_InitFinalize mpi(argc, argv, 1);
  Catch::Session                                 session;
  if (const int wrong = session.applyCommandLine(argc, argv); wrong != 0)
    return wrong;
  const int failed = session.run() == 0 ? 0 : 1;
  return dealii::Utilities::MPI::max(failed, MPI_COMM_WORLD);
}
