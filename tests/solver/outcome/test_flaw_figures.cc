// What a record says of a flaw: its largest opening, when it passed the limit, whether its
// lips closed. Samples are invented, the crossing is by hand.

#include "inputs/text/csv_table.h"
#include "postprocess/words/finding_text.h"
#include "solver/outcome/findings.h"
#include "solver/outcome/flaw_figures.h"
#include "solver/record/opening_record.h"
#include "solver/setup/set_up.h"
#include "tests/support/figures.h"
#include "tests/support/reference_case.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
Case flawed()
{
  Case c                     = reference_case();
  c.weld.width               = 8;
  c.weld.bend                = BendKind::root;
  c.flaws.each.front().depth = 2;
  c.inspection.opening_limit = 3;
  return c;
}

PassSample sample(StepKind kind, double travel, FlawGap gap)
{
  PassSample s;
  s.kind   = kind;
  s.travel = travel;
  s.flaws  = {gap};
  return s;
}
} // namespace

TEST_CASE("A flaw's figures: largest opening, and where it passes the limit",
          "[unit][flaw]")
{
  const std::vector<PassSample> samples = {
      sample(StepKind::push, 10, {2, 0}), sample(StepKind::push, 20, {4, 0}),
      sample(StepKind::push, 30, {3.5, 0.02}), sample(StepKind::release, 30, {3.2, 0.01})};
  const auto all = flaw_figures(samples, flawed());
  REQUIRE(all.size() == 1);
  const FlawFigures &flaw = all.front();
  CHECK(flaw.name == "flaw");
  CHECK(flaw.at_convex);
  CHECK(flaw.opening == 4);
  CHECK(flaw.opening_at == 20);
  REQUIRE(flaw.passed_at.has_value());
  CHECK(*flaw.passed_at == Approx(15)); // half way from 2 to 4
  CHECK(flaw.overlap == 0.02);
  REQUIRE(flaw.free_opening.has_value());
  CHECK(*flaw.free_opening == 3.2);
  CHECK(flaw.free_overlap == 0.01);
}

TEST_CASE("The limit is for the convex face: a buried flaw passes none", "[unit][flaw]")
{
  Case c                    = flawed();
  c.flaws.each.front().from = 1;
  const auto all            = flaw_figures({sample(StepKind::push, 10, {5, 0})}, c);
  CHECK_FALSE(all.front().at_convex);
  CHECK_FALSE(all.front().passed_at.has_value());
}

TEST_CASE("A flaw shut by more than the tolerance ends the pass, undecided and named",
          "[unit][flaw]")
{
  const Case c = flawed(); // 10 mm thick: 0.01 mm are tolerated
  CHECK_FALSE(shut_flaw(set_up(c), sample(StepKind::push, 10, {0, 0.0099})).has_value());
  const PassSample shut = sample(StepKind::push, 10, {0, 0.0101});
  CHECK(shut_flaw(set_up(c), shut) == std::optional<std::size_t>(0));
  CHECK_FALSE(shut_flaw(set_up(c), PassSample{}).has_value());
  const Finding finding = decide(set_up(c), {shut}, StopReason::flaw_shut);
  CHECK(finding.outcome == Outcome::undecided);
  CHECK(finding.where == "flaw");
  CHECK(figures(finding.account, Evidence::Measure::room) == std::vector<double>{0.0101});
}

TEST_CASE("run.json and the finding tell a flaw's opening, and that no crack grows",
          "[unit][flaw]")
{
  RunSummary summary;
  CHECK(summary_text(summary).find("flaws") == std::string::npos);
  summary.flaws = flaw_figures(
      {sample(StepKind::push, 10, {2, 0}), sample(StepKind::push, 20, {4, 0})}, flawed());
  const std::string json = summary_text(summary);
  CHECK(json.find("\"largest_opening_mm\": 4") != std::string::npos);
  CHECK(json.find("\"limit_passed_travel_mm\": 15") != std::string::npos);
  CHECK(json.find("No crack grows") != std::string::npos);
  const std::string given = finding_text(summary, "runs/a", UnitSystem::metric);
  // How far open and where, the limit and where it is passed.
  for (const char *figure : {"4.00 mm", "20.0 mm", "3.0 mm", "15.0 mm"})
    CHECK(has(given, figure));
  CHECK(given.find("No crack grows") != std::string::npos);
  CHECK(given.find("opening.csv") != std::string::npos);
}

TEST_CASE("opening.csv has a pair of columns per flaw", "[unit][flaw]")
{
  const ScratchFolder folder;
  Case                c = flawed();
  c.flaws.each[1]       = {FlawLine::left, BendKind::root, 3, 5, 0};
  const auto file       = folder.path() / "opening.csv";
  PassSample two        = sample(StepKind::push, 10, {2, 0});
  two.flaws.push_back({0.5, 0.25});
  OpeningRecord(file, c.flaws).add(two);
  const CsvTable table = CsvTable::read(file);
  CHECK(table.rows() == 1);
  CHECK(table.numbers("flaw opening [mm]").front() == 2);
  CHECK(table.numbers("flaw2 overlap [mm]").front() == 0.25);
}
