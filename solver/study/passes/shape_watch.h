#pragma once
// Watches a pass and keeps the coupon's outline and the tools at a dozen moments, evenly
// along the travel, whatever the travel turns out to be; the last is the last loaded state.

#include "solver/pass/pass_observer.h"
#include "solver/record/tool_file.h"
#include "solver/study/file/study_record.h"

#include <optional>
#include <utility>
#include <vector>

namespace throughbend
{
/// Without points that a straight line between their neighbours passes closer than
/// `tolerance` [mm]; closed, its first point stays.
StudyOutline thinned(const std::string &name, const std::vector<PlaneVector> &line,
                     double tolerance);

/// Moments along a way of unknown length: never more than twice `fewest`, and from then on
/// at least as many, evenly.
class EvenMoments
{
public:
  explicit EvenMoments(std::size_t fewest) : fewest_(fewest) {}

  /// Whether one at this travel [mm] is wanted.
  bool due(double travel) const { return kept_.empty() || travel >= next_; }
  void put(StudyMoment moment);

  const std::vector<StudyMoment> &kept() const { return kept_; }

private:
  std::size_t              fewest_;
  double                   spacing_ = 0.5; ///< [mm]
  double                   next_    = 0;
  std::vector<StudyMoment> kept_;
};

template <int dim>
class ShapeWatch : public PassObserver<dim>
{
public:
  void step_accepted(const PassView<dim> &view, const PassSample &sample) override
  {
    if (sample.kind == StepKind::release)
      return;
    // The outline costs little; which moment is the last is known only at the end.
    last_ = moment(view, sample, moments_.kept().empty());
    if (moments_.due(sample.travel))
      moments_.put(*last_);
  }

  std::vector<StudyMoment> moments() const
  {
    std::vector<StudyMoment> all = moments_.kept();
    if (last_ && (all.empty() || all.back().travel < last_->travel))
      all.push_back(*last_);
    return all;
  }

private:
  static StudyMoment moment(const PassView<dim> &view, const PassSample &sample,
                            const bool is_first)
  {
    constexpr double fine = 0.01; // [mm]
    StudyMoment      now;
    now.travel = sample.travel;
    now.force  = sample.ram_force;
    now.coupon = thinned("coupon", view.probe.outline(view.u), fine);
    for (const RigidTool &tool : view.setup.tools)
    {
      if (!is_first && tool.motion.x == 0 && tool.motion.y == 0)
        continue;
      for (const std::vector<PlaneVector> &outline : outlines_in_place(tool, sample.travel))
      {
        now.tools.push_back(thinned(tool_name(tool.place), outline, fine));
        if (view.model.extent() == Extent::full || tool.place.side == ToolSide::middle)
          continue;
        StudyOutline other = now.tools.back();
        other.name         = tool_name(opposite(tool.place));
        for (double &x : other.x)
          x = -x;
        now.tools.push_back(std::move(other));
      }
    }
    return now;
  }

  EvenMoments                moments_{8};
  std::optional<StudyMoment> last_;
};
} // namespace throughbend
