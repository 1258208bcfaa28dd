// Many ranks together compute what each of them computes alone, in a plane and in 3D:
// every record of every step and every nodal field, to 1e-8 of its largest value.

#include "solver/pass/nodal_fields.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace throughbend;

namespace
{
constexpr double same = 1e-8;

/// With a weld, in a plane off-centre as well, so that nothing is symmetric (invented);
/// tightly solved, because what Newton leaves open may differ between solvers.
template <int dim>
Case few_steps()
{
  Case c                      = reference_case();
  c.coupon.offset             = 2;
  c.weld                      = {8, 4, 0, 1.2, 0.8};
  c.mesh.dimension            = dim;
  c.mesh.level                = MeshLevel::quick;
  c.solver.residual_tolerance = 1e-9;
  c.solver.step_limit         = 12;
  if (dim == 3)
  {
    c.coupon.offset     = 0;
    c.mesh.layers       = 1;
    c.mesh.cell_size    = 8;
    c.solver.step_limit = 6;
  }
  return c;
}

/// Keeps the fields of each step.
template <int dim>
class Keeper : public PassObserver<dim>
{
public:
  explicit Keeper(const CouponModel<dim> &model) : fields_(model) {}
  void step_accepted(const PassView<dim> &view, const PassSample &sample) override
  {
    states.push_back(fields_.at_nodes(view, sample.travel, sample.kind));
    // In the order of the cells: unknowns are numbered by the ranks that own them.
    std::vector<double> motion;
    for (const auto &cell : fields_.cells())
      for (const auto &node : cell.dofs)
        for (const unsigned dof : node)
          motion.push_back(view.u[dof]);
    motions.push_back(motion);
  }
  std::vector<NodalState>          states;
  std::vector<std::vector<double>> motions; ///< displacements [mm]

private:
  NodalFields<dim> fields_;
};

template <int dim>
struct Run
{
  std::vector<PassSample>          samples;
  std::vector<NodalState>          states;
  std::vector<std::vector<double>> motions;
};

template <int dim>
Run<dim> run_on(MPI_Comm communicator)
{
  PassSimulation<dim> simulation(set_up(few_steps<dim>()), communicator);
  Keeper<dim>         keeper(simulation.model());
  simulation.attach(keeper);
  simulation.run();
  return {simulation.samples(), keeper.states, keeper.motions};
}

/// Largest difference over the largest value of one quantity.
double difference(const NodalState &a, const NodalState &b, std::size_t quantity)
{
  double apart = 0, largest = 1e-12;
  for (std::size_t i = quantity; i < a.values.size(); i += n_nodal_quantities)
  {
    apart   = std::max(apart, std::abs(a.values[i] - b.values[i]));
    largest = std::max(largest, std::abs(a.values[i]));
  }
  return apart / largest;
}

double motion_apart(const std::vector<double> &a, const std::vector<double> &b)
{
  REQUIRE(a.size() == b.size());
  double apart = 0, largest = 1e-12;
  for (std::size_t i = 0; i < a.size(); ++i)
  {
    apart   = std::max(apart, std::abs(a[i] - b[i]));
    largest = std::max(largest, std::abs(a[i]));
  }
  return apart / largest;
}

template <int dim>
void compare()
{
  const Run<dim> alone = run_on<dim>(MPI_COMM_SELF), together = run_on<dim>(MPI_COMM_WORLD);
  REQUIRE(!alone.samples.empty());
  REQUIRE(alone.samples.back().outer_strain > 1e-3); // it has bent
  REQUIRE(together.samples.size() == alone.samples.size());
  for (std::size_t i = 0; i < alone.samples.size(); ++i)
  {
    INFO("step " << i + 1);
    const PassSample &a = alone.samples[i], &b = together.samples[i];
    CHECK(b.travel == Approx(a.travel).epsilon(same));
    CHECK(b.ram_force == Approx(a.ram_force).epsilon(same));
    CHECK(b.outer_strain == Approx(a.outer_strain).epsilon(same));
    CHECK(b.plastic_strain == Approx(a.plastic_strain).epsilon(same).margin(same));
    CHECK(b.energy.plastic ==
          Approx(a.energy.plastic).epsilon(same).margin(same * a.energy.ram_work));
    CHECK(b.energy.elastic == Approx(a.energy.elastic).epsilon(same));
    CHECK(b.energy.friction ==
          Approx(a.energy.friction).epsilon(same).margin(same * a.energy.ram_work));
    for (std::size_t tool = 0; tool < a.tools.size(); ++tool)
    {
      CHECK(b.tools[tool].normal ==
            Approx(a.tools[tool].normal).epsilon(same).margin(same * a.ram_force));
      CHECK(b.tools[tool].line_load ==
            Approx(a.tools[tool].line_load).epsilon(same).margin(same * a.ram_force));
      CHECK(
          b.tools[tool].smoothed_pressure ==
          Approx(a.tools[tool].smoothed_pressure).epsilon(same).margin(same * a.ram_force));
    }
    REQUIRE(b.width.has_value() == (dim == 3));
    if (b.width)
    {
      CHECK(b.width->crown_width_stress ==
            Approx(a.width->crown_width_stress).epsilon(same).margin(1e-4));
      CHECK(b.width->crown_on_nose == a.width->crown_on_nose);
      CHECK(b.width->nose_gap_edge == Approx(a.width->nose_gap_edge).margin(same));
    }

    CHECK(motion_apart(alone.motions[i], together.motions[i]) < same);
    REQUIRE(together.states[i].values.size() == alone.states[i].values.size());
    for (std::size_t quantity = 0; quantity < n_nodal_quantities; ++quantity)
    {
      INFO("quantity " << quantity);
      CHECK(difference(alone.states[i], together.states[i], quantity) < same);
    }
  }
}
} // namespace

TEST_CASE("A plane pass is the same on any number of ranks", "[mpi]")
{
  compare<2>();
}

TEST_CASE("A pass in 3D is the same on any number of ranks", "[mpi]")
{
  compare<3>();
}

TEST_CASE("Each rank has a length of the coupon, in order, and as many cells as the others",
          "[mpi]")
{
  const Case           c = few_steps<3>();
  const CouponModel<3> model(set_up(c).coupon, MPI_COMM_WORLD);
  double               first = 1e300, last = -1e300;
  for (const auto &cell : model.cells())
  {
    first = std::min(first, cell.cell->center()[0]);
    last  = std::max(last, cell.cell->center()[0]);
  }
  const std::vector<double> starts =
      dealii::Utilities::MPI::all_gather(MPI_COMM_WORLD, first);
  const std::vector<double> ends = dealii::Utilities::MPI::all_gather(MPI_COMM_WORLD, last);
  const std::vector<std::size_t> cells =
      dealii::Utilities::MPI::all_gather(MPI_COMM_WORLD, model.cells().size());
  for (std::size_t rank = 0; rank + 1 < starts.size(); ++rank)
    CHECK(ends[rank] <= starts[rank + 1]);
  const auto [fewest, most] = std::minmax_element(cells.begin(), cells.end());
  CHECK(*most - *fewest <= 1);
}
