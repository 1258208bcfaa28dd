#include "inputs/keys/case_entries.h"
#include "inputs/text/input_error.h"
#include "postprocess/app/spread_verb.h"
#include "solver/app/study/study_bench.h"
#include "solver/app/study/study_tasks.h"
#include "solver/study/held_fixture.h"
#include "solver/study/spread_answers.h"

#include <fmt/core.h>

#include <algorithm>

namespace throughbend
{
namespace
{
/// What tells this study from others: the laws, how many and which samples.
std::string question(const SpreadOrder &order, const SpreadDesign &design)
{
  std::string words = fmt::format("{} passes, seed {}:", order.passes, order.seed);
  for (const KeySpread &s : design.spreads)
    words += " " + s.key + " = " +
             (s.follows.empty() ? exact_text(s.law, s.kind) : "as " + s.follows) + ";";
  return words;
}
} // namespace

ExitCode spread_study(const VerbArguments &given, const StudyCase &stated,
                      std::unique_ptr<PassCrew> crew)
{
  const SpreadOrder order = spread_order(given);
  const StudyCase   base  = with_fixture_held(stated);
  SpreadDesign      design =
      spread_design(base, stated.spreads(), order.passes, order.seed, order.study.units);
  StudyBench                     bench(order.study, base, StudyKind::spread, design.keys,
                                       question(order, design), std::move(crew));
  ListPlan                       plan(design.points);
  const StudyEnd                 end = bench.carry_out(plan);
  std::vector<const StudyPass *> passes;
  for (const std::optional<std::size_t> &number : plan.numbers())
    passes.push_back(number ? &bench.passes()[*number] : nullptr);
  const SpreadAnswers answers = spread_answers(design, passes);
  return bench.close(end, spread_json(design, answers),
                     spread_words(design, answers, base.own(), order.study.units),
                     answers.undecided > 0 ? StudyBench::Question::open
                                           : StudyBench::Question::answered);
}
} // namespace throughbend
