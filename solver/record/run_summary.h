#pragma once
// run.json: what was found in one run, its key figures, what it cost and what it was made
// with. Written when a run starts and again when it ends, so that a killed run still says
// what it was. Plain numbers in, text out; nothing is computed here.

#include "solver/outcome/error_bars.h"
#include "solver/outcome/face_figures.h"
#include "solver/outcome/finding.h"
#include "solver/outcome/flaw_figures.h"
#include "solver/outcome/key_figures.h"
#include "solver/outcome/metal_answer.h"
#include "solver/outcome/tool_loads.h"

#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace throughbend
{
enum class RunState
{
  running,     ///< under way, or killed while it was
  finished,    ///< came to a finding, `undecided` included
  interrupted, ///< stopped by the user, state saved
  failed       ///< ended by an error
};
std::string to_text(RunState state); ///< "running", "finished", ...

/// What the run was made from and with; known at its start.
struct RunOrigin
{
  std::string title;       ///< of the case
  std::string case_source; ///< the case file as the user named it
  std::string case_hash;   ///< of the effective case
  /// Key and value of the effective case: what the pass was made with, whatever becomes of
  /// case.ini.
  std::vector<std::pair<std::string, std::string>> case_values;
  std::string                                      version; ///< of throughbend
  std::string              git_revision; ///< empty when built outside a checkout
  std::string              started;      ///< ISO 8601, UTC
  std::vector<std::string> resumed;      ///< the same, each time that the pass was resumed
  std::string              blas;         ///< which BLAS the program found itself linked to
  int                      blas_threads = 0; ///< threads it may use
  int                      ranks        = 1; ///< MPI ranks
  int                      dimension    = 2; ///< 2 = plane strain, 3
  std::string              model;            ///< "half", "full", "quarter"
  /// Name and version of each library, the compiler among them.
  std::vector<std::pair<std::string, std::string>> libraries;
};

/// Wall time and where it went [s].
struct WallTime
{
  double total         = 0;
  double assembly      = 0; ///< of the coupon's own forces and tangent
  double contact       = 0; ///< tools: closest points, forces, tangent
  double factorisation = 0; ///< and solving
  double other() const { return total - assembly - contact - factorisation; }
};

/// What it cost.
struct RunEffort
{
  long long cells          = 0;
  long long dofs           = 0; ///< unknowns
  int       factorisations = 0;
  WallTime  wall;
};

struct RunSummary
{
  RunState                   state = RunState::running;
  RunOrigin                  origin;
  std::optional<Finding>     finding; ///< each of these is absent until known
  std::optional<Release>     release;
  std::optional<KeyFigures>  figures;
  std::vector<FlawFigures>   flaws; ///< none: the coupon has no flaw
  std::vector<ToolLoad>      tools; ///< what the pass did to shoulders and nose
  std::optional<MetalAnswer> metal;
  std::string strain_remark; ///< where the largest strain is, when not in the bend itself
  std::optional<RunEffort> effort;
  std::optional<ErrorBars> bars; ///< where they were asked for

  std::optional<FaceFigures> face_at_peak; ///< at the largest ram force
  std::optional<FaceFigures> face_at_end;  ///< at the end of the push, loaded
  double      wire_diameter = 0;           ///< tried between nose and coupon [mm]; 0 = none
  std::string failure;                     ///< the error's text when failed
};

std::string summary_text(const RunSummary &summary);
void        write_run_summary(const std::filesystem::path &file, const RunSummary &summary);

/// Now, as ISO 8601 in UTC: 2031-04-05T06:07:08Z.
std::string time_stamp();
} // namespace throughbend
