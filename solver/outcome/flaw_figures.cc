#include "solver/outcome/flaw_figures.h"

#include <algorithm>

namespace throughbend
{
namespace
{
/// Places of the flaws that the case has, in the order of PassSample::flaws.
std::vector<std::size_t> present(const Flaws &flaws)
{
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < most_flaws; ++i)
    if (flaws.each[i].present())
      places.push_back(i);
  return places;
}
} // namespace

std::vector<FlawFigures> flaw_figures(const std::vector<PassSample> &samples,
                                      const Case                    &given)
{
  std::vector<FlawFigures>       all;
  const std::vector<std::size_t> places = present(given.flaws);
  for (std::size_t k = 0; k < places.size(); ++k)
  {
    const Flaw &flaw = given.flaws.each[places[k]];
    FlawFigures figures;
    figures.name      = flaw_section(places[k]);
    figures.at_convex = flaw.breaks_convex(given.weld);
    figures.limit     = given.inspection.opening_limit;
    double last = flaw.width, last_travel = 0;
    for (const PassSample &sample : samples)
    {
      if (k >= sample.flaws.size())
        continue;
      const FlawGap &gap = sample.flaws[k];
      if (sample.kind == StepKind::release)
      {
        figures.free_opening = gap.opening;
        figures.free_overlap = gap.overlap;
        continue;
      }
      if (gap.opening > figures.opening)
      {
        figures.opening    = gap.opening;
        figures.opening_at = sample.travel;
      }
      figures.overlap = std::max(figures.overlap, gap.overlap);
      if (figures.at_convex && !figures.passed_at && gap.opening > figures.limit)
        figures.passed_at = last >= figures.limit
                                ? last_travel
                                : last_travel + (sample.travel - last_travel) *
                                                    (figures.limit - last) /
                                                    (gap.opening - last);
      last        = gap.opening;
      last_travel = sample.travel;
    }
    all.push_back(figures);
  }
  return all;
}

const char *flaw_remark()
{
  return "No crack grows in this model. The opening is that of a flaw that blunts and "
         "keeps its depth: a lower bound for one that tears further.";
}
} // namespace throughbend
