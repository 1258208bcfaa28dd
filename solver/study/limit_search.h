#pragma once
// Where a condition changes along a key: a coarse scan, then every interval whose ends
// differ cut in three until it is narrow enough. Nothing is taken for monotone. Which
// points are pushed depends on what they gave alone, not on how many workers there are.

#include "solver/study/study_condition.h"
#include "solver/study/study_plan.h"

#include <map>
#include <optional>
#include <vector>

namespace throughbend
{
/// Values along one key, in units that a person writes [as the key is shown].
struct LimitRange
{
  double      from = 0, to = 0;  ///< from < to
  double      within        = 0; ///< how far the two sides of a change may be apart, > 0
  std::size_t scan          = 9; ///< places of the first look, both ends among them, >= 2
  bool        whole_numbers = false;
};

struct LimitPlace
{
  double      value = 0; ///< as the range
  std::size_t pass  = 0; ///< number in the study
  Meets       meets = Meets::not_known;
};

struct LimitChange
{
  LimitPlace  below, above;  ///< both decided; they differ
  std::size_t undecided = 0; ///< passes between them that are on neither side
};

/// One key. Knows values only.
class LimitSearch
{
public:
  explicit LimitSearch(const LimitRange &range);

  std::optional<double> next();
  void                  take(double value, std::size_t pass, Meets meets);
  std::size_t           planned() const;

  std::vector<LimitChange> changes() const;
  std::vector<LimitPlace>  undecided() const;
  std::vector<LimitPlace>  places() const; ///< in the order of values

private:
  struct State
  {
    bool        asked = false, known = false;
    std::size_t pass  = 0;
    Meets       meets = Meets::not_known;
  };
  double tidy(double value) const;
  void   add(double low, double high, double value);
  void   refine();
  void   go_round_undecided();

  LimitRange              range_;
  double                  quantum_ = 0; ///< 10^-digits: values are multiples of it
  std::map<double, State> states_;
};

/// One search a key, each from the case as it is.
class LimitPlan : public StudyPlan
{
public:
  LimitPlan(std::vector<StudyKey> keys, const std::vector<LimitRange> &ranges,
            StudyCondition condition);

  std::optional<StudyPoint> next() override;
  void take(const StudyPoint &point, std::size_t number, const StudyPass &pass) override;
  std::size_t planned() const override;

  const std::vector<LimitSearch> &searches() const { return searches_; }

private:
  struct UnderWay
  {
    StudyPoint  point;
    std::size_t search = 0;
    double      value  = 0; ///< as the range has it
  };
  std::vector<StudyKey>    keys_;
  StudyCondition           condition_;
  std::vector<UnderWay>    under_way_;
  std::vector<LimitSearch> searches_;
};
} // namespace throughbend
