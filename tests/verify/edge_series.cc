// How far the figures of a free edge depend on the mesh: reference case R with its width,
// in 3D, on meshes that are refined in all directions alike, extrapolated to the
// mesh-converged value, beside the default mesh.
//
//   edge_series [FILE.md] [WIDTH...]
//
// FILE: edge_series.md; widths 20 and 38 if not given [mm]. The kept table is
// tests/verify/edge_series.md
//
// Exit status 1 when on the default mesh the force is more than 2 % or the strain of the
// edge more than 3 % from the mesh-converged value.

#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"
#include "tests/verify/series.h"

#include <algorithm>
#include <cstdlib>

using namespace throughbend;

namespace
{
constexpr double travel         = 46; ///< beyond the largest force [mm]
constexpr double most_off_force = 0.02, most_off_strain = 0.03;

/// Cells of 1 / layers of the thickness, in the bend 1.2 times as long as they are high.
constexpr int series[] = {2, 4, 6};

Case wide(const double width)
{
  Case c           = reference_case();
  c.mesh.dimension = 3;
  c.coupon.width   = width;
  c.ram.stroke     = travel;
  return c;
}

Case cut_into(Case c, const int layers)
{
  c.mesh.layers    = layers;
  c.mesh.cell_size = 1.2 * c.coupon.thickness / layers;
  return c;
}

using Push = std::vector<PassSample>; ///< its steps, the last one still loaded

double largest_force(const Push &push)
{
  double most = 0;
  for (const PassSample &sample : push)
    most = std::max(most, sample.ram_force);
  return most / 1000;
}

struct Figure
{
  const char *name;
  int         decimals;
  double (*of)(const Push &push);
};
const Figure figures[] = {
    {"largest force [kN]", 3, largest_force},
    {"strain at mid-width [-]", 4, [](const Push &p) { return p.back().crown_strain; }},
    {"strain of the edge [-]", 4,
     [](const Push &p) { return p.back().width->edge_strain; }},
    {"curl, convex [mm]", 3, [](const Push &p) { return p.back().width->convex_curl; }},
    {"curl, concave [mm]", 3, [](const Push &p) { return p.back().width->concave_curl; }},
    {"width, convex [mm]", 3, [](const Push &p) { return p.back().width->convex_width; }},
    {"width, concave [mm]", 3,
     [](const Push &p) { return p.back().width->concave_width; }}};
constexpr std::size_t force = 0, edge_strain = 2;

struct Row
{
  std::vector<double> values;
  std::string         text;
};

Row run(const std::string &name, const Case &c)
{
  PassSimulation<3> simulation(set_up(c), MPI_COMM_WORLD);
  simulation.run();
  Push push;
  for (const PassSample &sample : simulation.samples())
    if (sample.kind == StepKind::push)
      push.push_back(sample);
  if (push.empty() || std::abs(push.back().travel - travel) > 1e-6)
  {
    std::fprintf(stderr, "edge_series: %s was not pushed to %g mm of travel\n",
                 name.c_str(), travel);
    std::exit(2);
  }
  Row                      row;
  std::vector<std::string> cells = {name, std::to_string(simulation.model().n_dofs())};
  for (const Figure &figure : figures)
  {
    row.values.push_back(figure.of(push));
    cells.push_back(number_text(row.values.back(), figure.decimals));
  }
  row.text = markdown_row(cells);
  std::printf("%s", row.text.c_str());
  std::fflush(stdout);
  return row;
}
} // namespace

int main(int argc, char **argv)
{
  const dealii::Utilities::MPI::MPI_InitFinalize mpi(argc, argv, 1);
  const char *const   file = argc > 1 ? argv[1] : "edge_series.md";
  std::vector<double> widths;
  for (int i = 2; i < argc; ++i)
    widths.push_back(std::atof(argv[i]));
  if (widths.empty())
    widths = {20, 38};

  std::string text =
      "# Free edges: the mesh\n\nWritten by `edge_series`: reference case R in 3D, 10 mm "
      "thick, at " +
      number_text(travel, 0) +
      " mm of travel, beyond its largest force. Cells of the\nseries shrink in all "
      "directions alike. `limit` is extrapolated from them. Strain: log strain along the "
      "coupon on the\nconvex face, at the edge the largest. Curl: how far the edge stands "
      "beyond the mid-width at the crown, on each face.\nWidth: at the crown, on each "
      "face.\n";
  bool good = true;
  for (const double width : widths)
  {
    const std::string title = number_text(width, 0) + " mm wide";
    std::printf("%s\n", title.c_str());
    text += "\n## " + title + "\n\n| mesh | unknowns |";
    std::string rule = "| --- | --: |";
    for (const Figure &figure : figures)
    {
      text += " " + std::string(figure.name) + " |";
      rule += " --: |";
    }
    text += "\n" + rule + "\n";
    std::array<double, 3> sizes{};
    std::vector<Row>      rows;
    for (std::size_t k = 0; k < 3; ++k)
    {
      sizes[k] = 1. / series[k];
      rows.push_back(
          run(std::to_string(series[k]) + " layers", cut_into(wide(width), series[k])));
      text += rows.back().text;
    }
    const Row                standard = run("default", wide(width));
    std::vector<std::string> limits = {"limit", ""}, off = {"**default, off by**", ""};
    for (std::size_t i = 0; i < std::size(figures); ++i)
    {
      const double limit =
          series_limit(sizes, {rows[0].values[i], rows[1].values[i], rows[2].values[i]})
              .value;
      const double share = standard.values[i] / limit - 1;
      limits.push_back(number_text(limit, figures[i].decimals));
      off.push_back(number_text(100 * share, 1) + " %");
      const double most = i == force         ? most_off_force
                          : i == edge_strain ? most_off_strain
                                             : 1;
      if (!(std::abs(share) <= most))
      {
        std::printf("%s: %s is off by %.1f %%, more than %.0f %%\n", title.c_str(),
                    figures[i].name, 100 * share, 100 * most);
        good = false;
      }
    }
    text += markdown_row(limits) + standard.text + markdown_row(off);
  }
  std::FILE *const out = std::fopen(file, "w");
  if (out == nullptr || std::fputs(text.c_str(), out) < 0 || std::fclose(out) != 0)
  {
    std::fprintf(stderr, "edge_series: cannot write %s\n", file);
    return 2;
  }
  return good ? EXIT_SUCCESS : EXIT_FAILURE;
}
