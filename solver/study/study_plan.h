#pragma once
// What a study wants to know next. Asked whenever a worker is free, told of every pass that
// is done; knows neither threads nor files, so that it is tested with made-up passes.

#include "solver/study/file/study_record.h"
#include "solver/study/study_case.h"

#include <cstddef>
#include <deque>
#include <optional>
#include <vector>

namespace throughbend
{
class StudyPlan
{
public:
  virtual ~StudyPlan() = default;

  /// The next point to push. Nothing: none for now; it is asked again after each pass that
  /// is under way, and the study ends when none is.
  virtual std::optional<StudyPoint> next() = 0;

  /// A pass is done, or was found in the store. `number` counts the passes of the study
  /// from 0. They come in any order.
  virtual void take(const StudyPoint &point, std::size_t number, const StudyPass &pass) = 0;

  /// Passes of this plan in all, made ones included, as far as known now.
  virtual std::size_t planned() const = 0;
};

bool is_same(const StudyPoint &a, const StudyPoint &b); ///< NaN is the same as NaN

/// Points that are all known beforehand: samples, corners.
class ListPlan : public StudyPlan
{
public:
  explicit ListPlan(std::vector<StudyPoint> points);

  std::optional<StudyPoint> next() override;
  void take(const StudyPoint &point, std::size_t number, const StudyPass &pass) override;
  std::size_t planned() const override { return points_.size(); }

  /// Number in the study of the pass of each point; nothing where it was not made.
  const std::vector<std::optional<std::size_t>> &numbers() const { return numbers_; }

private:
  std::vector<StudyPoint>                 points_;
  std::vector<std::optional<std::size_t>> numbers_;
  std::deque<std::size_t>                 under_way_;
  std::size_t                             next_ = 0;
};
} // namespace throughbend
