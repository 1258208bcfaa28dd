#include "solver/record/pass_summary.h"

namespace throughbend
{
void put_pass(RunSummary &summary, const Case &c, const std::optional<Finding> &finding,
              const Release &release, const std::vector<PassSample> &samples,
              const std::vector<SurfaceShot> &faces)
{
  summary.state   = finding ? RunState::finished : RunState::interrupted;
  summary.finding = finding;
  summary.figures = key_figures(samples, c);
  summary.flaws   = flaw_figures(samples, c);
  summary.tools   = tool_loads(c, samples);
  for (const SurfaceShot &shot : faces)
    (shot.moment == Moment::end ? summary.face_at_end : summary.face_at_peak) =
        face_figures(c, shot.rows, shot.travel);
  if (finding)
  {
    std::vector<FaceFigures> seen;
    for (const auto &face : {summary.face_at_peak, summary.face_at_end})
      if (face)
        seen.push_back(*face);
    summary.metal = metal_answer(c, *finding, *summary.figures, seen, summary.flaws);
    summary.strain_remark =
        strain_place_remark(c, *finding, summary.figures->outer_strain_at,
                            summary.figures->outer_strain_travel);
  }
  summary.wire_diameter = c.inspection.wire_diameter;
  if (!samples.empty() && samples.back().kind == StepKind::release)
    summary.release = release;
}
} // namespace throughbend
