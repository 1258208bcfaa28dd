#include "solver/app/push/run_log.h"

#include "inputs/units/display_units.h"
#include "postprocess/words/finding_text.h"

#include <fmt/core.h>

#include <algorithm>

namespace throughbend
{
namespace
{

std::string share_of(const double part, const double whole)
{
  return fmt::format("{:8.3f} s  {:5.1f} %", part, whole > 0 ? 100 * part / whole : 0.);
}
} // namespace

RunLog::RunLog(const std::filesystem::path &file, const Start start) : out_(file, start)
{
  put(start == Start::append ? "" : "throughbend log");
}

void RunLog::resumed(const std::string &when, const int step, const double travel)
{
  put(fmt::format("resumed      {} from the checkpoint after step {} at travel {:.4f} "
                  "mm; later steps above are made again",
                  when, step, travel));
}

void RunLog::put(const std::string &text)
{
  out_.put(text + '\n');
}

void RunLog::origin(const RunOrigin &origin, const std::vector<std::string> &remarks)
{
  put("started      " + origin.started);
  put(fmt::format("case         {}, hash {}", origin.case_source, origin.case_hash));
  put("throughbend  " + origin.version +
      (origin.git_revision.empty() ? ", built outside a checkout"
                                   : ", git " + origin.git_revision));
  for (const auto &[name, version] : origin.libraries)
    put(fmt::format("with         {} {}", name, version));
  put(fmt::format("BLAS         {}, threads: {}", origin.blas, origin.blas_threads));
  for (const std::string &remark : remarks)
    put("remark       " + remark);
}

void RunLog::model(const ModelSize &size)
{
  put(fmt::format("model        {}, {} cells, {} unknowns, ranks: {}", size.model,
                  size.cells, size.dofs, size.ranks));
  put("solver       " + size.solver);
}

void RunLog::step(const PassSample &s)
{
  if (!headed_)
    put("\n step kind     travel   ram force iter refused  angle left  right  outer    "
        "plastic  penetration equilibrium    energy\n                   [mm]        [kN]"
        "                    [deg]  [deg]  strain   strain   [mm]        error [-]   error "
        "[-]");
  headed_ = true;
  put(fmt::format(
      "{:5} {:7} {:8.4f} {:11.4f} {:4} {:7}  {:10.2f} {:6.2f}  {:7.4f}  {:7.4f}  "
      "{:.3e}   {:.3e}   {:.3e}",
      s.step, to_text(s.kind), s.travel, s.ram_force / 1000, s.iterations, s.refusals,
      s.left.angle, s.right.angle, s.outer_strain, s.plastic_strain, s.penetration,
      s.equilibrium_error, s.energy.error));
}

void RunLog::note(const std::string &text)
{
  put("      note: " + text);
}

void RunLog::end(const RunSummary &summary)
{
  put("\n" + finding_text(summary, {}, UnitSystem::metric));
  if (summary.effort)
  {
    const WallTime &wall = summary.effort->wall;
    put(fmt::format("Wall time\n  assembly       {}\n  contact        {}\n"
                    "  factorisation  {}\n  other          {}\n  total          {:8.3f} s",
                    share_of(wall.assembly, wall.total), share_of(wall.contact, wall.total),
                    share_of(wall.factorisation, wall.total),
                    share_of(wall.other(), wall.total), wall.total));
    put(fmt::format("factorisations {}", summary.effort->factorisations));
  }
  put("state        " + to_text(summary.state));
}
} // namespace throughbend
