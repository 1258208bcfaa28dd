// Cells on several threads: each is done once, errors pass on, and forces and tangents are
// the same to the last digit whatever the number of threads.

#include "meshes/setup/placed_coupon.h"
#include "solver/fem/cell_crew.h"
#include "solver/fem/equilibrium.h"
#include "solver/fem/serial_system.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"

#include <catch2/catch.hpp>

#include <sys/resource.h>
#include <unistd.h>

#include <atomic>
#include <fstream>
#include <memory>
#include <stdexcept>

using namespace throughbend;

namespace
{
/// Assembles into the serial matrix and shows it.
struct OpenSystem : SerialSystem
{
  explicit OpenSystem(SharedMatrix matrix) : SerialSystem(std::move(matrix)) {}
  bool                solve(const Vector &, Vector &) override { return false; }
  std::string         solver_name() const override { return "none"; }
  std::vector<double> values() const
  {
    return {matrix_.values().begin(), matrix_.values().end() - 1}; // the last is not used
  }
};

template <int dim>
struct Assembled
{
  std::vector<double> force, tangent;
  StrainEnergy        energy;
};

template <int dim>
Assembled<dim> with_threads(const CouponModel<dim> &model, const Case &c, const Vector &u,
                            unsigned n_threads)
{
  Equilibrium<dim> equilibrium(model, zone_materials(c), n_threads);
  Vector           force(model.n_dofs());
  REQUIRE(equilibrium.add_forces(u, force));
  OpenSystem system(std::make_shared<CompressedColumns>(model));
  system.clear();
  equilibrium.add_tangent(system);
  return {{force.begin(), force.end()}, system.values(), equilibrium.energy()};
}
} // namespace

#ifndef __SANITIZE_ADDRESS__ // which needs terabytes of addresses
TEST_CASE("A system that gives few threads leaves a small crew", "[fem][crew]")
{
  rlimit before{};
  REQUIRE(getrlimit(RLIMIT_AS, &before) == 0);
  long          pages = 0;
  std::ifstream statm("/proc/self/statm");
  REQUIRE(statm >> pages);
  // A thread's stack takes megabytes, of which the C library keeps a few from before.
  rlimit tight = before;
  tight.rlim_cur =
      static_cast<rlim_t>(pages) * static_cast<rlim_t>(sysconf(_SC_PAGESIZE)) + (1 << 20);
  REQUIRE(setrlimit(RLIMIT_AS, &tight) == 0);
  constexpr unsigned        wanted = 200;
  std::unique_ptr<CellCrew> crew;
  try
  {
    crew = std::make_unique<CellCrew>(wanted);
  }
  catch (...)
  {
  }
  REQUIRE(setrlimit(RLIMIT_AS, &before) == 0);
  REQUIRE(crew != nullptr);
  CHECK(crew->size() < wanted);
  std::atomic<int> done{0};
  crew->each(5, [&](std::size_t) { ++done; });
  CHECK(done == 5);
}
#endif

TEST_CASE("A crew does every cell once, whatever its size", "[fem][crew]")
{
  for (const unsigned size : {1u, 2u, 3u, 5u})
  {
    CellCrew crew(size);
    CHECK(crew.size() == size);
    for (const std::size_t n : {0, 1, 2, 7, 1000})
    {
      std::vector<std::atomic<int>> done(n);
      crew.each(n, [&](std::size_t i) { ++done[i]; });
      for (const auto &times : done)
        CHECK(times == 1);
    }
  }
}

TEST_CASE("An exception in a cell reaches the caller, and the crew works on", "[fem][crew]")
{
  for (const unsigned size : {1u, 2u, 4u})
  {
    CellCrew   crew(size);
    const auto breaks = [](std::size_t i)
    {
      if (i == 37)
        throw std::runtime_error("cell 37");
    };
    CHECK_THROWS_WITH(crew.each(100, breaks), "cell 37");
    std::atomic<int> done(0);
    crew.each(100, [&](std::size_t) { ++done; });
    CHECK(done == 100);
  }
}

TEMPLATE_TEST_CASE_SIG("Forces, energies and tangent do not depend on the threads",
                       "[fem][crew]", ((int dim), dim), 2, 3)
{
  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  std::mt19937           random(5);
  Vector                 u(model.n_dofs());
  shake(u, random, 0.03);
  const Assembled<dim> alone = with_threads<dim>(model, c, u, 1);
  REQUIRE(alone.energy.plastic_step > 0); // otherwise this tests less than it says
  for (const unsigned n_threads : {2u, 3u})
  {
    const Assembled<dim> shared = with_threads<dim>(model, c, u, n_threads);
    CHECK(shared.force == alone.force);
    CHECK(shared.tangent == alone.tangent);
    CHECK(shared.energy.elastic == alone.energy.elastic);
    CHECK(shared.energy.plastic_step == alone.energy.plastic_step);
  }
}
