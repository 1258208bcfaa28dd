#include "solver/pass/one_pass.h"

#include "inputs/keys/case_reader.h"
#include "inputs/text/input_error.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"

namespace throughbend
{
namespace
{
template <int dim>
PassResult pass_of(const Case &c, const AtCapacity at_capacity)
{
  PassSimulation<dim> simulation(set_up(c), MPI_COMM_SELF);
  if (at_capacity == AtCapacity::stop)
    simulation.stop_at_capacity();
  PassResult record;
  record.finding = simulation.run();
  record.release = simulation.release();
  record.samples = simulation.samples();
  record.beyond  = simulation.samples_beyond();
  record.counts  = simulation.counts();
  return record;
}
} // namespace

PassResult one_pass(const Case &c, const AtCapacity at_capacity)
{
  return c.mesh.dimension == 2 ? pass_of<2>(c, at_capacity) : pass_of<3>(c, at_capacity);
}

PassResult one_pass(const std::string_view          case_text,
                    const std::vector<std::string> &overrides, const AtCapacity at_capacity)
{
  const CaseReading reading = read_case_text(case_text, "the case", overrides);
  if (!reading.value)
    throw InputError("the case cannot be used:\n" + error_list(reading.errors));
  return one_pass(*reading.value, at_capacity);
}
} // namespace throughbend
