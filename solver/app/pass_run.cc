#include "solver/app/pass_run.h"

#include "inputs/input_error.h"
#include "solver/app/interrupt.h"
#include "solver/app/run_books.h"
#include "solver/app/run_keeper.h"
#include "solver/output/field_writer.h"
#include "solver/output/run_recorder.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"

#include <iostream>
#include <memory>

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

OpenBooks open_books(const PushOrder &order, const CaseReading &reading,
                     MPI_Comm communicator)
{
  OpenBooks open;
  if (dealii::Utilities::MPI::this_mpi_process(communicator) == 0)
    try
    {
      open.books = std::make_unique<RunBooks>(
          order, reading,
          static_cast<int>(dealii::Utilities::MPI::n_mpi_processes(communicator)));
    }
    catch (const InputError &error)
    {
      std::cerr << "throughbend: " << error.what() << '\n';
      open.good = false;
    }
  open.good = dealii::Utilities::MPI::min(open.good ? 1 : 0, communicator) == 1;
  return open;
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
  watch_for_interrupts(); // before there are books: an end of them must be written as well
  const OpenBooks open = open_books(order, reading, communicator);
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
    const PassState *const earlier = books != nullptr ? books->earlier() : nullptr;
    if (earlier != nullptr)
    {
      const std::string fault = simulation->fault_of(*earlier);
      if (!fault.empty())
      {
        std::cerr << "throughbend: the run in " << books->folder().path().string()
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
          stopped = stopped || dealii::Utilities::MPI::max(interrupt_asked() ? 1 : 0,
                                                           communicator) > 0;
          return stopped;
        });
    std::optional<RunKeeper> keeper;
    if (books != nullptr && dealii::Utilities::MPI::n_mpi_processes(communicator) == 1)
      simulation->keep_with(keeper.emplace(*books, reading.value->solver.checkpoint_every));
    if (earlier != nullptr)
    {
      recorder->write_earlier(earlier->samples, earlier->beyond);
      simulation->resume(*earlier);
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
    const auto rank = dealii::Utilities::MPI::this_mpi_process(communicator);
    std::cerr << "\nthroughbend: the run failed"
              << (rank == 0 ? "" : " on rank " + std::to_string(rank)) << ": "
              << error.what() << '\n';
    if (books != nullptr)
      books->fail(error.what());
    if (dealii::Utilities::MPI::n_mpi_processes(communicator) > 1)
      MPI_Abort(communicator, static_cast<int>(ExitCode::failed));
    return ExitCode::failed;
  }
}

template ExitCode run_pass<2>(const PushOrder &, const CaseReading &, MPI_Comm);
template ExitCode run_pass<3>(const PushOrder &, const CaseReading &, MPI_Comm);
} // namespace throughbend
