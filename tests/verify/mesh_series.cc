// How much of what a user reads is the mesh's and the step's doing: reference case R on a
// series of meshes at a fine step, extrapolated to cells of no size, against the default
// settings; then the default mesh with smaller steps and stricter tolerances. Prints a
// table and writes it as Markdown.
//
//   mesh_series [FILE.md]      mesh_series.md if not given; the kept one is
//                              tests/verify/mesh_series.md
//
// Exit status 1 when the default is farther from the extrapolated value than this project
// demands: 1 % in the peak force, 2 % in the largest surface strain.

#include "tests/reference_case.h"
#include "tests/verify/pass_figures.h"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <string>

using namespace throughbend;

namespace
{
/// Where the release starts on every mesh alike: the tip about 1 mm below the arc [mm].
constexpr double release_at = 91.8;

constexpr int                                 n_figures = 3;
constexpr std::array<const char *, n_figures> names     = {
        "peak force [N/mm]", "largest outer log strain [-]", "springback of a leg [deg]"};
constexpr std::array<int, n_figures>    digits = {2, 5, 4};
constexpr std::array<double, n_figures> demand = {0.01, 0.02, 0}; // 0 = none

struct Run
{
  std::string                   name;
  double                        size = 0; ///< of a cell through the thickness [mm]
  PassRecord                    record;
  std::array<double, n_figures> figures{};
};

Run run_of(const std::string &name, Case c)
{
  c.ram.stroke = release_at;
  Run run;
  run.name   = name;
  run.record = push(c);
  if (run.record.finding.outcome != Outcome::stroke_out || !run.record.release.completed)
  {
    std::fprintf(stderr, "mesh_series: %s: %s: %s\n", name.c_str(),
                 to_text(run.record.finding.outcome).c_str(),
                 run.record.finding.evidence.c_str());
    std::exit(2);
  }
  run.figures = {peak(run.record).force, largest_outer_strain(run.record),
                 run.record.release.right_springback};
  std::printf("%-44s %6u unknowns %5d steps %6d iterations %7.1f s   %.2f %.5f %.4f\n",
              name.c_str(), run.record.dofs, run.record.counts.steps,
              run.record.counts.iterations, run.record.counts.seconds, run.figures[0],
              run.figures[1], run.figures[2]);
  std::fflush(stdout);
  return run;
}

/// Cells of the default's shape, layers times as many as asked for.
Run on_mesh(int layers)
{
  Case c                      = reference_case();
  c.mesh.layers               = layers;
  c.mesh.cell_size            = 8. / layers; // the default: 4 layers, 2 mm
  c.solver.largest_step       = 0.5;
  c.solver.residual_tolerance = 1e-4;
  Run run                     = run_of(std::to_string(layers) + " layers, step 0.5 mm", c);
  run.size                    = c.coupon.thickness / layers;
  return run;
}

struct Limit
{
  double value = 0;
  double order = 0; ///< of convergence [-]
  bool   seen  = false;
};

/// From the three finest of f = limit + C h^order (Celik et al. 2008, J. Fluids Eng. 130,
/// 078001, for sizes in any ratio). Where they show no order, 2 is taken.
Limit extrapolated(const std::array<double, 3> &h, const std::array<double, 3> &f)
{
  const auto ratio = [&](double p)
  {
    return (std::pow(h[0], p) - std::pow(h[1], p)) /
           (std::pow(h[1], p) - std::pow(h[2], p));
  };
  Limit        limit;
  const double wanted = (f[0] - f[1]) / (f[1] - f[2]);
  double       low = 0.5, high = 6;
  limit.seen  = wanted > ratio(low) && wanted < ratio(high);
  limit.order = 2;
  if (limit.seen)
  {
    for (int i = 0; i < 60; ++i)
      (ratio((low + high) / 2) < wanted ? low : high) = (low + high) / 2;
    limit.order = low;
  }
  const double r = std::pow(h[1] / h[2], limit.order);
  limit.value    = f[2] + (f[2] - f[1]) / (r - 1);
  return limit;
}

std::string number(double value, int decimals)
{
  char text[40];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

std::string row(const std::vector<std::string> &cells)
{
  std::string text = "|";
  for (const std::string &cell : cells)
    text += " " + cell + " |";
  return text + "\n";
}

std::string row(const Run &run)
{
  std::vector<std::string> cells = {run.name, std::to_string(run.record.dofs),
                                    std::to_string(run.record.counts.steps)};
  for (int k = 0; k < n_figures; ++k)
    cells.push_back(number(run.figures[k], digits[k]));
  return row(cells);
}

std::string head()
{
  return row({"run", "unknowns", "steps", names[0], names[1], names[2]}) +
         row({"---", "--:", "--:", "--:", "--:", "--:"});
}
} // namespace

int main(int argc, char **argv)
{
  const dealii::Utilities::MPI::MPI_InitFinalize mpi(argc, argv, 1);
  const char *const file = argc > 1 ? argv[1] : "mesh_series.md";

  std::vector<Run> meshes;
  for (const int layers : {3, 4, 6, 8, 12})
    meshes.push_back(on_mesh(layers));
  const Run   standard = run_of("default", reference_case());
  const auto *finest   = &meshes[meshes.size() - 3];

  std::string text =
      "# Reference case R: mesh, step and tolerances\n\n"
      "Written by `mesh_series`; plane strain, half model, forces per mm of width. The "
      "release starts at\n" +
      number(release_at, 1) +
      " mm of travel. Meshes are refined in all directions alike.\n\n" + head();
  for (const Run &run : meshes)
    text += row(run);
  std::vector<std::string> limits = {"no cell size", "", ""}, orders = {"order", "", ""},
                           apart = {"default, off by", "", ""};
  bool good                      = true;
  for (int k = 0; k < n_figures; ++k)
  {
    const Limit limit =
        extrapolated({finest[0].size, finest[1].size, finest[2].size},
                     {finest[0].figures[k], finest[1].figures[k], finest[2].figures[k]});
    const double off = standard.figures[k] / limit.value - 1;
    limits.push_back(number(limit.value, digits[k]));
    orders.push_back(limit.seen ? number(limit.order, 1) : "none seen, 2 taken");
    apart.push_back(number(100 * off, 2) + " %");
    if (demand[k] > 0 && !(std::abs(off) <= demand[k]))
    {
      std::printf("default mesh: %s is off by %.2f %%, more than %.0f %%\n", names[k],
                  100 * off, 100 * demand[k]);
      good = false;
    }
  }
  text += row(limits) + row(orders) + row(standard) + row(apart);

  text += "\nThe default mesh, one setting changed at a time:\n\n" + head() + row(standard);
  for (const double step : {2., 1., 0.5, 0.25})
  {
    Case c                = reference_case();
    c.solver.largest_step = step;
    text += row(run_of("step " + number(step, 2) + " mm", c));
  }
  for (const double tolerance : {1e-2, 1e-4, 1e-6})
  {
    Case c                      = reference_case();
    c.solver.residual_tolerance = tolerance;
    text += row(run_of("residual tolerance " + number(tolerance, 6), c));
  }
  for (const double tolerance : {1e-3, 2.5e-4, 1e-4})
  {
    Case c                         = reference_case();
    c.solver.penetration_tolerance = tolerance;
    text += row(run_of("penetration tolerance " + number(tolerance, 5), c));
  }

  // What the extrapolation along the mesh alone leaves out.
  Case all                         = reference_case();
  all.mesh.layers                  = 8;
  all.mesh.cell_size               = 1;
  all.solver.largest_step          = 0.25;
  all.solver.residual_tolerance    = 1e-5;
  all.solver.penetration_tolerance = 1e-4;
  const Run everything = run_of("8 layers and all of these: 0.25, 1e-5, 1e-4", all);
  std::vector<std::string> distance = {"default, off by", "", ""};
  for (int k = 0; k < n_figures; ++k)
    distance.push_back(number(100 * (standard.figures[k] / everything.figures[k] - 1), 2) +
                       " %");
  text += row(everything) + row(distance);

  std::printf("\n%s", text.c_str());
  std::FILE *const out = std::fopen(file, "w");
  if (out == nullptr || std::fputs(text.c_str(), out) < 0 || std::fclose(out) != 0)
  {
    std::fprintf(stderr, "mesh_series: cannot write %s\n", file);
    return 2;
  }
  return good ? EXIT_SUCCESS : EXIT_FAILURE;
}
