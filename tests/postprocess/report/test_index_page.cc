// The index of several runs: every run is in it once, under its chapter, with a link that
// finds its own page; and what is said of runs that did not go through.

#include "inputs/text/input_error.h"
#include "postprocess/report/index_figures.h"
#include "postprocess/report/index_page.h"
#include "postprocess/report/report_tables.h"
#include "postprocess/words/finding_advice.h"
#include "tests/support/run_fixture.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

using namespace throughbend;
namespace fs = std::filesystem;

namespace
{
const ReaderUnits metric(UnitSystem::metric);

/// The made-up run with two lines more in its case.
ReportedRun reported(const fs::path &folder, const std::string &title,
                     const std::string &lesson, const std::string &chapter,
                     const Pictures pictures = Pictures::left_out)
{
  write_run(folder, title, "in json");
  const std::string text = content(folder / "case.ini");
  write_text(folder / "case.ini", "[case]\nlesson = " + lesson + "\nchapter = " + chapter +
                                      "\n" + text.substr(std::string("[case]\n").size()));
  ReportOrder order;
  order.index    = "index.html";
  order.pictures = pictures;
  return reported_run(folder.string(), order, metric);
}

/// A run of the reference dimensions (invented figures) that ended as it is told.
RunRecord ended(const std::map<std::string, JsonMember> &summary)
{
  RunRecord run;
  Case      c;
  c.coupon.length                           = 180;
  c.coupon.thickness                        = 12.5;
  c.fixture.plunger.width                   = 40;
  c.fixture.shoulders.opening               = 63.2;
  c.fixture.frame.distance                  = 80;
  c.ram                                     = {};
  c.ram.capacity                            = 80e3;
  c.ram.stroke                              = 120;
  run.known_case                            = c;
  std::map<std::string, JsonMember> members = summary;
  members.insert({{"state", "finished"},
                  {"finding.travel_mm", 58.8},
                  {"finding.ram_force_N", 80000},
                  {"key_figures.peak_ram_force_N", 80000},
                  {"key_figures.peak_ram_force_travel_mm", 58.8},
                  {"key_figures.largest_travel_mm", 60}});
  for (const auto &[path, member] : members)
    run.summary.put(path, member);
  return run;
}
} // namespace

TEST_CASE("an index has every run under its chapter, with its lesson and picture",
          "[report][index]")
{
  const ScratchFolder scratch;
  IndexPage           index(scratch.path() / "index.html", "A class", UnitSystem::metric);
  const auto          add = [&](const char *name, const char *chapter)
  {
    const fs::path folder = scratch.path() / name;
    index.add(
        reported(folder, name, std::string("lesson of ") + name, chapter, Pictures::drawn),
        folder / "report.html");
  };
  add("one", "first");
  add("two", "second");
  add("three", "first");
  const std::string page = index.html();
  CHECK(has(page, "<h1>A class</h1>"));
  CHECK(has(page, "index of 3 runs"));
  CHECK(count(page, "<article class=\"entry\"") == 3);
  CHECK(count(page, "src=\"data:image/png;base64,iVBOR") == 3); // a PNG's first bytes
  CHECK(count(page, "<h2 class=\"chapter\">") == 2);
  const auto at = [&](const std::string &part) { return page.find(part); };
  CHECK(at(">first</h2>") < at("lesson of one"));
  CHECK(at("lesson of one") < at("lesson of three"));
  CHECK(at("lesson of three") < at(">second</h2>"));
  CHECK(at(">second</h2>") < at("lesson of two"));
  for (const char *name : {"one", "two", "three"})
    CHECK(count(page, "href=\"" + std::string(name) + "/report.html\"") == 2);
  CHECK(has(page, "eye protection"));
}

TEST_CASE("no text of a case or path acts in an index", "[report][index]")
{
  const ScratchFolder scratch;
  const std::string   bad    = "</h2></title><script>alert(1)</script>{{runs}}";
  const fs::path      folder = scratch.path() / "a:b c%3f&\"<i>";
  IndexPage           index(scratch.path() / "index.html", bad, UnitSystem::us);
  index.add(reported(folder, bad, bad, bad), folder / "report.html");
  const std::string page = index.html();
  CHECK_FALSE(has(page, "<script>alert"));
  CHECK_FALSE(has(page, "<i>"));
  CHECK(has(page, "href=\"a%3Ab%20c%253f%26%22%3Ci%3E/report.html\"")); // RFC 3986, 2.1
  CHECK(count(page, "<img") == 0);
}

