// Whole passes on many ranks and on each rank alone: the same finding and the same figures.
// Passes that are broken and resumed on as many ranks, on one, and from one on many.

#include "solver/pass/pass_simulation.h"
#include "solver/pass/state_fields.h"
#include "solver/setup/set_up.h"
#include "tests/solver/pass/resume_cases.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>

using namespace throughbend;

namespace
{
// Each is solved tightly: at the usual tolerance a rounding of 1e-16 grows to 1e-7 over a
// pass, because Newton stops where it happens to be good enough.
constexpr double  same   = 1e-8;
const std::string cells  = "--mesh.layers;2;--mesh.cell_size;6 mm;";
const std::string coarse = cells + "--solver.residual_tolerance;1e-9";

struct Record
{
  Finding                 finding;
  Release                 release;
  std::vector<PassSample> samples, beyond;
  PassState               state; ///< whole, on every rank
};

std::string bytes_of(const PassState &state)
{
  StateWriter writer;
  writer(state);
  return writer.bytes();
}

/// The first rank's, everywhere.
PassState given(const PassState &state, MPI_Comm communicator)
{
  std::string   bytes = bytes_of(state);
  std::uint64_t size  = bytes.size();
  MPI_Bcast(&size, 1, MPI_UINT64_T, 0, communicator);
  bytes.resize(size);
  MPI_Bcast(bytes.data(), static_cast<int>(size), MPI_BYTE, 0, communicator);
  std::istringstream in(bytes);
  StateReader        reader(in, size);
  PassState          all;
  reader(all);
  return all;
}

/// From `earlier` if there is one, and to an interrupt after so many questions.
template <int dim>
Record pass_on(MPI_Comm communicator, const Case &c, const PassState *earlier = nullptr,
               long questions = -1)
{
  PassSimulation<dim> pass(set_up(c), communicator);
  long                asked = 0;
  pass.stop_when([&] { return questions >= 0 && ++asked > questions; });
  if (earlier != nullptr)
  {
    REQUIRE(pass.fault_of(*earlier) == "");
    pass.resume(*earlier);
  }
  Record record;
  record.finding = pass.run();
  record.release = pass.release();
  record.samples = pass.samples();
  record.beyond  = pass.samples_beyond();
  record.state   = given(pass.state(), communicator);
  REQUIRE(pass.interrupted() == (questions >= 0));
  return record;
}

void check_samples(const std::vector<PassSample> &a, const std::vector<PassSample> &b)
{
  REQUIRE(a.size() == b.size());
  // Over the largest value of the pass: near 0 a figure has no digits of its own.
  std::map<std::string, std::pair<double, double>> figures; // apart, largest
  const auto compare = [&figures](const char *name, double x, double y)
  {
    auto &[apart, largest] = figures[name];
    apart                  = std::max(apart, std::abs(x - y));
    largest                = std::max(largest, std::abs(x));
  };
  for (std::size_t i = 0; i < a.size(); ++i)
  {
    const PassSample &x = a[i], &y = b[i];
    CHECK(x.kind == y.kind);
    compare("travel", x.travel, y.travel);
    compare("ram force", x.ram_force, y.ram_force);
    compare("outer strain", x.outer_strain, y.outer_strain);
    compare("plastic strain", x.plastic_strain, y.plastic_strain);
    compare("elastic energy", x.energy.elastic, y.energy.elastic);
    compare("plastic work", x.energy.plastic, y.energy.plastic);
    compare("friction work", x.energy.friction, y.energy.friction);
    compare("left leg", x.left.angle, y.left.angle);
    compare("right leg", x.right.angle, y.right.angle);
    for (std::size_t tool = 0; tool < x.tools.size(); ++tool)
      compare("tool", x.tools[tool].normal, y.tools[tool].normal);
    REQUIRE(x.flaws.size() == y.flaws.size());
    for (std::size_t k = 0; k < x.flaws.size(); ++k)
      compare("opening", x.flaws[k].opening, y.flaws[k].opening);
  }
  for (const auto &[name, figure] : figures)
  {
    INFO(name << ", largest " << figure.second);
    CHECK(figure.first <= same * figure.second);
  }
}

void check_same(const Record &a, const Record &b)
{
  CHECK(to_text(a.finding.outcome) == to_text(b.finding.outcome));
  CHECK(a.finding.jam == b.finding.jam);
  CHECK(a.finding.held == b.finding.held);
  CHECK(a.finding.where == b.finding.where);
  CHECK(a.finding.events.size() == b.finding.events.size());
  CHECK(a.release.completed == b.release.completed);
  CHECK(std::abs(a.release.right_springback - b.release.right_springback) < 180 * same);
  check_samples(a.samples, b.samples);
  check_samples(a.beyond, b.beyond);
}

template <int dim>
void compare(const std::string &overrides, Outcome outcome)
{
  const Case   c     = resume_case(overrides);
  const Record alone = pass_on<dim>(MPI_COMM_SELF, c);
  INFO(overrides << ": " << alone.finding.evidence);
  CHECK(to_text(alone.finding.outcome) == to_text(outcome));
  check_same(alone, pass_on<dim>(MPI_COMM_WORLD, c));
}
} // namespace

