#include "solver/app/push/pass_run.h"

#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "solver/app/process/blas.h"
#include "solver/app/process/interrupt.h"
#include "solver/app/process/rank_group.h"
#include "solver/app/push/run_bars.h"
#include "solver/app/push/run_books.h"
#include "solver/app/push/run_keeper.h"
#include "solver/app/push/run_recorder.h"
#include "solver/fields/field_writer.h"
#include "solver/pass/pass_simulation.h"
#include "solver/pass/state_fields.h"
#include "solver/setup/set_up.h"

#include <algorithm>
#include <iostream>
#include <memory>
#include <sstream>

namespace throughbend
{
namespace
{
/// The first rank's books; null on the others. Empty everywhere when the folder cannot be
/// used, which the first rank then has said.
struct OpenBooks
{
  std::unique_ptr<RunBooks> books;
  bool                      good = true;
};

/// Says why this rank cannot go on.
void tell_failure(const std::exception &error, const RankGroup &ranks)
{
  std::cerr << "\nthroughbend: the run failed"
            << (ranks.is_first() ? "" : " on rank " + std::to_string(ranks.rank())) << ": "
            << shown_message(error.what()) << std::endl;
}

/// They wait for this rank, and would do so for ever.
void end_others(const RankGroup &ranks)
{
  if (!ranks.is_alone())
    MPI_Abort(ranks.communicator(), static_cast<int>(ExitCode::failed));
}

OpenBooks open_books(const PushOrder &order, const CaseReading &reading,
                     const RankGroup &ranks)
{
  OpenBooks open;
  if (ranks.is_first())
    try
    {
      open.books = std::make_unique<RunBooks>(order, reading, ranks.n());
    }
    catch (const InputError &error)
    {
      std::cerr << "throughbend: " << shown_message(error.what()) << '\n';
      open.good = false;
    }
    catch (const std::exception &error)
    {
      if (!ranks.is_alone())
        tell_failure(error, ranks);
      end_others(ranks);
      throw;
    }
  open.good = !ranks.any(!open.good);
  return open;
}

/// The state that the first rank has read, on every rank; null where there is none.
std::shared_ptr<const PassState> shared_with_all(const PassState *const first,
                                                 MPI_Comm               communicator)
{
  std::string bytes;
  if (first != nullptr)
  {
    StateWriter writer;
    writer(*first);
    bytes = writer.bytes();
  }
  std::uint64_t size = bytes.size();
  MPI_Bcast(&size, 1, MPI_UINT64_T, 0, communicator);
  bytes.resize(size);
  constexpr std::uint64_t at_once = 1u << 30; // MPI counts in int
  for (std::uint64_t from = 0; from < size; from += at_once)
    MPI_Bcast(&bytes[from], static_cast<int>(std::min(at_once, size - from)), MPI_BYTE, 0,
              communicator);
  if (size == 0)
    return nullptr;
  std::istringstream in(bytes);
  StateReader        reader(in, size);
  const auto         state = std::make_shared<PassState>();
  reader(*state);
  return state;
}

template <int dim>
RunEffort effort_of(PassSimulation<dim> &simulation)
{
  const WorkCount &work = simulation.equations().work();
  RunEffort        effort;
  effort.cells = static_cast<long long>(
      simulation.model().dof_handler().get_triangulation().n_active_cells());
  effort.dofs           = simulation.model().n_dofs();
  effort.factorisations = work.factorisations;
  effort.wall = {simulation.counts().seconds, work.assembly, work.contact, work.solution};
  return effort;
}

ExitCode exit_code(const Finding &finding, const PushOrder &order)
{
  if (finding.outcome == Outcome::undecided)
    return ExitCode::undecided;
  return order.expected && *order.expected != finding.outcome ? ExitCode::unexpected
                                                              : ExitCode::finding;
}
} // namespace

template <int dim>
ExitCode run_pass(const PushOrder &order, const CaseReading &reading, MPI_Comm communicator)
{
  use_one_blas_thread(); // on every rank
  const RankGroup ranks(communicator);
  const OpenBooks open = open_books(order, reading, ranks);
  if (!open.good)
    return ExitCode::bad_input;
  RunBooks *const books = open.books.get();

  // Outside the try block: with several ranks its destructor waits for all of them, so
  // after an error on one rank it must not run before the others are told.
  std::unique_ptr<PassSimulation<dim>> simulation;
  try
  {
    simulation =
        std::make_unique<PassSimulation<dim>>(set_up(*reading.value), communicator);

    FieldWriter<dim> fields(books != nullptr ? &books->folder() : nullptr,
                            simulation->model(), reading.value->output.field_spacing);
    simulation->attach(fields);
    const PassState *const read = books != nullptr ? books->earlier() : nullptr;
    const auto given            = !ranks.is_alone() && order.existing == ExistingRun::resume
                                      ? shared_with_all(read, communicator)
                                      : nullptr;
    const PassState *const earlier = given != nullptr ? given.get() : read;
    if (earlier != nullptr)
    {
      const std::string fault = simulation->fault_of(*earlier);
      if (ranks.any(!fault.empty()))
      {
        if (books != nullptr)
          std::cerr << "throughbend: the run in "
                    << shown_text(books->folder().path().string())
                    << " cannot be resumed from its checkpoint: " << fault
                    << ". Push the case again, into another folder.\n";
        return ExitCode::bad_input;
      }
    }
    if (books != nullptr)
      books->open(reading.remarks);
    std::optional<RunRecorder<dim>> recorder;
    if (books != nullptr)
    {
      books->model(effort_of(*simulation), simulation->equations().solver_name());
      recorder.emplace(books->travel(), books->folder().beyond_file(), books->opening(),
                       books->log(), books->progress());
      simulation->attach(*recorder);
    }

    if (order.at_capacity == AtCapacity::stop)
      simulation->stop_at_capacity();
    bool stopped = false; // once true, for good
    simulation->stop_when(
        [&]
        {
          stopped = stopped || ranks.any(interrupt_asked());
          return stopped;
        });
    RunKeeper keeper(books, reading.value->solver.checkpoint_every, ranks);
    simulation->keep_with(keeper);
    if (earlier != nullptr)
    {
      if (recorder)
        recorder->write_earlier(earlier->samples, earlier->beyond);
      simulation->resume(*earlier);
    }
    std::optional<RunBars> bars; // made beside the pass
    if (order.bars == Bars::wanted && books != nullptr)
    {
      bars.emplace(order, *reading.value);
      books->make_bars_with([&](const RunSummary &summary) { return bars->made(summary); });
    }
    const Finding finding = simulation->run();
    const bool    ended   = !simulation->interrupted();
    if (books != nullptr)
      books->close(ended ? std::optional<Finding>(finding) : std::nullopt,
                   simulation->release(), simulation->samples(), fields.faces(),
                   effort_of(*simulation));
    return ended ? exit_code(finding, order) : ExitCode::interrupted;
  }
  catch (const std::exception &error)
  {
    tell_failure(error, ranks);
    if (books != nullptr)
      books->fail(error.what());
    end_others(ranks);
    return ExitCode::failed;
  }
}

template ExitCode run_pass<2>(const PushOrder &, const CaseReading &, MPI_Comm);
template ExitCode run_pass<3>(const PushOrder &, const CaseReading &, MPI_Comm);
} // namespace throughbend