TEST_CASE("links count from the index's folder", "[report][index]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "runs" / "pass";
  fs::create_directories(folder);
  IndexPage index(scratch.path() / "class" / "index.html", "", UnitSystem::metric);
  index.add(reported(folder, "t", "", ""), folder / "report.html");
  const std::string page = index.html();
  CHECK(has(page, "href=\"../runs/pass/report.html\""));
  CHECK(has(page, "<h1>1 pass</h1>"));
  CHECK_FALSE(has(page, "class=\"chapter\""));
  CHECK_FALSE(has(page, "class=\"lesson\""));
}

TEST_CASE("a run says its lesson on its own page", "[report]")
{
  const ScratchFolder scratch;
  CHECK(lesson_html(reported(scratch.path() / "one", "t", "<b> & so", "").run) ==
        "<p class=\"lesson\">&lt;b&gt; &amp; so</p>\n");
}

TEST_CASE("a coupon that is held is told what would free it, jammed or over capacity",
          "[report]")
{
  for (const char *const member : {"finding.jam", "finding.held_by"})
  {
    RunRecord squeezed =
        ended({{"finding.outcome", "over-capacity"}, {member, "squeezed"}});
    // 40 mm + 2 x 12.5 mm; (63.2 mm - 40 mm) / 2.
    CHECK(has(finding_advice(squeezed, metric), "more than 65.0 mm"));
    CHECK(has(finding_advice(squeezed, metric), "less than 11.6 mm"));

    RunRecord hooked = ended({{"finding.outcome", "over-capacity"}, {member, "hooked"}});
    CHECK(has(finding_advice(hooked, metric), "at most 160.0 mm"));
    hooked.known_case->coupon.offset = -3;
    CHECK(has(finding_advice(hooked, metric), "at most 154.0 mm"));
  }
}

TEST_CASE("the advice promises a way through only where the run has found one", "[report]")
{
  const auto advice = [](const std::string &end)
  {
    RunRecord run                    = ended({{"finding.outcome", "over-capacity"},
                                              {"finding.beyond_capacity.ends", end},
                                              {"finding.beyond_capacity.force_it_takes_N", 105000}});
    run.known_case->coupon.thickness = 10; // there is room beside the plunger
    return finding_advice(run, metric);
  };
  CHECK(has(advice("through"), "105 kN (23.6 kip)"));
  for (const std::string end : {"stroke-out", "dropped", "not known"})
  {
    CHECK_FALSE(advice(end).empty());
    CHECK_FALSE(has(advice(end), "105 kN"));
  }
  // The words, once.
  CHECK(has(advice("through"), "a ram that gives more than 105 kN"));
  CHECK(has(advice("stroke-out"), "more stroke and more force"));
  CHECK(has(advice("dropped"), "it drops unbent"));
}

TEST_CASE("the advice names what a coupon that went through still lacks", "[report]")
{
  const auto advice = [](const std::map<std::string, JsonMember> &more)
  {
    std::map<std::string, JsonMember> summary = {{"finding.outcome", "through"},
                                                 {"key_figures.peak_ram_force_N", 20000}};
    summary.insert(more.begin(), more.end());
    return finding_advice(ended(summary), metric);
  };
  CHECK(advice({{"metal.answer", "within"}}).empty());
  CHECK(has(advice({{"metal.answer", "not known"}}), "[weld_metal]"));
  CHECK(has(advice({{"metal.answer", "beyond"}}), "a wider plunger"));
  CHECK(has(advice({{"metal.answer", "beyond"},
                    {"key_figures.peak_outer_strain_remark", "at the toe of the cap"}}),
            "ground flush"));
  CHECK(has(advice({{"metal.answer", "within"}, {"finding.events.0.kind", "bent short"}}),
            "a longer coupon"));
  CHECK(has(advice({{"metal.answer", "within"}, {"finding.events.0.kind", "leg ironed"}}),
            "more than 65.0 mm"));
  // The frame cost the force, whatever the ram had to spare; so did the stroke.
  CHECK(
      has(advice({{"metal.answer", "within"}, {"finding.events.0.kind", "frame touched"}}),
          "ends that lie inside the frame"));
  CHECK(has(advice({{"metal.answer", "within"}, {"key_figures.stroke_margin", 0.014}}),
            "only 1.4 % of the stroke"));
  CHECK(advice({{"metal.answer", "within"}, {"key_figures.stroke_margin", 0.2}}).empty());
}

