// How passes end over offsets, frame distances and thicknesses: a table of the finding with
// legs, ends and shoulder forces at its last loaded-tools sample, and a check of what the
// words promise. Nothing is `through` with an end above the last tangent of its shoulder or
// with a shoulder that presses; a ram with a fiftieth more than the force that a pass is
// said to take, its ripple included, pushes it through, one with a fiftieth less does not.
//
//   ending_sweep [TABLE.md] [--part I/N]
//
// The coupon is 3/8 x 1-1/2 x 6-1/2 in in the jig for 3/8 in by yield (AWS D1.1, from
// memory), metal and frame are invented. Exit status 1 when a promise is broken.

#include "meshes/setup/fixture_profiles.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/force_scale.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <algorithm>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <string>

namespace
{
using namespace throughbend;

constexpr double inch = 25.4;

Case jig(double thickness, double offset, double frame_distance)
{
  Case c                            = reference_case();
  c.mesh.level                      = MeshLevel::quick;
  c.coupon                          = {6.5 * inch, 1.5 * inch, thickness, offset};
  c.fixture.plunger                 = {1.5 * inch, 0.75 * inch};
  c.fixture.shoulders.radius        = 0.75 * inch;
  c.fixture.shoulders.opening       = 2.375 * inch;
  c.fixture.shoulders.depth         = 45;
  c.fixture.shoulders.bottom_radius = 5;
  if (frame_distance > 0)
    c.fixture.frame = {frame_distance, 1.5, 1.5, 10, 1};
  c.ram = {71.2e3, 200}; // 8 short tons
  return c;
}

struct Ending
{
  Finding    finding;
  PassSample last;
  bool       good = true;
};

/// Whether what is called through is.
bool is_through_indeed(const Case &c, const PassSample &last)
{
  const double tangent = last_tangent_level(c.fixture.shoulders);
  return std::max(last.left.tip_y, last.right.tip_y) < tangent &&
         std::max(last.tool(tool_at::left_shoulder).normal,
                  last.tool(tool_at::right_shoulder).normal) <= force_scale(c).nothing;
}

Ending push(const Case &c)
{
  PassSimulation<2> simulation(set_up(c), MPI_COMM_SELF);
  Ending            ending;
  ending.finding  = simulation.run();
  const auto &all = simulation.samples();
  ending.last =
      *std::find_if(all.rbegin(), all.rend(),
                    [](const PassSample &s) { return s.kind != StepKind::release; });
  if (ending.finding.outcome == Outcome::through)
    ending.good = is_through_indeed(c, ending.last);
  return ending;
}

std::string row(const Case &c, const Ending &e)
{
  char text[400];
  std::snprintf(
      text, sizeof text,
      "| %.2f | %.2f | %.0f | %s%s | %.1f | %.1f | %.1f / %.1f | %.1f / %.1f | %.2f / %.2f "
      "| "
      "%s |\n",
      c.coupon.thickness, c.coupon.offset, c.fixture.frame.distance,
      to_text(e.finding.outcome).c_str(),
      e.finding.held ? (", " + to_text(*e.finding.held)).c_str() : "", e.finding.travel,
      e.finding.force / 1e3, e.last.left.angle, e.last.right.angle, e.last.left.tip_y,
      e.last.right.tip_y, e.last.tool(tool_at::left_shoulder).normal / 1e3,
      e.last.tool(tool_at::right_shoulder).normal / 1e3,
      e.finding.beyond
          ? (to_text(e.finding.beyond->end) + ", " +
             std::to_string(static_cast<int>(e.finding.beyond->force / 1e3)) + " kN")
                .c_str()
          : "-");
  return text;
}
} // namespace

int main(int argc, char **argv)
{
  dealii::Utilities::MPI::MPI_InitFinalize mpi(argc, argv, 1);
  std::string                              table_file;
  int                                      part = 0, parts = 1;
  for (int i = 1; i < argc; ++i)
    if (std::strcmp(argv[i], "--part") == 0 && i + 1 < argc)
      std::sscanf(argv[++i], "%d/%d", &part, &parts);
    else
      table_file = argv[i];

  std::string table =
      "| thickness [mm] | offset [mm] | frame at [mm] | finding | travel [mm] | "
      "ram [kN] | legs [deg] | ends' height [mm] | shoulders [kN] | with a "
      "stronger ram |\n|--|--|--|--|--|--|--|--|--|--|\n";
  int number = 0, broken = 0, passes = 0;
  for (const double thickness : {0.375 * inch, 10., 0.4375 * inch, 12.})
    for (const double offset : {0., 0.125, 0.25, 0.5, 1., 1.25})
      for (const double frame : {0., 74., 80., 90.})
      {
        if (number++ % parts != part)
          continue;
        const Case   c      = jig(thickness, offset * inch, frame);
        const Ending ending = push(c);
        ++passes;
        if (!ending.good)
        {
          ++broken;
          std::printf("BROKEN: through with an end up or a shoulder that presses\n");
        }
        const std::string line = row(c, ending);
        std::printf("%s", line.c_str());
        std::fflush(stdout);
        table += line;
        if (!ending.finding.beyond || ending.finding.beyond->end != BeyondEnd::through)
          continue;
        for (const double share : {0.98, 1.02})
        {
          // The force is that of a smooth course; the computed one ripples about it.
          const BeyondCapacity &beyond = *ending.finding.beyond;
          Case                  other  = c;
          other.ram.capacity = share * (share > 1 ? beyond.force + beyond.force_band
                                                  : beyond.force - beyond.force_band);
          if (other.ram.capacity <= c.ram.capacity)
            continue;
          const Ending again = push(other);
          ++passes;
          const Outcome expected = share > 1 ? Outcome::through : Outcome::over_capacity;
          if (again.finding.outcome != expected || !again.good)
          {
            ++broken;
            std::printf("BROKEN: a ram of %.1f kN gives %s\n", other.ram.capacity / 1e3,
                        to_text(again.finding.outcome).c_str());
          }
        }
      }
  std::printf("%d passes, %d promises broken\n", passes, broken);
  if (!table_file.empty())
    std::ofstream(table_file) << table;
  return broken > 0 ? 1 : 0;
}
