#include "solver/app/push/rank_share.h"

#include "meshes/coupon/coupon_grading.h"
#include "postprocess/verbs/guarded.h"
#include "solver/app/process/rank_group.h"
#include "solver/app/push/pass_run.h"

#include <fmt/core.h>

#include <chrono>
#include <iostream>
#include <thread>

namespace throughbend
{
namespace
{
/// Between two looks whether the first rank has ended.
constexpr std::chrono::milliseconds nap{20};

/// The first rank's number, on every rank. Who waits for it sleeps.
int shared_by_first(int number, MPI_Comm communicator)
{
  MPI_Request request = MPI_REQUEST_NULL;
  MPI_Ibcast(&number, 1, MPI_INT, 0, communicator, &request);
  for (int there = 0;;)
  {
    MPI_Test(&request, &there, MPI_STATUS_IGNORE);
    if (there != 0)
      return number;
    std::this_thread::sleep_for(nap);
  }
}

std::string alone_remark(const Case &c, const int ranks)
{
  return fmt::format(
      "{} ranks would save little or nothing: the model has about {:.0f} unknowns, and "
      "ranks share models of {:.0f} or more. The first rank makes the pass, the others "
      "wait",
      ranks, n_unknowns(c), shared_from);
}
} // namespace

double n_unknowns(const Case &c)
{
  const CouponGrid grid  = coupon_grid(c, model_extent(c));
  const auto       nodes = [](const std::vector<double> &lines)
  { return lines.empty() ? 1. : 2. * static_cast<double>(lines.size()) - 1; };
  return nodes(grid.x) * nodes(grid.y) * nodes(grid.z) * c.mesh.dimension;
}

ExitCode push_shared(const PushOrder &order, const CaseReading &reading,
                     MPI_Comm communicator)
{
  return reading.value->mesh.dimension == 2 ? run_pass<2>(order, reading, communicator)
                                            : run_pass<3>(order, reading, communicator);
}

ExitCode push_on_ranks(const PushOrder &order, const CaseReading &reading,
                       MPI_Comm communicator)
{
  const RankGroup ranks(communicator);
  const Case     &c = *reading.value;
  if (ranks.is_alone() || n_unknowns(c) >= shared_from)
    return push_shared(order, reading, communicator);
  ExitCode code = ExitCode::failed;
  if (ranks.is_first())
  {
    CaseReading given = reading;
    given.remarks.push_back(alone_remark(c, ranks.n()));
    if (order.speech == Speech::full)
      std::cerr << "note: " << given.remarks.back() << ".\n";
    code = guarded([&] { return push_shared(order, given, MPI_COMM_SELF); });
  }
  return static_cast<ExitCode>(shared_by_first(static_cast<int>(code), communicator));
}
} // namespace throughbend
