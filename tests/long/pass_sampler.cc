// Draws valid cases at random over everything a shop could set up, pushes each, and reports
// those that do not end in a physical finding, with the finding's own words. A pass that
// runs longer than the limit counts as one that did not end.
//
//   pass_sampler [--seed S] [--count N] [--part I/N] [--only K] [--limit SECONDS]
//
// --only tells every step of one case and leaves it as sampled_case.ini.
//
// Exit status 1 when more than one in a hundred is undecided.

#include "inputs/keys/case_reader.h"
#include "inputs/keys/case_text.h"
#include "inputs/keys/validation.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <map>
#include <random>
#include <sstream>

namespace
{
using namespace throughbend;

class Draw
{
public:
  explicit Draw(unsigned long seed) : engine_(seed) {}
  double between(double low, double high)
  {
    return std::uniform_real_distribution<double>(low, high)(engine_);
  }
  double scaled(double low, double high) // uniform in the logarithm
  {
    return std::exp(between(std::log(low), std::log(high)));
  }
  bool chance(double share) { return between(0, 1) < share; }

private:
  std::mt19937_64 engine_;
};

Case draw_case(Draw &draw)
{
  Case         c;
  const double t     = draw.scaled(3, 25);
  c.coupon.thickness = t;
  c.coupon.width     = draw.between(20, 50);
  Plunger &plunger   = c.fixture.plunger;
  plunger.width      = draw.between(2, 8) * t;
  plunger.nose_radius =
      draw.chance(0.7) ? plunger.width / 2 : draw.between(0.5, 1) * plunger.width / 2;
  Shoulders &s = c.fixture.shoulders;
  // From half a thickness too tight to two thicknesses of play on each side.
  s.opening = plunger.width + 2 * t * draw.between(0.5, 3);
  s.radius  = draw.between(0.5, 3) * t;
  s.kind    = draw.chance(0.3) ? ShoulderKind::rollers : ShoulderKind::solid;
  if (s.kind == ShoulderKind::rollers)
    s.rollers_turn = draw.chance(0.5);
  s.bottom_radius = 0.3 * t;
  s.depth         = s.radius + s.bottom_radius + draw.between(0, 2) * t;
  c.coupon.offset = draw.chance(0.4) ? 0. : draw.between(0, 6);

  const double least = s.opening + 2 * std::abs(c.coupon.offset);
  c.coupon.length = least + draw.scaled(0.2, 12) * t + draw.between(0, 1) * plunger.width;
  if (draw.chance(0.4))
  {
    Frame &frame          = c.fixture.frame;
    frame.distance        = std::max(s.opening / 2 + s.radius + 1,
                                     c.coupon.length / 2 * draw.between(0.75, 1.1));
    frame.clearance_above = draw.between(0.05, 0.4) * t;
    frame.clearance_below = draw.between(0.05, 0.4) * t;
    frame.plate_thickness = std::max(6., 0.8 * t);
    frame.edge_radius     = std::max(0.5, 0.1 * t);
  }
  c.friction.plunger   = draw.between(0, 0.4);
  c.friction.shoulders = draw.chance(0.1) ? 0. : draw.between(0, 0.4);
  c.friction.frame     = draw.between(0, 0.4);

  Material &m       = c.material;
  m.young           = draw.chance(0.2) ? 70000 : 207000;
  m.poisson         = 0.3;
  m.density         = 7850;
  m.flow.law        = HardeningLaw::voce;
  m.flow.yield      = draw.scaled(150, 900);
  m.flow.saturation = draw.between(0, 1) * m.flow.yield;
  m.flow.rate       = draw.between(5, 20);
  m.flow.hardening  = draw.between(0, 0.6) * m.flow.yield;
  if (draw.chance(0.3))
    c.weld = {draw.between(0.5, 1.5) * t, draw.between(0, 0.8) * t,
              draw.between(-0.3, 0.3) * t, draw.between(0.75, 1.4), draw.between(0.7, 1.)};

  // From a bottle jack too small to a press that never stops: plane-strain bending takes
  // about yield w t^2 / opening.
  const double bending = 1.5 * m.flow.yield * c.coupon.width * t * t / s.opening;
  c.ram.capacity       = bending * draw.scaled(0.5, 100);
  c.ram.stroke         = c.coupon.length / 2 + s.depth + plunger.width;
  if (draw.chance(0.1))
    c.ram.stroke *= draw.between(0.1, 0.9);

  c.solver.residual_tolerance    = 1e-3;
  c.solver.penetration_tolerance = 5e-4;
  c.solver.regularisation        = 1e-4;
  c.solver.step_limit            = 4000;
  c.title                        = "drawn";
  return c;
}

/// Tells every step, for the one case that is looked at.
class Trace : public PassObserver<2>
{
public:
  void step_accepted(const PassView<2> &, const PassSample &s) override
  {
    std::printf(
        "%4d %-7s s %8.4f F %9.3f kN it %2d ref %d legs %6.2f %6.2f tips %7.2f %7.2f walk "
        "%6.3f N %.3g %.3g %.3g frame %.3g %.3g kN depth %.4f energy %.1e\n",
        s.step, to_text(s.kind).c_str(), s.travel, s.ram_force / 1000, s.iterations,
        s.refusals, s.left.angle, s.right.angle, s.left.tip_y, s.right.tip_y, s.walk,
        s.tool(tool_at::plunger).normal / 1000,
        s.tool(tool_at::left_shoulder).normal / 1000,
        s.tool(tool_at::right_shoulder).normal / 1000,
        s.tool(tool_at::left_frame).normal / 1000,
        s.tool(tool_at::right_frame).normal / 1000, s.penetration, s.energy.error);
    std::fflush(stdout);
  }
  void noted(const std::string &line) override { std::printf("     %s\n", line.c_str()); }
};

/// The case as a file that push takes. A value that stands for "not given" cannot be
/// written down, and the reader names its line.
std::string case_file(const Case &c)
{
  std::vector<std::string> lines;
  std::istringstream       in(effective_text(c));
  for (std::string line; std::getline(in, line);)
    lines.push_back(line);
  const auto text = [&]
  {
    std::string all;
    for (const std::string &line : lines)
      all += line + "\n";
    return all;
  };
  for (const CaseError &error : read_case_text(text(), "sampled_case.ini", {}).errors)
    if (error.line > 0)
      lines[error.line - 1] = "# not given: " + error.key;
  return text();
}

Case valid_case(unsigned long seed)
{
  Draw draw(seed);
  for (;;)
  {
    const Case c = draw_case(draw);
    if (find_objections(c).empty())
      return c;
  }
}
} // namespace

