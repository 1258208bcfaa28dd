// A push one of whose ranks fails: after so many allocations one throws std::bad_alloc, or
// something that is no memory. This only breaks the program;
// rank_runs.py looks at what happens then.
//
//     rank_fails CASE FOLDER RANK COUNT memory|bug

#include "solver/app/push/pass_run.h"
#include "solver/fem/mpi_session.h"

#include <deal.II/base/mpi.h>

#include <atomic>
#include <cstdlib>
#include <new>
#include <stdexcept>
#include <string>

namespace
{
std::atomic<long> left{-1}; ///< allocations until one fails; below 0: none does
bool              is_bug = false;
} // namespace

void *operator new(const std::size_t size)
{
  if (left.load() >= 0 && left.fetch_sub(1) == 0)
  {
    if (is_bug)
      throw std::logic_error("a bug that nobody expects");
    throw std::bad_alloc();
  }
  if (void *const memory = std::malloc(size > 0 ? size : 1))
    return memory;
  throw std::bad_alloc();
}
void operator delete(void *memory) noexcept
{
  std::free(memory);
}
void operator delete(void *memory, std::size_t) noexcept
{
  std::free(memory);
}

int main(int argc, char **argv)
{
  using namespace throughbend;
  if (argc != 6)
    return 2;
  const MpiSession mpi(argv[0], StartSpeech::tell);
  PushOrder        order;
  order.case_file           = argv[1];
  order.into                = argv[2];
  order.existing            = ExistingRun::overwrite;
  order.speech              = Speech::verdict;
  const CaseReading reading = read_case(order.case_file, {});
  is_bug                    = std::string(argv[5]) == "bug";
  if (dealii::Utilities::MPI::this_mpi_process(MPI_COMM_WORLD) ==
      static_cast<unsigned>(std::stoi(argv[3])))
    left = std::stol(argv[4]);
  return static_cast<int>(run_pass<2>(order, reading, MPI_COMM_WORLD));
}