TEST_CASE("error bars stand among the figures of a run that has them", "[report]")
{
  const auto truth = [](const bool is)
  { return JsonMember(JsonMember::Kind::truth, is ? "true" : "false"); };
  const auto remark = [&](const bool whole)
  {
    std::string text;
    for (const ReportFigure &figure : report_figures(
             ended({{"finding.outcome", "through"},
                    {"error_bars.force_N.numerics.up", 250},
                    {"error_bars.force_N.numerics.whole", truth(true)},
                    {"error_bars.force_N.metal_and_friction.down", -4000},
                    {"error_bars.force_N.metal_and_friction.up", 4500},
                    {"error_bars.force_N.metal_and_friction.whole", truth(whole)}}),
             metric))
      if (figure.name == "error bars of the force")
        text = figure.remark;
    return text;
  };
  CHECK(has(remark(true), "+-0.250 kN"));
  CHECK(has(remark(true), "-4.00 kN"));
  CHECK(has(remark(true), "+4.50 kN"));
  CHECK_FALSE(has(remark(true), "or more"));
  CHECK(has(remark(false), "or more"));
  for (const ReportFigure &figure :
       report_figures(ended({{"finding.outcome", "through"}}), metric))
    CHECK(figure.name != "error bars of the force");
}

TEST_CASE("the force it takes stands among the figures, and what bears it", "[report]")
{
  const auto figures = [](const std::string &end)
  {
    std::string text;
    for (const ReportFigure &figure :
         report_figures(ended({{"finding.outcome", "over-capacity"},
                               {"finding.beyond_capacity.ends", end},
                               {"finding.beyond_capacity.force_it_takes_N", 105000},
                               {"finding.beyond_capacity.largest_shoulder_force_N", 190000},
                               {"finding.beyond_capacity.largest_frame_force_N", 0.},
                               {"key_figures.peak_outer_strain_log", 0.3},
                               {"key_figures.peak_outer_strain_remark",
                                "in a leg while it is ironed"}}),
                        metric))
      text += figure.name + ": " + figure.first + "; " + figure.remark + '\n';
    return text;
  };
  CHECK(has(figures("through"), "takes: 105 kN"));
  CHECK(has(figures("through"), ": 190 kN"));
  CHECK_FALSE(has(figures("through"), "frame plate"));
  CHECK_FALSE(has(figures("stroke-out"), "takes:"));
  CHECK(has(figures("stroke-out"), ": 105 kN"));
  CHECK(has(figures("through"), "log strain 0.300"));
  // The words, once.
  CHECK(has(figures("through"), "force it takes: "));
  CHECK(has(figures("through"), "on one shoulder, at most: "));
  CHECK(has(figures("through"), "log strain 0.300, in a leg while it is ironed"));
  CHECK(has(figures("stroke-out"), "largest ram force followed: "));
}

TEST_CASE("only a coupon that went through has a margin", "[report]")
{
  const auto remark = [](const std::string &outcome, const double force)
  {
    return report_figures(ended({{"finding.outcome", outcome},
                                 {"key_figures.peak_ram_force_N", force}}),
                          metric)
        .front()
        .remark;
  };
  CHECK(has(remark("through", 20000), "margin 75.0 %"));
  CHECK(has(remark("dropped", 20000), "75.0 %"));
  CHECK_FALSE(has(remark("dropped", 20000), "margin"));
  CHECK_FALSE(has(remark("undecided", 20000), "margin"));
  CHECK(has(remark("over-capacity", 80000), "no margin"));
}

TEST_CASE("each outcome has its cure, and a sound pass needs none", "[report]")
{
  for (const std::string outcome : {"over-capacity", "stroke-out", "dropped", "undecided"})
    CHECK_FALSE(finding_advice(ended({{"finding.outcome", outcome}}), metric).empty());
  const auto through = [](const double force)
  {
    return finding_advice(ended({{"finding.outcome", "through"},
                                 {"metal.answer", "within"},
                                 {"key_figures.peak_ram_force_N", force}}),
                          metric);
  };
  CHECK(through(40000).empty());
  CHECK(has(through(72000), "10.0 %"));
  RunRecord unknown = ended({{"finding.outcome", "dropped"}});
  unknown.known_case.reset();
  CHECK(finding_advice(unknown, metric).empty());
}

