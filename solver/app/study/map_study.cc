#include "inputs/text/input_error.h"
#include "postprocess/app/map_order.h"
#include "postprocess/words/study/map_answer.h"
#include "solver/app/study/study_bench.h"
#include "solver/app/study/study_tasks.h"
#include "solver/study/held_fixture.h"
#include "solver/study/rule_range.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
std::vector<double> levels_of(const StudyCase &base, const StudyKey &key,
                              const GivenLevels &stated)
{
  std::vector<double> levels;
  for (const std::string &text : stated.list)
    levels.push_back(base.given(key, text, stated.option));
  if (stated.even > 0)
  {
    if (levels[0] >= levels[1])
      throw InputError(stated.option + " " + stated.key + ": " + stated.list[0] +
                       " must be below " + stated.list[1] + ".");
    levels = even_levels(key, levels[0], levels[1], stated.even);
  }
  std::sort(levels.begin(), levels.end());
  levels.erase(std::unique(levels.begin(), levels.end()), levels.end());
  return levels;
}

/// Every corner must be a case, before anything is pushed.
void check_corners(const StudyCase &base, const MapAnswer &map)
{
  for (unsigned corner = 0; corner < 1u << map.keys.size(); ++corner)
  {
    StudyPoint  point;
    std::string words;
    for (std::size_t d = 0; d < map.keys.size(); ++d)
    {
      point.values.push_back((corner >> d & 1) != 0 ? map.levels[d].back()
                                                    : map.levels[d].front());
      words += (d == 0 ? "" : ", ") + map.keys[d].key + " = " +
               written_value(map.keys[d], point.values.back());
    }
    const CaseReading reading = base.at(map.keys, point);
    if (!reading.value)
      throw InputError("at " + words + " the case cannot be used:\n" +
                       error_list(reading.errors));
  }
}
} // namespace

ExitCode map_study(const VerbArguments &given, const StudyCase &stated,
                   std::unique_ptr<PassCrew> crew)
{
  StudyCase base = with_fixture_held(stated);
  base.hold_frame();
  const MapOrder order = map_order(given);
  MapAnswer      map;
  map.fill = order.fill;
  std::string question;
  for (const GivenLevels &axis : order.levels)
  {
    map.keys.push_back(base.key(axis.key, order.study.units));
    map.levels.push_back(levels_of(base, map.keys.back(), axis));
    map.rule.push_back(rule_range(base.own(), axis.key));
    question += (question.empty() ? "" : "; ") + axis.key + " =";
    for (const double level : map.levels.back())
      question += " " + written_value(map.keys.back(), level);
  }
  if (order.fill == MapFill::borders)
    question += "; refined";
  check_corners(base, map);

  StudyBench bench(order.study, base, StudyKind::map, map.keys, question, std::move(crew));
  MapPlan    plan(map.levels, map.fill);
  const StudyEnd end = bench.carry_out(plan);
  const bool     any_undecided =
      std::any_of(bench.passes().begin(), bench.passes().end(),
                  [](const StudyPass &pass) { return pass.outcome == "undecided"; });
  return bench.close(end, map_json(map), map_text(map, plan, bench.passes()),
                     any_undecided ? StudyBench::Question::open
                                   : StudyBench::Question::answered);
}
} // namespace throughbend
