#include "inputs/keys/case_text.h"
#include "inputs/keys/option_table.h"
#include "inputs/text/input_error.h"
#include "inputs/text/whole_file.h"
#include "postprocess/app/choose_verb.h"
#include "postprocess/app/today.h"
#include "postprocess/app/version.h"
#include "postprocess/card/bench_card.h"
#include "postprocess/drawing/fixture_drawing.h"
#include "postprocess/runs/pass_sentences.h"
#include "postprocess/words/study/choose_answer.h"
#include "solver/app/study/study_bench.h"
#include "solver/app/study/study_tasks.h"
#include "solver/study/held_fixture.h"
#include "solver/study/statistics/sample_sets.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr std::size_t   most_candidates = 20000, most_corners = 64;
constexpr std::uint64_t sample_seed = 1;

bool is_fixture_key(const std::string &key)
{
  for (const char *section : {"plunger.", "shoulders.", "frame."})
    if (key.rfind(section, 0) == 0)
      return true;
  return false;
}

double difference(const StudyCase &base, const StudyKey &key, const GivenValues &stated)
{
  const double step = base.given_difference(key, stated.step, stated.option);
  if (!(step > 0))
    throw InputError(stated.option + " " + stated.key + ": the step must be above 0.");
  return step;
}

std::vector<double> levels_of(const StudyCase &base, const StudyKey &key,
                              const GivenValues &stated)
{
  std::vector<double> levels;
  for (const std::string &text : stated.list)
    levels.push_back(base.given(key, text, stated.option + " " + stated.key));
  if (stated.is_range)
  {
    const double from = levels[0], to = levels[1];
    if (!(from < to))
      throw InputError(stated.option + " " + stated.key + ": " + stated.list[0] +
                       " must be below " + stated.list[1] + ".");
    levels.clear();
    const double step = stated.even > 0 ? (to - from) / static_cast<double>(stated.even - 1)
                                        : difference(base, key, stated);
    const double count = std::floor((to - from) / step * (1 + 1e-12) + 1e-9);
    if (count > static_cast<double>(most_candidates))
      throw InputError(stated.option + " " + stated.key + ": too many sizes.");
    // Rounded to nanometres, so that a size is written as it was meant: 58.3 mm.
    for (std::size_t i = 0; i <= static_cast<std::size_t>(count); ++i)
      levels.push_back(std::round((from + static_cast<double>(i) * step) * 1e9) / 1e9);
  }
  std::sort(levels.begin(), levels.end());
  levels.erase(std::unique(levels.begin(), levels.end()), levels.end());
  return levels;
}

/// A key of the family: values of a number, or words.
struct FamilyKey
{
  GivenValues         stated;
  std::vector<double> values; ///< ends of a range, or a list; empty: words
};

FamilyCoupon coupon_at(const std::vector<FamilyKey> &family,
                       const std::vector<double>    &place)
{
  FamilyCoupon coupon;
  for (std::size_t i = 0; i < family.size(); ++i)
  {
    const FamilyKey  &key = family[i];
    const std::size_t n   = key.values.empty() ? key.stated.list.size() : key.values.size();
    const auto        pick =
        std::min(n - 1, static_cast<std::size_t>(place[i] * static_cast<double>(n)));
    if (key.values.empty())
    {
      coupon.words.push_back("--" + key.stated.key);
      coupon.words.push_back(key.stated.list[pick]);
    }
    else if (key.stated.is_range)
      coupon.values.push_back(key.values[0] + place[i] * (key.values[1] - key.values[0]));
    else
      coupon.values.push_back(key.values[pick]);
  }
  return coupon;
}

/// Places of all ends of ranges with all members of lists.
std::vector<std::vector<double>> corner_places(const std::vector<FamilyKey> &family)
{
  std::vector<std::vector<double>> places = {{}};
  for (const FamilyKey &key : family)
  {
    const std::size_t n = key.values.empty() ? key.stated.list.size() : key.values.size();
    std::vector<std::vector<double>> longer;
    for (const std::vector<double> &begun : places)
      for (std::size_t k = 0; k < n; ++k)
      {
        longer.push_back(begun);
        longer.back().push_back(key.stated.is_range ? static_cast<double>(k)
                                                    : (static_cast<double>(k) + 0.5) /
                                                          static_cast<double>(n));
      }
    places = std::move(longer);
    if (places.size() > most_corners)
      throw InputError(
          fmt::format("the family has more than {} corners; leave keys out, or "
                      "shorten a list.",
                      most_corners));
  }
  return places;
}

struct GivenChoice
{
  ChoiceReport report;
  std::string  question;
};

