// The lesson's questions are worked out from a made-up run (invented figures); the sheet
// for the class must not tell an answer, and no question is asked that the run cannot
// answer.

#include "inputs/text/input_error.h"
#include "postprocess/lesson/lesson_pages.h"
#include "postprocess/lesson/lesson_picture.h"
#include "postprocess/lesson/lesson_questions.h"
#include "postprocess/shapes/face_point.h"
#include "tests/support/run_fixture.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
const ReaderUnits metric(UnitSystem::metric);

/// A finished pass whose title tells the answer.
ReportedRun reported_pass(const std::filesystem::path &folder,
                          const std::string           &friction = "0.12")
{
  write_run(folder, "it goes through <b>", "it goes through <b>");
  write_text(
      folder / "case.ini",
      "[case]\ntitle = it goes through <b>\nlesson = tells the answer\n[coupon]\n"
      "length = 160 mm\nwidth = 38 mm\nthickness = 10 mm\n[material]\nlaw = linear\n"
      "yield = 250 MPa\nhardening = 1000 MPa\n[plunger]\nwidth = 40 mm\n[shoulders]\n"
      "radius = 20 mm\nopening = 63.2 mm\n[friction]\nshoulders = " +
          friction + "\nplunger = 0.12\n[ram]\ncapacity = 4 kN\nstroke = 60 mm\n");
  write_text(
      folder / "travel.csv",
      "step,kind,travel [mm],ram force [N],left leg angle [deg],right leg angle [deg]\n"
      "1,push,10,500,20,20\n2,push,20,2000,50,50\n3,push,30,600,90,90\n");
  ReportedRun reported;
  reported.run   = read_run_record(folder);
  const auto put = [&](const char *name, double value)
  { reported.run.summary.put(std::string("key_figures.") + name, value); };
  put("peak_outer_elongation", 0.2345);
  put("peak_outer_strain_position_mm", -1);
  put("peak_outer_strain_travel_mm", 20);
  put("nominal_elongation", 0.2);
  put("capacity_margin", 0.5);
  reported.shapes = read_pass_shapes(folder, ModelPart::whole);
  return reported;
}

const LessonQuestion *with(const std::vector<LessonQuestion> &all, const std::string &words)
{
  for (const LessonQuestion &q : all)
    if (q.heading.find(words) != std::string::npos)
      return &q;
  return nullptr;
}

LessonOrder order_of(UnitSystem units)
{
  LessonOrder order;
  order.title = "Bending <week> 3";
  order.units = units;
  return order;
}
} // namespace

TEST_CASE("answers are those of the run", "[report][lesson]")
{
  const ScratchFolder scratch;
  const ReportedRun   reported = reported_pass(scratch.path() / "pass");
  const auto          all      = pass_questions(reported, metric, Asked::everything);
  const auto         *force    = with(all, "Sketch the ram force");
  REQUIRE(force != nullptr);
  CHECK_THAT(force->answer, Contains("2.00 kN (0.450 kip), at 20.0 mm"));
  // By hand, between the rows: 1000 N lie a third of the way from 500 to 2000 N (13.3 mm),
  // and 1000/1400 of that from 2000 to 600 N (27.1 mm). 85 deg are 35/40 of 50 to 90 deg.
  CHECK_THAT(force->answer, Contains("reached at 13.3 mm"));
  CHECK_THAT(force->answer, Contains("again at 27.1 mm"));
  CHECK_THAT(force->answer, Contains("Both legs stand at 85 deg from 28.8 mm"));
  CHECK(force->picture.find("<path d=\"M") == std::string::npos); // axes without the curve

  const auto *stretch = with(all, "convex face");
  REQUIRE(stretch != nullptr);
  CHECK_THAT(stretch->answer, Contains("23.4 %, 1.0 mm (0.039 in) left of the middle"));
  CHECK_THAT(stretch->answer, Contains("20.0 %; the largest stretch is 1.17 times"));
  CHECK(stretch->picture.find("class=\"mark\"") == std::string::npos);
  const auto *finding = with(all, "go through");
  REQUIRE(finding != nullptr);
  CHECK_THAT(finding->answer, Contains("THROUGH: clear after 30.0 mm"));
  CHECK_THAT(finding->answer, Contains("1.6 mm (0.063 in) of room")); // (63.2 - 40)/2 - 10
  CHECK_THAT(finding->answer, Contains("50.0 % of the ram"));
}

