// The force curve says where the coupon touches what it should not, and goes on dashed
// beyond the ram's capacity; its words stand on no other words.

#include "postprocess/charts/chart_labels.h"
#include "postprocess/charts/run_charts.h"
#include "postprocess/report/events_table.h"
#include "postprocess/report/report_tables.h"
#include "postprocess/runs/run_events.h"
#include "tests/support/run_fixture.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

using namespace throughbend;

namespace
{
const ReaderUnits metric(UnitSystem::metric);

/// A run that stops at its 4 kN (invented figures).
RunRecord stopped(const std::filesystem::path &folder)
{
  write_run(folder, "t", "t");
  write_text(folder / "travel.csv", "step,kind,travel [mm],ram force [N]\n1,push,10,1500\n"
                                    "2,push,20,3000\n3,push,30,4000\n");
  write_text(folder / "beyond.csv", "step,kind,travel [mm],ram force [N]\n4,push,35,5000\n"
                                    "5,push,40,6000\n6,push,50,100\n");
  RunRecord run = read_run_record(folder);
  run.summary.put("finding.outcome", "over-capacity");
  run.summary.put("key_figures.peak_ram_force_N", 4000);
  run.summary.put("key_figures.peak_ram_force_travel_mm", 30);
  run.summary.put("finding.beyond_capacity.ends", "through");
  run.summary.put("finding.beyond_capacity.force_it_takes_N", 6000);
  run.summary.put("finding.events.0.kind", "leg ironed");
  run.summary.put("finding.events.0.where", "both sides");
  run.summary.put("finding.events.0.from_travel_mm", 22);
  run.summary.put("finding.events.0.to_travel_mm", 30);
  run.summary.put("finding.events.0.ram_force_before_N", 3000);
  run.summary.put("finding.events.0.largest_ram_force_N", 4000);
  run.summary.put("finding.events.0.largest_ram_force_travel_mm", 30);
  run.summary.put("finding.events.0.largest_tool_force_N", 7000);
  return run;
}
} // namespace

TEST_CASE("the force curve goes on dashed beyond the ram, from where it stops, with the "
          "force it takes and the capacity as lines",
          "[report][chart]")
{
  const ScratchFolder scratch;
  RunRecord           run   = stopped(scratch.path() / "pass");
  const auto          chart = force_chart(run, metric);
  REQUIRE(chart.has_value());
  REQUIRE(chart->lines.size() == 2);
  CHECK(chart->lines[0].points.back().second == Approx(4)); // the slider's line ends there
  CHECK(chart->lines[1].look == LineLook::continued);
  CHECK(chart->lines[1].points.front() == chart->lines[0].points.back());
  CHECK(chart->lines[1].points.back().first == Approx(50));
  CHECK(chart->y.high > 6);
  const std::string svg = svg_text(*chart);
  CHECK(has(svg, ">beyond this ram<"));
  CHECK(has(svg, ">it takes 6.00 kN (1.35 kip)<"));
  CHECK(has(svg, ">ram capacity 4.00 kN (0.899 kip)<"));

  run.summary.put("finding.beyond_capacity.ends", "stroke-out");
  CHECK_FALSE(has(svg_text(*force_chart(run, metric)), "it takes"));
  std::filesystem::remove(run.folder / "beyond.csv");
  CHECK(force_chart(run, metric)->lines.size() == 1);
}

TEST_CASE("a pass that needs many times the ram leaves its own curve readable",
          "[report][chart]")
{
  const ScratchFolder scratch;
  const RunRecord     run = stopped(scratch.path() / "pass");
  write_text(run.folder / "beyond.csv",
             "step,kind,travel [mm],ram force [N]\n4,push,35,9000\n"
             "5,push,40,90000\n6,push,50,100\n");
  const auto chart = force_chart(run, metric);
  CHECK(chart->y.high < 13); // three times 4 kN and a little room
  CHECK(chart->lines[1].points.back().second == Approx(9));
  CHECK(has(chart->lines[1].label, "continues above"));
}

TEST_CASE("an event is shaded on the force curve where it happens, and named",
          "[report][chart]")
{
  const ScratchFolder scratch;
  const RunRecord     run   = stopped(scratch.path() / "pass");
  const auto          chart = force_chart(run, ReaderUnits(UnitSystem::us));
  REQUIRE(chart->stretches.size() == 1);
  CHECK(chart->stretches[0].from == Approx(22 / 25.4)); // NIST SP 811 (2008), appendix B.8
  CHECK(chart->stretches[0].to == Approx(30 / 25.4));
  CHECK(has(svg_text(*chart), ">leg ironed, both sides<"));
  CHECK(has(svg_text(*chart), "class=\"stretch\""));
}

TEST_CASE("the table of events says what, where, from where to where and at what force",
          "[report]")
{
  const ScratchFolder scratch;
  RunRecord           run  = stopped(scratch.path() / "pass");
  const std::string   html = events_html(run, metric);
  CHECK(has(html, "<th scope=\"row\">leg ironed</th><td>both sides</td><td>22.0 mm to "
                  "30.0 mm (1.181 in)</td><td>3.00 kN (0.674 kip)</td><td>4.00 kN (0.899 "
                  "kip) at 30.0 mm</td><td>7.00 kN (1.57 kip)</td>"));
  run.summary.remove("finding.events.0.kind");
  CHECK(events_html(run, metric).empty());
}

TEST_CASE("words of a chart stand beside each other, not on each other", "[report][chart]")
{
  ChartLabels                   labels({0, 0, 300, 100});
  const std::vector<LabelPlace> places = {
      {10, 20, "start"}, {290, 20, "end"}, {10, 60, "start"}};
  const LabelPlace first  = labels.put("ram capacity 80.0 kN", 13, places);
  const LabelPlace second = labels.put("over-capacity, peak 80.0 kN", 13, places);
  CHECK(first.y == 20);
  const LabelBox a = ChartLabels::box("ram capacity 80.0 kN", 13, first),
                 b = ChartLabels::box("over-capacity, peak 80.0 kN", 13, second);
  const bool apart =
      a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
  CHECK(apart);
  CHECK(b.left >= 0);
  CHECK(b.right <= 300);
  // A line that crosses the words is worse than a place farther on.
  labels.avoid_line({0, 85, 300, 86});
  CHECK(labels.put("x", 13, {{150, 90, "start"}, {150, 45, "start"}}).y == 45);
}