TEST_CASE("a leg that bends on when it is let go has no springback", "[report]")
{
  const RunRecord run   = ended({{"finding.outcome", "jammed"},
                                 {"release.completed", {JsonMember::Kind::truth, "true"}},
                                 {"release.left_angle_loaded_deg", 1.1},
                                 {"release.right_angle_loaded_deg", 1.1},
                                 {"release.left_angle_free_deg", 1.5},
                                 {"release.right_angle_free_deg", 1.5},
                                 {"release.left_springback_deg", -0.4},
                                 {"release.right_springback_deg", -0.4}});
  std::string     words = "";
  for (const ReportFigure &figure : report_figures(run, metric))
    words += figure.remark + '\n';
  CHECK(has(words, "0.4 deg"));
  CHECK_FALSE(has(words, "-0.4 deg"));
  CHECK(index_figures(run, metric).back().full.empty());
}

TEST_CASE("the index tells left from right, and a half model's sides alike",
          "[report][index]")
{
  RunRecord  run  = ended({{"finding.outcome", "through"},
                           {"made_with.model", "full"},
                           {"key_figures.peak_outer_strain_log", std::log1p(0.31)},
                           {"key_figures.nominal_elongation", 0.2},
                           {"key_figures.peak_outer_strain_position_mm", -1.9},
                           {"key_figures.largest_walk_mm", 1.77},
                           {"release.completed", {JsonMember::Kind::truth, "true"}},
                           {"release.left_springback_deg", 1.62},
                           {"release.right_springback_deg", 1.48}});
  const auto full = [&](const std::size_t i) { return index_figures(run, metric)[i].full; };
  CHECK(has(full(1), "31.0 %, 1.9 mm left"));
  CHECK(has(full(1), "20.0 %"));
  CHECK(has(full(2), "1.77 mm (0.070 in)"));
  CHECK(has(full(2), "right"));
  CHECK(full(3) == "1.6 deg left, 1.5 deg right");
  run.summary.put("made_with.model", "half");
  run.summary.put("release.left_springback_deg", 1.61);
  run.summary.put("release.right_springback_deg", 1.61);
  CHECK(has(full(1), "1.9 mm"));
  CHECK_FALSE(has(full(1), "left"));
  CHECK(full(2).empty());
  CHECK(full(3) == "1.6 deg on either side");    // the words, once
  run.summary.put("finding.outcome", "dropped"); // before it was a U
  run.summary.put("release.left_angle_loaded_deg", 31.);
  CHECK(full(3).empty());
  for (const ReportFigure &figure : report_figures(run, metric))
    CHECK_FALSE(has(figure.name, "leg, loaded"));
}

TEST_CASE("the largest stretch of a body is told first, and the mid-width beside it",
          "[report][index]")
{
  RunRecord run = ended({{"finding.outcome", "through"},
                         {"key_figures.peak_outer_strain_log", std::log1p(0.249)},
                         {"key_figures.peak_outer_strain_position_mm", 1},
                         {"across_the_width.peak_face_strain_log", std::log1p(0.319)},
                         {"across_the_width.peak_face_strain_position_mm", 2.5},
                         {"across_the_width.peak_face_strain_from_mid_width_mm", 19}});
  for (const bool older : {true, false}) // format 1.0 does not have the member
  {
    INFO(older);
    if (!older)
      run.summary.put("key_figures.peak_face_strain_log", std::log1p(0.319));
    const IndexFigure figure = index_figures(run, metric)[1];
    CHECK(figure.brief == "31.9 %");
    for (const char *words :
         {"31.9 %, 2.5 mm", "19.0 mm from the mid-width", "24.9 % at mid-width"})
    {
      INFO(figure.full);
      CHECK(has(figure.full, words));
    }
    std::string text;
    for (const ReportFigure &one : report_figures(run, metric))
      text += one.name + ": " + one.first + "; ";
    CHECK(has(text, "largest elongation of the convex face: 31.9 %"));
    CHECK(has(text, "the same at mid-width: 24.9 %"));
  }
}

TEST_CASE("the index tells the flaw that gapes most, and none without flaws",
          "[report][index]")
{
  RunRecord  run  = ended({{"finding.outcome", "through"},
                           {"flaws.flaw.largest_opening_mm", 1.57},
                           {"flaws.flaw.opening_limit_mm", 3},
                           {"flaws.flaw2.largest_opening_mm", 3.36},
                           {"flaws.flaw2.opening_limit_mm", 3}});
  const auto both = flaw_opening(run, metric);
  REQUIRE(both.has_value());
  CHECK(has(both->full, "3.36 mm (0.132 in), past"));
  CHECK(has(both->full, "3.0 mm"));
  run.summary.remove("flaws.flaw2.largest_opening_mm");
  CHECK(has(flaw_opening(run, metric)->full, "1.57 mm (0.062 in), within"));
  CHECK_FALSE(flaw_opening(ended({{"finding.outcome", "through"}}), metric).has_value());
}