TEST_CASE("of a body the mid-width is called so, and the edges are told",
          "[report][lesson]")
{
  const ScratchFolder scratch;
  ReportedRun         reported = reported_pass(scratch.path() / "pass");
  reported.run.summary.put("across_the_width.peak_face_strain_log", std::log1p(0.3));
  const auto        all     = pass_questions(reported, metric, Asked::everything);
  const auto *const stretch = with(all, "convex face");
  REQUIRE(stretch != nullptr);
  CHECK_THAT(stretch->answer, Contains("At mid-width the largest stretch is 23.4 %") &&
                                  Contains("that at mid-width is 1.17 times") &&
                                  Contains("free edges, the face is stretched by up to "
                                           "30.0 %"));
  CHECK_THAT(stretch->answer, !Contains("The largest stretch"));
}

TEST_CASE("a ram that ran out is no largest force of the coupon, and left nothing over",
          "[report][lesson]")
{
  const ScratchFolder scratch;
  ReportedRun         reported = reported_pass(scratch.path() / "pass");
  reported.run.summary.put("finding.outcome", "over-capacity");
  reported.run.summary.put("finding.beyond_capacity.ends", "through");
  reported.run.summary.put("finding.beyond_capacity.force_it_takes_N", 6000);
  const auto all = pass_questions(reported, metric, Asked::everything);
  CHECK_THAT(with(all, "Sketch the ram force")->answer,
             Contains("That is all the ram has") && Contains("takes 6.00 kN"));
  CHECK_THAT(with(all, "go through")->answer, !Contains("was not needed"));
  ReportedRun dry = reported_pass(scratch.path() / "dry", "0.35");
  CHECK_THAT(change_question(dry.run, reported.run, "A", "B", metric)->answer,
             Contains("not what the coupon takes"));
}

TEST_CASE("the rule of thumb is not held against a coupon that was hardly bent",
          "[report][lesson]")
{
  const ScratchFolder scratch;
  ReportedRun         reported = reported_pass(scratch.path() / "pass");
  reported.run.summary.put("key_figures.peak_outer_elongation", 0.02);
  const auto  all     = pass_questions(reported, metric, Asked::everything);
  const auto *stretch = with(all, "convex face");
  REQUIRE(stretch != nullptr);
  CHECK_THAT(stretch->answer, !Contains("times as much"));
  CHECK_THAT(stretch->answer, Contains("20.0 %, for a face that lies around the nose: "
                                       "this coupon was bent less."));
}

TEST_CASE("what a run cannot answer is not asked", "[report][lesson]")
{
  const ScratchFolder scratch;
  ReportedRun         reported = reported_pass(scratch.path() / "pass");
  CHECK(with(pass_questions(reported, metric, Asked::everything), "spring back") ==
        nullptr);
  CHECK(with(pass_questions(reported, metric, Asked::everything), "zone") == nullptr);
  reported.run.summary.put("release.completed",
                           JsonMember(JsonMember::Kind::truth, "true"));
  for (const std::string side : {"left", "right"})
  {
    reported.run.summary.put("release." + side + "_angle_loaded_deg", 88);
    reported.run.summary.put("release." + side + "_angle_free_deg", 86.5);
    reported.run.summary.put("release." + side + "_springback_deg", 1.5);
  }
  const auto  all  = pass_questions(reported, metric, Asked::everything);
  const auto *back = with(all, "spring back");
  REQUIRE(back != nullptr);
  CHECK_THAT(back->answer, Contains("springs back by 1.5 deg"));
  // A hooked coupon that hardly bends: its legs rise when it is let go.
  for (const std::string side : {"left", "right"})
  {
    reported.run.summary.put("release." + side + "_angle_loaded_deg", 1);
    reported.run.summary.put("release." + side + "_angle_free_deg", 1.4);
    reported.run.summary.put("release." + side + "_springback_deg", -0.4);
  }
  CHECK(with(pass_questions(reported, metric, Asked::everything), "spring back") ==
        nullptr);
  reported.run.summary.put("key_figures.peak_outer_strain_position_mm",
                           std::numeric_limits<double>::quiet_NaN());
  CHECK(with(pass_questions(reported, metric, Asked::everything), "convex") == nullptr);
}