TEST_CASE("A coupon goes through and is released on any number of ranks", "[mpi]")
{
  // Looser, what an iteration leaves moves the coupon against friction's springs by more
  // than is compared. Tighter, the last step is refused, in which only the drag holds it.
  compare<2>(cells + "--solver.residual_tolerance;3e-8", Outcome::through);
}

TEST_CASE(
    "The ram's force runs out, and what it would take is found, on any number of ranks",
    "[mpi]")
{
  // At 1e-9 the last step before the drop is refused, and how often it is tried again hangs
  // on rounding.
  compare<2>(cells + "--solver.residual_tolerance;3e-8;--ram.capacity;15 kN",
             Outcome::over_capacity);
}

TEST_CASE("A flawed weld opens alike on any number of ranks", "[mpi]")
{
  compare<2>(coarse + ";--weld.preparation;square;--weld.width;6 mm;--flaw.depth;3 mm;"
                      "--weld.bend;root;--ram.stroke;3 mm",
             Outcome::stroke_out);
}

TEST_CASE("A weld with its HAZ is bent alike on any number of ranks", "[mpi]")
{
  compare<2>(coarse + ";--weld.preparation;square;--weld.width;8 mm;--weld.haz_width;4 mm;"
                      "--weld.strength_ratio;1.2;--weld.haz_ratio;0.8;--ram.stroke;15 mm",
             Outcome::stroke_out);
}

TEST_CASE("A coupon hooked on its frame is held on any number of ranks", "[mpi]")
{
  compare<2>(coarse + ";--coupon.length;180 mm;--frame.distance;80 mm;--ram.capacity;20 kN;"
                      "--ram.stroke;4 mm",
             Outcome::over_capacity);
}

TEST_CASE("A body with width is bent alike on any number of ranks", "[.][ranks-long]")
{
  compare<3>("--solver.residual_tolerance;1e-9;--mesh.dimension;3;--mesh.layers;1;"
             "--mesh.cell_size;8 mm;--ram.stroke;12 mm",
             Outcome::stroke_out);
}

namespace
{
template <int dim>
void break_and_resume(const Case &c, const std::vector<long> &breaks)
{
  const Record alone = pass_on<dim>(MPI_COMM_SELF, c),
               whole = pass_on<dim>(MPI_COMM_WORLD, c);
  check_same(alone, whole);
  for (const long questions : breaks)
  {
    INFO("broken after " << questions << " questions");
    const PassState one  = pass_on<dim>(MPI_COMM_SELF, c, nullptr, questions).state,
                    many = pass_on<dim>(MPI_COMM_WORLD, c, nullptr, questions).state;
    // As many ranks: to the last digit.
    CHECK(first_difference(pass_on<dim>(MPI_COMM_WORLD, c, &many).state, whole.state) ==
          "");
    CHECK(first_difference(pass_on<dim>(MPI_COMM_SELF, c, &one).state, alone.state) == "");
    check_same(alone, pass_on<dim>(MPI_COMM_SELF, c, &many));
    check_same(alone, pass_on<dim>(MPI_COMM_WORLD, c, &one));
  }
}
} // namespace

TEST_CASE("A pass broken on any number of ranks is resumed on any number", "[mpi]")
{
  // In the climb, and beyond the capacity, where two states are kept.
  break_and_resume<2>(resume_case(coarse + ";--ram.capacity;15 kN;--ram.stroke;25 mm"),
                      {20, 90});
}

TEST_CASE("A body broken on any number of ranks is resumed on any number",
          "[.][ranks-long]")
{
  break_and_resume<3>(
      resume_case("--solver.residual_tolerance;1e-9;--mesh.dimension;3;--mesh.layers;1;"
                  "--mesh.cell_size;8 mm;--ram.stroke;4 mm"),
      {15});
}

TEST_CASE("A state of another model is refused on all ranks alike", "[mpi]")
{
  const PassState state =
      pass_on<2>(MPI_COMM_WORLD, resume_case(coarse + ";--ram.stroke;2 mm"), nullptr, 4)
          .state;
  const PassSimulation<2> other(set_up(resume_case(coarse + ";--mesh.model;full")),
                                MPI_COMM_WORLD);
  CHECK_THAT(other.fault_of(state), Catch::Contains("another model"));
}