int main(int argc, char **argv)
{
  dealii::Utilities::MPI::MPI_InitFinalize mpi(argc, argv, 1);
  unsigned long                            seed  = 1;
  int                                      count = 200, part = 0, parts = 1, only = -1;
  double                                   limit = 120;
  for (int i = 1; i + 1 < argc; i += 2)
  {
    if (std::strcmp(argv[i], "--seed") == 0)
      seed = std::strtoul(argv[i + 1], nullptr, 10);
    else if (std::strcmp(argv[i], "--count") == 0)
      count = std::atoi(argv[i + 1]);
    else if (std::strcmp(argv[i], "--only") == 0)
      only = std::atoi(argv[i + 1]);
    else if (std::strcmp(argv[i], "--limit") == 0)
      limit = std::atof(argv[i + 1]);
    else if (std::strcmp(argv[i], "--part") == 0)
      std::sscanf(argv[i + 1], "%d/%d", &part, &parts);
    else
    {
      std::fprintf(stderr, "pass_sampler: unknown option %s\n", argv[i]);
      return 2;
    }
  }

  int                done = 0, undecided = 0;
  std::map<int, int> outcomes;
  double             worst_energy = 0, worst_balance = 0, worst_depth = 0, seconds = 0;
  for (int k = 0; k < count; ++k)
  {
    if ((only >= 0 && k != only) || k % parts != part)
      continue;
    const Case        c = valid_case(seed * 1000003 + static_cast<unsigned long>(k));
    PassSimulation<2> pass(set_up(c), MPI_COMM_WORLD);
    Trace             trace;
    if (only >= 0)
    {
      std::ofstream("sampled_case.ini") << case_file(c);
      pass.attach(trace);
    }
    const auto start = std::chrono::steady_clock::now();
    pass.stop_when(
        [&]
        {
          return std::chrono::duration<double>(std::chrono::steady_clock::now() - start)
                     .count() > limit;
        });
    const Finding finding = pass.run();
    ++done;
    ++outcomes[static_cast<int>(finding.outcome)];
    const bool lost = finding.outcome == Outcome::undecided;
    undecided += lost;
    double energy = 0, balance = 0, depth = 0;
    for (const PassSample &sample : pass.samples())
    {
      energy  = std::max(energy, sample.energy.error);
      balance = std::max(balance, sample.equilibrium_error);
      depth   = std::max(depth, sample.penetration / c.coupon.thickness);
    }
    worst_energy  = std::max(worst_energy, energy);
    worst_balance = std::max(worst_balance, balance);
    worst_depth   = std::max(worst_depth, depth);
    seconds += pass.counts().seconds;
    std::printf(
        "%s%3d %-13s s=%7.2f F=%8.1f kN  steps %4d jumps %3d refusals %4d its %5d %6.1f s "
        "energy %.1e balance %.1e depth %.1e release %d | %s\n",
        lost ? "LOST " : "     ", k, to_text(finding.outcome).c_str(), finding.travel,
        finding.force / 1000, pass.counts().steps, pass.counts().jumps,
        pass.counts().refusals, pass.counts().iterations, pass.counts().seconds, energy,
        balance, depth, pass.release().completed, finding.evidence.c_str());
    std::fflush(stdout);
  }
  std::printf("%d passes in %.0f s, %d without a physical finding;", done, seconds,
              undecided);
  for (const auto &[outcome, number] : outcomes)
    std::printf(" %s %d", to_text(static_cast<Outcome>(outcome)).c_str(), number);
  std::printf("; worst energy error %.1e, equilibrium %.1e, penetration / thickness %.1e\n",
              worst_energy, worst_balance, worst_depth);
  return undecided * 100 > done ? 1 : 0;
}