TEST_CASE("the zone that gives is the one that the run stretched most", "[report][lesson]")
{
  const ScratchFolder scratch;
  ReportedRun         reported                 = reported_pass(scratch.path() / "pass");
  reported.run.known_case->weld.width          = 12;
  reported.run.known_case->weld.haz_width      = 3;
  reported.run.known_case->weld.haz_ratio      = 0.8;
  reported.run.known_case->weld.strength_ratio = 1.2;
  const auto put = [&](const std::string &zone, double peak, double limit)
  {
    const std::string at = "convex_face.at_end.zones." + zone + ".";
    reported.run.summary.put(at + "peak_elongation", peak);
    reported.run.summary.put(at + "mean_elongation", peak / 2);
    reported.run.summary.put(at + "limit", limit);
    reported.run.summary.put(at + "ductility_used", peak / limit);
  };
  put("base", 0.2, 0.4);
  put("left_haz", 0.3, 0.3);
  put("weld", 0.24, 0.12);
  put("right_haz", 0.26, 0.3);
  const auto  all  = pass_questions(reported, metric, Asked::everything);
  const auto *zone = with(all, "Which zone");
  REQUIRE(zone != nullptr);
  // 250 + 1000 * 0.1 = 350 MPa, times the ratios.
  CHECK_THAT(zone->task, Contains("base plate 350 MPa") && Contains("HAZ 280 MPa") &&
                             Contains("weld metal 420 MPa"));
  CHECK_THAT(zone->answer, Contains("stretched most in: HAZ, left, by 30.0 %"));
  CHECK_THAT(zone->answer, Contains("weld metal, which uses 200.0 %"));
}

TEST_CASE("a flaw is asked about by its opening, and its zones are not", "[report][lesson]")
{
  const ScratchFolder scratch;
  ReportedRun         reported                 = reported_pass(scratch.path() / "pass");
  reported.run.known_case->weld.width          = 12;
  reported.run.known_case->weld.bend           = BendKind::root;
  reported.run.known_case->flaws.each[0].depth = 3;
  reported.run.known_case->flaws.each[0].line  = FlawLine::right;
  for (const std::string zone : {"base", "weld"})
    reported.run.summary.put("convex_face.at_end.zones." + zone + ".peak_elongation", 0.2);
  reported.run.summary.put("flaws.flaw.largest_opening_mm", 6.1);
  reported.run.summary.put("flaws.flaw.largest_opening_travel_mm", 35);
  reported.run.summary.put("flaws.flaw.opening_limit_mm", 3);
  reported.run.summary.put("flaws.flaw.limit_passed_travel_mm", 14.3);
  const auto  all  = pass_questions(reported, metric, Asked::the_pass);
  const auto *flaw = with(all, "open the flaw");
  REQUIRE(flaw != nullptr);
  CHECK_THAT(flaw->task, Contains("right fusion line, from 0.0 mm") && Contains("3.0 mm") &&
                             Contains("below its root") &&
                             Contains("The root is stretched"));
  CHECK_THAT(flaw->task, !Contains("6.1"));
  CHECK_THAT(flaw->answer, Contains("6.1 mm") && Contains("passes the limit of 3.0 mm") &&
                               Contains("at 14.3 mm"));
  CHECK(with(all, "Which zone") == nullptr);
}

