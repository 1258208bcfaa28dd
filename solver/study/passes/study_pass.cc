#include "solver/study/passes/study_pass.h"

#include "solver/fem/mpi_session.h"
#include "solver/fields/field_writer.h"
#include "solver/pass/pass_simulation.h"
#include "solver/record/pass_summary.h"
#include "solver/setup/set_up.h"
#include "solver/study/pass_record.h"
#include "solver/study/passes/shape_watch.h"

namespace throughbend
{
namespace
{
template <int dim>
std::optional<StudyPass> pass_of(const Case &c, const AtCapacity at_capacity,
                                 const std::function<bool()> &stop)
{
  PassSimulation<dim> simulation(set_up(c), MPI_COMM_SELF);
  FieldWriter<dim>    faces(nullptr, simulation.model(), 0);
  ShapeWatch<dim>     shapes;
  simulation.attach(faces);
  simulation.attach(shapes);
  if (at_capacity == AtCapacity::stop)
    simulation.stop_at_capacity();
  bool stopped = false; // once true, for good
  simulation.stop_when([&] { return stopped = stopped || stop(); });
  const Finding finding = simulation.run();
  if (simulation.interrupted())
    return std::nullopt;
  RunSummary summary;
  put_pass(summary, c, finding, simulation.release(), simulation.samples(), faces.faces());
  StudyPass pass = pass_record(summary, simulation.samples());
  pass.moments   = shapes.moments();
  pass.seconds   = simulation.counts().seconds;
  return pass;
}
} // namespace

std::optional<StudyPass> study_pass(const Case &c, const AtCapacity at_capacity,
                                    const std::function<bool()> &stop)
{
  static const bool once = (use_one_library_thread(), true); // as push, to the last digit
  static_cast<void>(once);
  return c.mesh.dimension == 2 ? pass_of<2>(c, at_capacity, stop)
                               : pass_of<3>(c, at_capacity, stop);
}
} // namespace throughbend
