#include "inputs/text/input_error.h"
#include "postprocess/app/limit_order.h"
#include "postprocess/words/study/limit_answer.h"
#include "solver/app/study/study_bench.h"
#include "solver/app/study/study_tasks.h"
#include "solver/study/held_fixture.h"

namespace throughbend
{
namespace
{
LimitRange given_range(const StudyCase &base, const StudyKey &key,
                       const LimitOrder::Vary &vary, const std::size_t scan)
{
  LimitRange range;
  range.from          = base.given(key, vary.from, "--from") / key.scale;
  range.to            = base.given(key, vary.to, "--to") / key.scale;
  range.whole_numbers = is_count(key);
  range.scan          = scan;
  if (range.from >= range.to)
    throw InputError("--vary " + vary.key + ": --from " + vary.from +
                     " must be below --to " + vary.to + ".");
  range.within = vary.within.empty()
                     ? (range.to - range.from) / 100
                     : base.given_difference(key, vary.within, "--within") / key.scale;
  if (range.within <= 0 || range.within > range.to - range.from)
    throw InputError("--within " + vary.within + ": above 0, and no more than the range.");
  return range;
}

/// Both ends must be cases, before anything is pushed.
void check_ends(const StudyCase &base, const StudyKey &key, const LimitRange &range)
{
  for (const double end : {range.from, range.to})
  {
    const CaseReading reading = base.at({key}, {{inside_value(key, end)}});
    if (!reading.value)
      throw InputError("at " + key.key + " = " +
                       written_value(key, inside_value(key, end)) +
                       " the case cannot be used:\n" + error_list(reading.errors));
  }
}
} // namespace

ExitCode limit_study(const VerbArguments &given, const StudyCase &stated,
                     std::unique_ptr<PassCrew> crew)
{
  StudyCase base = with_fixture_held(stated);
  base.hold_frame();
  const LimitOrder        order = limit_order(given);
  const StudyCondition    condition(order.until);
  std::vector<StudyKey>   keys;
  std::vector<LimitRange> ranges;
  std::string             question = "until " + condition.text();
  for (const LimitOrder::Vary &vary : order.vary)
  {
    keys.push_back(base.key(vary.key, order.study.units));
    ranges.push_back(given_range(base, keys.back(), vary, order.scan));
    check_ends(base, keys.back(), ranges.back());
    question += "; " + vary.key + " from " +
                written_value(keys.back(), inside_value(keys.back(), ranges.back().from)) +
                " to " +
                written_value(keys.back(), inside_value(keys.back(), ranges.back().to));
  }
  StudyBench bench(order.study, base, StudyKind::limit, keys, question, std::move(crew));
  LimitPlan  plan(keys, ranges, condition);
  const StudyEnd end = bench.carry_out(plan);

  std::vector<KeyLimit> limits;
  auto                  open = StudyBench::Question::answered;
  for (std::size_t i = 0; i < keys.size(); ++i)
  {
    const LimitSearch &search = plan.searches()[i];
    limits.push_back({keys[i], ranges[i], search.changes(), search.places(),
                      search.undecided(),
                      check_along(base, keys[i], ranges[i].from * keys[i].scale,
                                  ranges[i].to * keys[i].scale)});
    if (is_open(limits.back()))
      open = StudyBench::Question::open;
  }
  return bench.close(end, limit_json(limits, condition, bench.passes()),
                     limit_text(limits, condition, bench.passes(), base, order.study.units),
                     open);
}
} // namespace throughbend