TEST_CASE("the sheet for the class tells no answer, and both pages keep the page's policy",
          "[report][lesson]")
{
  const ScratchFolder scratch;
  const ReportedRun   reported = reported_pass(scratch.path() / "pass");
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us})
  {
    const LessonPages pages = lesson_pages({reported}, order_of(units));
    for (const char *answer :
         {"it goes through <b>", "it goes through &lt;b&gt;", "tells the answer",
          "THROUGH:", "23.4 %", "0.450 kip", "class=\"mark\""})
    {
      CAPTURE(answer);
      CHECK(pages.questions.find(answer) == std::string::npos);
    }
    CHECK_THAT(pages.answers, Contains("it goes through &lt;b&gt;"));
    CHECK_THAT(pages.answers, Contains("tells the answer"));
    CHECK_THAT(pages.answers, Contains("THROUGH:"));
    for (const std::string &page : {pages.questions, pages.answers})
    {
      CHECK_THAT(page,
                 Contains("default-src 'none'; img-src data:; style-src 'unsafe-inline'"));
      CHECK(page.find("<script") == std::string::npos);
      CHECK(page.find("<b>") == std::string::npos);
      CHECK_THAT(page, Contains("Bending &lt;week&gt; 3"));
      CHECK_THAT(page, Contains("fly out")); // the caution
      CHECK_THAT(page, Contains(units == UnitSystem::us ? "size: letter" : "size: A4"));
      CHECK_THAT(page, Contains(units == UnitSystem::us ? "0.394 in (10.0 mm)"
                                                        : "10.0 mm (0.394 in)") ||
                           Contains("Answers"));
    }
  }
}

TEST_CASE("of two coupons the question is what changes", "[report][lesson]")
{
  const ScratchFolder scratch;
  ReportedRun         greased = reported_pass(scratch.path() / "a");
  ReportedRun         dry     = reported_pass(scratch.path() / "b", "0.35");
  dry.run.summary.put("key_figures.peak_ram_force_N", 3000);
  const auto change = change_question(greased.run, dry.run, "Coupon A", "Coupon B", metric);
  REQUIRE(change.has_value());
  CHECK_THAT(change->task, Contains("friction.shoulders 0.35 in place of 0.12"));
  CHECK_THAT(change->task, !Contains("title") && !Contains("goes through"));
  CHECK_THAT(change->answer,
             Contains("2.00 kN") && Contains("3.00 kN") && Contains("larger"));
  const LessonPages both = lesson_pages({greased, dry}, order_of(UnitSystem::metric));
  CHECK_THAT(both.questions, Contains("What changes from Coupon A to Coupon B?"));
  CHECK(both.notes.empty());
  // The same twice: nothing changes, and that is said.
  CHECK_FALSE(change_question(greased.run, greased.run, "A", "B", metric));
  CHECK(lesson_pages({greased, greased}, order_of(UnitSystem::metric)).notes.size() == 1);
  // A finer mesh is no other coupon.
  dry.run.known_case->mesh.level = MeshLevel::fine;
  CHECK_FALSE(change_question(greased.run, dry.run, "A", "B", metric));
}

TEST_CASE("a run without a finding is no lesson", "[report][lesson]")
{
  const ScratchFolder scratch;
  const ReportedRun   good = reported_pass(scratch.path() / "pass");
  CHECK_NOTHROW(check_teachable(good.run));
  for (const auto &[path, word] :
       {std::pair{"state", "interrupted"}, std::pair{"finding.outcome", "undecided"},
        std::pair{"numerical_quality.accuracy", "broken"}})
  {
    CAPTURE(path);
    RunRecord run = good.run;
    run.summary.put(path, std::string(word));
    CHECK_THROWS_AS(check_teachable(run), InputError);
  }
  RunRecord caseless = good.run;
  caseless.known_case.reset();
  CHECK_THROWS_AS(check_teachable(caseless), InputError);
}

TEST_CASE("a half model is drawn whole, with its mark on both sides", "[report][lesson]")
{
  const ScratchFolder scratch;
  const ReportedRun   reported = reported_pass(scratch.path() / "pass");
  PassShapes          half     = reported.shapes;
  half.part                    = ModelPart::right_half;
  const auto point             = face_point(half, 10, LongFace::convex, 1.9);
  REQUIRE(point.has_value());
  CHECK(half.flat[*point].x == Approx(2)); // of nodes at 0, 1, 2
  CHECK(half.flat[*point].y == Approx(0));
  const std::string picture = outline_picture(half, half.shapes[0], "t", {*point});
  const auto        count   = [&](const std::string &part)
  {
    int n = 0;
    for (auto at = picture.find(part); at != std::string::npos;
         at      = picture.find(part, at + 1))
      ++n;
    return n;
  };
  CHECK(count("class=\"mark\"") == 2);
  CHECK(count("cx=\"-2\"") == 1);
  CHECK(count("cx=\"2\"") == 1);
  CHECK_FALSE(face_point(half, 0.1, LongFace::convex, 1.5)); // no node that near
}
