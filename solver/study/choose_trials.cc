#include "solver/study/choose_trials.h"

#include "inputs/catalogue/rule_choice.h"
#include "inputs/keys/case_text.h"
#include "inputs/text/plain_text.h"
#include "solver/screening/screen_parts.h"
#include "solver/study/file/pass_mark.h"
#include "solver/study/held_fixture.h"
#include "solver/study/study_condition.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace throughbend
{
namespace
{
std::string objection_in(const ScreenSection &section)
{
  for (const ScreenLine &line : section.lines)
    if (line.verdict == Verdict::no)
      return "check says no to " + line.quantity;
  return "";
}

/// A coupon that loses its support before it is a U goes through, too: as a V. Where check
/// is not sure of the U, the widest opening, which takes the least force, is no choice.
std::string objection_to_length(const Case &c)
{
  const ScreenSection section = screen_length(c);
  for (const ScreenLine &line : section.lines)
    if (line.key == "length_needed" && line.verdict == Verdict::close)
      return "check is not sure that the coupon is long enough for a full U";
  return objection_in(section);
}

/// The first dimension that the rule does not have, or the metal it is not for.
std::string rule_objection(const Case &c)
{
  if (c.fixture.rule.empty())
    return "";
  const RuleComparison rule = compare_with_rule(built_in_rules(), c.fixture.rule, c);
  for (const ComparisonRow &row : rule.rows)
    if (row.agreement == Agreement::no)
      return "rule " + c.fixture.rule + ", " + row.words +
             (row.remark.empty() ? "" : ": " + row.remark);
  if (!rule.by_rule.rule.thickness.takes(c.coupon.thickness))
    return "rule " + c.fixture.rule +
           ", thickness: " + rule.by_rule.rule.thickness.both_texts();
  return "";
}

double figure(const StudyPass &pass, const std::string &name)
{
  const auto found = pass.figures.find(name);
  return found == pass.figures.end() ? std::numeric_limits<double>::quiet_NaN()
                                     : found->second;
}

double margin_of(const double used, const double rated)
{
  return rated > 0 ? 1 - used / rated : std::numeric_limits<double>::infinity();
}
} // namespace

std::vector<StudyKey> ChoiceKeys::all() const
{
  std::vector<StudyKey> keys = free;
  keys.insert(keys.end(), family.begin(), family.end());
  return keys;
}

CaseTrials::CaseTrials(const StudyCase &base, ChoiceKeys keys, const ChoiceGoal goal,
                       PassesOf passes, VerdictOf verdict)
    : base_(base), keys_(std::move(keys)), goal_(goal), passes_(std::move(passes)),
      verdict_(std::move(verdict))
{
}

StudyPoint CaseTrials::point(const FixtureTrial &trial) const
{
  StudyPoint point;
  point.values = trial.fixture;
  point.values.insert(point.values.end(), trial.coupon.values.begin(),
                      trial.coupon.values.end());
  point.words = trial.coupon.words;
  hold_opening(base_.own(), keys_.all(), point);
  return point;
}

Screened CaseTrials::screen(const FixtureTrial &trial)
{
  const CaseReading reading = base_.at(keys_.all(), point(trial));
  if (!reading.value)
    return {"no case: " + reading.errors.front().problem, 0};
  const Case &c = *reading.value;
  // Cheap ones first: the beam behind the force takes some milliseconds.
  for (const std::string &objection :
       {objection_in(screen_fit(c, {})), rule_objection(c), objection_to_length(c)})
    if (!objection.empty())
      return {objection, 0};
  const std::string hash = case_hash(c);
  if (const auto known = known_.find(hash); known != known_.end())
    return known->second;
  const ForceBand band = force_band(c);
  Screened        screened;
  for (const std::string &objection :
       {objection_in(screen_force(c, band)), objection_in(screen_strain(c, band)),
        objection_in(screen_jack(c, band)), objection_in(screen_tools(c, band))})
    if (screened.objection.empty())
      screened.objection = objection;
  screened.best       = goal_ == ChoiceGoal::least_force
                            ? -band.peak.force.low
                            : margin_of(band.peak.force.low, c.ram.capacity);
  return known_[hash] = screened;
}

Judged CaseTrials::judged(const Case &c, const StudyPass &pass) const
{
  Judged       judged;
  const double force = figure(pass, "peak_ram_force_N");
  judged.good =
      is_sound(pass) && !is_close(pass) && pass.metal != "beyond" && std::isfinite(force);
  judged.score = -std::numeric_limits<double>::infinity();
  if (std::isfinite(force))
  {
    judged.score = -force;
    if (goal_ == ChoiceGoal::most_margin)
    {
      judged.score = std::min(margin_of(force, c.ram.capacity),
                              margin_of(figure(pass, "largest_travel_mm"), c.ram.stroke));
      if (c.material.elongation > 0)
        judged.score =
            std::min(judged.score, margin_of(figure(pass, "peak_face_elongation"),
                                             c.material.elongation));
    }
  }
  if (!judged.good)
  {
    judged.words = clipped(verdict_(pass), 160);
    if (pass.outcome == "through" && pass.metal == "beyond")
      judged.words = "stretch beyond what the metal bears: " + judged.words;
    else if (pass.outcome == "through" && pass.accuracy != "sound" && pass.events.empty())
      judged.words = "figures of low accuracy: " + judged.words;
    else if (is_sound(pass) && is_close(pass))
      judged.words = "through, but close to another finding: " + judged.words;
  }
  return judged;
}

std::vector<Judged> CaseTrials::push(const std::vector<FixtureTrial> &trials)
{
  std::vector<StudyPoint> points;
  for (const FixtureTrial &trial : trials)
    points.push_back(point(trial));
  const std::vector<StudyPass> passes = passes_(points);
  std::vector<Judged>          all;
  for (std::size_t i = 0; i < trials.size(); ++i)
  {
    const Case c = *base_.at(keys_.all(), points[i]).value;
    all.push_back(judged(c, passes[i]));
    if (all.back().good && passes[i].metal != "within")
      metal_not_known_.insert(case_hash(c));
  }
  return all;
}
} // namespace throughbend