GivenChoice given_choice(const ChooseOrder &order, const StudyCase &base)
{
  GivenChoice   stated;
  ChoiceReport &report = stated.report;
  report.goal          = order.goal;
  stated.question      = to_text(order.goal) + fmt::format(", sample {}:", order.sample);
  double candidates    = 1;
  for (const GivenValues &free : order.free)
  {
    if (!is_fixture_key(free.key))
      throw InputError("--free " + free.key +
                       ": only sizes of plunger, shoulders and frame can be chosen.");
    report.keys.free.push_back(base.key(free.key, order.study.units));
    report.space.levels.push_back(levels_of(base, report.keys.free.back(), free));
    candidates *= static_cast<double>(report.space.levels.back().size());
    stated.question += " " + free.key + " =";
    for (const double level : report.space.levels.back())
      stated.question += " " + case_value(report.keys.free.back(), level);
    stated.question += ";";
  }
  if (candidates > static_cast<double>(most_candidates))
    throw InputError(fmt::format("--free: {:.0f} fixtures are too many, at most {}. Take "
                                 "larger steps first.",
                                 candidates, most_candidates));
  std::vector<FamilyKey> family;
  for (const GivenValues &values : order.family)
  {
    if (is_fixture_key(values.key))
      throw InputError("--family " + values.key +
                       ": belongs to the fixture, which all coupons share.");
    const Option *const option = find_option(values.key);
    const bool          words  = option != nullptr &&
                       !std::holds_alternative<NumberSlot>(option->slot) &&
                       !std::holds_alternative<CountSlot>(option->slot);
    FamilyKey key{values, {}};
    if (words && values.is_range)
      throw InputError("--family " + values.key + ": has no range; give a list.");
    if (!words)
    {
      report.keys.family.push_back(base.key(values.key, order.study.units));
      for (const std::string &text : values.list)
        key.values.push_back(
            base.given(report.keys.family.back(), text, "--family " + values.key));
      if (values.is_range && !(key.values[0] < key.values[1]))
        throw InputError("--family " + values.key + ": " + values.list[0] +
                         " must be below " + values.list[1] + ".");
    }
    stated.question += " " + values.key + " =";
    for (const std::string &text : values.list)
      stated.question += " " + text;
    stated.question += values.is_range ? " (range);" : ";";
    family.push_back(key);
  }
  for (const std::vector<double> &place : corner_places(family))
    report.space.corners.push_back(coupon_at(family, place));
  for (const std::vector<double> &place :
       sample_points(order.sample, family.size(), 1, sample_seed))
    report.space.sample.push_back(coupon_at(family, place));
  // What is wrong with words of the family, as a grade that nobody knows, is told at once.
  for (const FamilyCoupon &coupon : report.space.corners)
  {
    const CaseReading reading =
        base.at(report.keys.family, StudyPoint{coupon.values, coupon.words});
    if (!reading.value)
      throw InputError("a coupon of the family is not a valid case:\n" +
                       error_list(reading.errors));
  }
  return stated;
}

/// chosen.ini, chosen.svg, chosen.dxf and chosen-card.html in the study's folder; says
/// where they are.
std::string write_choice(const ChoiceReport &report, const StudyCase &base,
                         const ChooseOrder &order, const std::filesystem::path &folder)
{
  const Case        chosen = *base.at(report.keys.free, {*report.choice.fixture, {}}).value;
  const std::string program = "throughbend " + program_version();
  write_whole_file(folder / "chosen.ini", effective_text(chosen));
  DrawingSubject subject;
  subject.fixture = chosen.fixture;
  subject.coupon  = chosen.coupon;
  subject.title   = "Fixture chosen for a family of coupons";
  subject.rule =
      chosen.fixture.rule.empty() ? "" : "to be compared with " + chosen.fixture.rule;
  subject.rule_used = chosen.fixture.rule.empty()
                          ? "none, sizes chosen by passes"
                          : "none, compare with " + chosen.fixture.rule;
  subject.limits    = chosen_limits(report);
  if (!subject.limits.empty())
    subject.cautions = {
        "Between the passes that were made nothing is proven, and mesh, grease "
        "and plate may differ: leave room to these limits."};
  subject.program = program;
  subject.date    = today();
  subject.units   = order.study.units;
  write_whole_file(folder / "chosen.svg", fixture_drawing(subject));
  write_whole_file(folder / "chosen.dxf", fixture_cad_file(subject));
  BenchCard card;
  card.given     = chosen;
  card.case_file = (folder / "chosen.ini").string();
  card.limits    = case_limits(chosen);
  card.program   = program;
  card.units     = order.study.units;
  write_whole_file(folder / "chosen-card.html", bench_card(card));
  return "\nCase    " + (folder / "chosen.ini").string() + "\nDrawing " +
         (folder / "chosen.svg").string() + "\nCAD     " +
         (folder / "chosen.dxf").string() + "\nCard    " +
         (folder / "chosen-card.html").string() + " (limits by closed forms)\n";
}
} // namespace

ExitCode choose_study(const VerbArguments &given, const StudyCase &as_given,
                      std::unique_ptr<PassCrew> crew)
{
  const ChooseOrder order  = choose_order(given);
  const StudyCase   base   = with_fixture_held(as_given);
  GivenChoice       stated = given_choice(order, base);
  ChoiceReport     &report = stated.report;
  StudyBench bench(order.study, base, StudyKind::choice, report.keys.all(), stated.question,
                   std::move(crew));
  CaseTrials trials(
      base, report.keys, order.goal,
      [&](const std::vector<StudyPoint> &points)
      {
        ListPlan plan(points);
        if (bench.carry_out(plan) == StudyEnd::interrupted)
          throw StudyStopped();
        std::vector<StudyPass> passes;
        for (const std::optional<std::size_t> &number : plan.numbers())
          passes.push_back(bench.passes().at(number.value()));
        return passes;
      },
      [&](const StudyPass &pass)
      { return pass_verdict(pass, shown_in(order.study.units)); });
  try
  {
    report.choice = choose_fixture(report.space, trials, sample_seed);
  }
  catch (const StudyStopped &)
  {
    return bench.close(StudyEnd::interrupted, "", "Nothing is chosen yet.\n",
                       StudyBench::Question::open);
  }
  report.metal_not_known = trials.metal_not_known();
  std::string text       = choice_words(report, order.study.units);
  if (report.choice.fixture)
    text += write_choice(report, base, order, bench.folder());
  return bench.close(StudyEnd::whole, choice_json(report), text,
                     StudyBench::Question::answered);
}
} // namespace throughbend
