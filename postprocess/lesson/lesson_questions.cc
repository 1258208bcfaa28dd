#include "postprocess/lesson/lesson_questions.h"

#include "inputs/case/zone_flow.h"
#include "inputs/text/input_error.h"
#include "meshes/coupon/face_zones.h"
#include "postprocess/charts/flow_chart.h"
#include "postprocess/charts/run_charts.h"
#include "postprocess/html/html_text.h"
#include "postprocess/lesson/flaw_question.h"
#include "postprocess/lesson/lesson_picture.h"
#include "postprocess/runs/run_events.h"
#include "postprocess/runs/run_stretch.h"
#include "postprocess/shapes/face_point.h"
#include "postprocess/words/finding_words.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// A figure that a pass left in run.json; NaN where it is not there.
double figure(const RunRecord &run, const char *name)
{
  return run.number(std::string("key_figures.") + name);
}

std::string side_words(const double position)
{
  return position > 0 ? "right" : "left";
}

std::string zone_words(const FaceZone zone)
{
  switch (zone)
  {
  case FaceZone::left_haz:
  case FaceZone::right_haz:
    return "the HAZ";
  case FaceZone::weld:
    return "the weld metal";
  case FaceZone::left_base:
  case FaceZone::right_base:
    break;
  }
  return "the base plate";
}

/// The zone that holds a place on the convex face; empty without a weld.
std::string zone_at(const Case &reported, const double position)
{
  if (reported.weld.present())
    for (const FaceStretch &stretch : face_stretches(reported))
      if (position >= stretch.from && position <= stretch.to)
        return zone_words(stretch.zone);
  return "";
}

/// In the letters of the sheet; a nose that is no half round bends by its own radius.
std::string rule_of_thumb(const Case &c)
{
  return c.fixture.plunger.flat_nose() ? "t/(2 x nose radius + t)" : "t/(A + t)";
}

/// What it is made of.
std::string thumb_sizes(const Case &c)
{
  return std::string("the coupon's thickness t and the ") +
         (c.fixture.plunger.flat_nose() ? "nose radius" : "plunger's width A");
}

/// Whether the face came to be stretched as where it lies around the nose. One that was
/// hardly bent says nothing about the rule of thumb.
bool lies_around_nose(const RunRecord &run)
{
  // A face around the nose comes near to it or passes it; a coupon that only began to bend
  // is far below.
  constexpr double nearly = 0.7;
  return figure(run, "peak_outer_elongation") >= nearly * figure(run, "nominal_elongation");
}

std::string sentence_with_chart(const std::string &words, const std::optional<Chart> &chart)
{
  return paragraph(words) + (chart ? svg_text(*chart) : "");
}

std::optional<LessonQuestion> stretch_question(const ReportedRun &reported,
                                               const ReaderUnits &units)
{
  const RunRecord &run        = reported.run;
  const Case      &c          = *run.known_case;
  const double     elongation = figure(run, "peak_outer_elongation");
  const double     position   = figure(run, "peak_outer_strain_position_mm");
  const double     travel     = figure(run, "peak_outer_strain_travel_mm");
  const double     nominal    = figure(run, "nominal_elongation");
  if (!std::isfinite(elongation) || !std::isfinite(position) || !std::isfinite(travel))
    return {};
  LessonQuestion q;
  q.heading = "Where does the convex face stretch most?";
  q.task =
      "Mark the place on the picture, and estimate how far from the middle of the flat "
      "coupon it lies. By how much is the face stretched there?";
  const RunStretch  face = run_stretch(run);
  const std::string most =
      face.wide ? "At mid-width the largest stretch is " : "The largest stretch is ";
  std::string answer = most + percent_text(elongation) + ", " +
                       units.length(std::abs(position)) + " " + side_words(position) +
                       " of the middle on the flat coupon, at " + units.length(travel) +
                       " of travel.";
  if (std::abs(position) < 0.05)
    answer = most + percent_text(elongation) + ", in the middle of the coupon, at " +
             units.length(travel) + " of travel.";
  else if (run.right_half())
    answer += " The pass is the same on both sides, so it is there on both.";
  if (const std::string zone = zone_at(c, position); !zone.empty())
    answer += " The place lies in " + zone + ".";
  if (std::isfinite(nominal) && lies_around_nose(run))
    answer += " The rule of thumb " + rule_of_thumb(c) + " gives " + percent_text(nominal) +
              "; " + (face.wide ? "that at mid-width" : "the largest stretch") + " is " +
              decimal_text(elongation / nominal, 2) + " times as much.";
  else if (std::isfinite(nominal) && std::isfinite(elongation))
    answer += " The rule of thumb " + rule_of_thumb(c) + " gives " + percent_text(nominal) +
              ", for a face that lies around the nose: this coupon was bent less.";
  if (const std::string remark = run.word("key_figures.peak_outer_strain_remark");
      !remark.empty())
    answer += " It is " + remark + ": the figure depends on the mesh.";
  if (face.wide)
    answer += " Beside it, towards the free edges, the face is stretched by up to " +
              percent_text(std::expm1(face.largest)) + ".";
  if (!reported.shapes.empty())
  {
    const Shape      &shape = reported.shapes.shapes[reported.shapes.nearest(travel)];
    const std::string title =
        "The coupon between the shoulders at " + units.length(shape.travel) + " of travel";
    // An opened flaw is asked about elsewhere.
    q.picture = c.flaws.present()
                    ? outline_picture(reported.shapes, flat_shape(reported.shapes),
                                      "The flat coupon")
                    : outline_picture(reported.shapes, shape, title);
    std::vector<std::size_t> marks;
    if (const auto point = face_point(reported.shapes, c.coupon.thickness, LongFace::convex,
                                      position + c.coupon.offset))
      marks.push_back(*point);
    q.answer = paragraph(answer) + outline_picture(reported.shapes, shape, title, marks);
  }
  else
    q.answer = paragraph(answer);
  if (const auto chart = face_strain_chart(run, reported.shapes, units))
    q.answer += svg_text(*chart);
  return q;
}

/// Where a curve passes a level between its points, counted from one of them.
std::optional<double> crossing(const std::vector<double> &x, const std::vector<double> &y,
                               const double level, const std::size_t from)
{
  for (std::size_t i = from + 1; i < y.size(); ++i)
    if ((y[i - 1] - level) * (y[i] - level) <= 0 && y[i] != y[i - 1])
      return x[i - 1] + (level - y[i - 1]) / (y[i] - y[i - 1]) * (x[i] - x[i - 1]);
  return {};
}

std::optional<LessonQuestion> force_question(const ReportedRun &reported,
                                             const ReaderUnits &units)
{
  const RunRecord &run   = reported.run;
  const auto       chart = force_chart(run, units);
  if (!chart)
    return {};
  LessonQuestion q;
  q.heading = "Sketch the ram force against the travel";
  q.task = "Draw the force from first touch until the pass ends. Mark the largest force, "
           "and where the legs of the coupon stand upright.";
  const ReaderUnits::Scale way = units.length_scale(), force = units.force_scale();
  Chart                    axes;
  axes.title = "Axes for the ram force";
  axes.x     = chart->x;
  axes.y     = chart->y;
  axes.x.low = axes.y.low = 0;
  axes.x.high             = run.known_case->ram.stroke * way.factor;
  axes.y.high             = run.known_case->ram.capacity * force.factor;
  q.picture               = svg_text(axes);
  q.lines                 = 0;

  const std::vector<double> travel = run.column("travel [mm]"),
                            forces = run.column("ram force [N]");
  std::string answer = "The largest force is " + units.force(run.peak_force()) + ", at " +
                       units.length(run.peak_force_travel()) + " of travel.";
  const auto most = std::max_element(forces.begin(), forces.end());
  if (most != forces.end() && travel.size() == forces.size())
  {
    const double half = *most / 2;
    const auto   at   = static_cast<std::size_t>(most - forces.begin());
    if (const auto rise = crossing(travel, forces, half, 0))
      answer += " Half of it is reached at " + units.length(*rise);
    if (const auto fall = crossing(travel, forces, half, at))
      answer += ", and the force has fallen to half again at " + units.length(*fall);
    answer += ".";
  }
  if (const auto beyond = run_beyond(run))
    answer += " That is all the ram has: it stops there" +
              (beyond->end == "through" ? ", and to go through the coupon takes " +
                                              units.force(beyond->force) + "."
                                        : std::string("."));
  const std::vector<double> left  = run.column("left leg angle [deg]"),
                            right = run.column("right leg angle [deg]");
  if (left.size() == travel.size() && right.size() == travel.size())
  {
    constexpr double upright = 85; // counts as formed, as push has it [deg]
    const auto       left_up = crossing(travel, left, upright, 0),
               right_up      = crossing(travel, right, upright, 0);
    answer += left_up && right_up
                  ? " Both legs stand at 85 deg from " +
                        units.length(std::max(*left_up, *right_up)) + " of travel."
                  : " The legs do not both come to 85 deg.";
  }
  q.answer = sentence_with_chart(answer, chart);
  return q;
}

std::optional<LessonQuestion> finding_question(const ReportedRun &reported,
                                               const ReaderUnits &units)
{
  const RunRecord &run = reported.run;
  LessonQuestion   q;
  q.heading = "Does the coupon go through?";
  q.task    = "Decide by the sizes in the table, and give your reason.";
  q.choices = {"it goes through", "it is held between plunger, shoulder or frame",
               "the ram has not enough force", "the ram has not enough stroke",
               "it drops through before it is bent"};
  q.answer  = paragraph(finding_sentence(run, units));
  if (const std::string why = finding_evidence(run, units); !why.empty())
    q.answer += paragraph(why);
  if (const std::string metal = metal_sentence(run, units); !metal.empty())
    q.answer += paragraph(metal);
  std::string   margins;
  const Coupon &coupon  = run.known_case->coupon;
  const bool    tapered = coupon.taper != 0;
  const double  clearance =
      run.known_case->fixture.clearance(coupon.thickness + std::abs(coupon.taper) / 2);
  const std::string leg = tapered ? "the thick end" : "each leg";
  margins               = clearance >= 0
                              ? "Beside " + leg + " there is " + units.length(clearance) + " of room."
                              : (tapered ? "The thick end is " : "Each leg is ") +
                      units.length(-clearance) + " thicker than the room for it.";
  const bool through    = run.word("finding.outcome") == "through"; // else it stopped early
  for (const auto &[member, words] : {std::pair{"capacity_margin", "of the ram's force"},
                                      std::pair{"stroke_margin", "of its stroke"}})
    if (const double share = figure(run, member);
        through && std::isfinite(share) && share >= 0)
      margins += " " + percent_text(share) + " " + words + " was not needed.";
  q.answer += paragraph(margins);
  return q;
}

std::optional<LessonQuestion> flow_question(const ReportedRun &reported,
                                            const ReaderUnits &units)
{
  const RunRecord                      &run    = reported.run;
  const Case                           &c      = *run.known_case;
  auto                                  chart  = flow_chart(run, reported.shapes, units);
  const std::vector<MiddleState>        states = middle_states(run, reported.shapes);
  std::vector<std::vector<std::string>> rows;
  for (const MiddleState &s : states)
  {
    const auto crown = crown_flow_stress(c, s), concave = concave_flow_stress(c, s);
    if (crown && concave)
      rows.push_back({units.length(s.travel), decimal_text(s.crown_strain, 3),
                      units.both(*crown, stress_text), decimal_text(s.concave_strain, 3),
                      units.both(*concave, stress_text)});
  }
  if (!chart || rows.empty())
    return {};
  const double   nominal = figure(run, "nominal_elongation");
  const bool     by_rule = std::isfinite(nominal) && lies_around_nose(run);
  LessonQuestion q;
  q.heading = "How hard is the metal in the middle of the bend?";
  q.task =
      "The curve shows the stress at which the metal flows after a plastic strain; left of "
      "0 it is pressed together. " +
      (by_rule ? "Estimate the strain of the outer fibre at the end from " +
                     thumb_sizes(c) + ", and mark the crown"
               : std::string("Mark the crown at the end")) +
      " and the face under the nose on the curve. Which stress do you read there?";
  Chart bare = *chart;
  bare.marks.clear();
  bare.title = "Flow curves of the metals";
  q.picture  = svg_text(bare);
  q.answer   = svg_text(*chart) + table({"travel", "crown: plastic strain", "flow stress",
                                         "under the nose: plastic strain", "flow stress"},
                                        rows);
  if (by_rule && c.mesh.dimension == 2)
    q.answer += paragraph(
        "By formula: " + rule_of_thumb(c) + " = " + percent_text(nominal) +
        " is a log strain of " + decimal_text(std::log1p(nominal), 3) +
        ". A wide coupon cannot get narrower, so the equivalent strain is 2/sqrt(3) times "
        "that: " +
        decimal_text(2 / std::sqrt(3.) * std::log1p(nominal), 3) +
        " (von Mises, plane strain, elastic part left out).");
  return q;
}

std::optional<LessonQuestion> zone_question(const ReportedRun &reported,
                                            const ReaderUnits &units)
{
  const RunRecord &run = reported.run;
  struct Zone
  {
    const char *member, *words;
  };
  std::vector<std::vector<std::string>> rows;
  std::string                           most, closest;
  double                                largest = 0, used = 0;
  for (const Zone &zone :
       {Zone{"base", "base plate"},
        Zone{"left_haz", run.right_half() ? "HAZ, both sides" : "HAZ, left"},
        Zone{"weld", "weld metal"}, Zone{"right_haz", "HAZ, right"}})
  {
    const std::string at   = std::string("convex_face.at_end.zones.") + zone.member + ".";
    const double      peak = run.number(at + "peak_elongation");
    if (!std::isfinite(peak) ||
        (run.right_half() && zone.member == std::string("right_haz")))
      continue; // of a half model both sides are one
    const double limit = run.number(at + "limit"),
                 share = run.number(at + "ductility_used");
    rows.push_back({zone.words, percent_text(peak),
                    percent_text(run.number(at + "mean_elongation")),
                    std::isfinite(limit)
                        ? percent_text(limit) + " (" + run.word(at + "limit_measure") + ")"
                        : "not stated",
                    std::isfinite(share) ? percent_text(share) : "not known"});
    if (peak > largest * (1 + 1e-6))
    {
      largest = peak;
      most    = zone.words;
    }
    if (std::isfinite(share) && share > used * (1 + 1e-6))
    {
      used    = share;
      closest = zone.words;
    }
  }
  // Beside a flaw it is the flaw that gives.
  if (!run.known_case->weld.present() || run.known_case->flaws.present() || rows.size() < 2)
    return {};
  LessonQuestion q;
  q.heading = "Which zone of the weld gives?";
  q.task =
      "The picture shows the flat coupon with its zones. At the same plastic strain of "
      "0.1 they flow at ";
  std::string list;
  for (const ZoneCurve &zone : zone_curves(*run.known_case))
    list += (list.empty() ? "" : ", ") + zone.label + " " +
            units.both(zone.curve.stress(0.1), stress_text);
  q.task +=
      list +
      ". Which zone is stretched most at the end of the push, and which comes closest to "
      "what is stated of it?";
  q.choices = {"base plate", "HAZ", "weld metal"};
  if (!reported.shapes.empty())
    q.picture = outline_picture(reported.shapes, flat_shape(reported.shapes),
                                "The flat coupon with the borders of weld and HAZ");
  q.answer =
      paragraph("At the end the convex face is stretched most in: " + most + ", by " +
                percent_text(largest) + "." +
                (closest.empty()
                     ? " No limit is stated for any zone."
                     : " Closest to what is stated of it, or furthest beyond: " + closest +
                           ", which uses " + percent_text(used) + " of it.")) +
      table({"zone on the convex face", "largest stretch", "mean stretch", "stated limit",
             "share of it used"},
            rows);
  if (run.known_case->mesh.dimension == 3)
    q.answer +=
        paragraph("These figures are of the mid-width. Along the free edges the face "
                  "may be stretched more.");
  return q;
}

std::optional<LessonQuestion> springback_question(const ReportedRun &reported)
{
  const RunRecord &run = reported.run;
  if (!run.truth("release.completed").value_or(false))
    return {};
  std::string answer;
  for (const std::string side : {"left", "right"})
  {
    const double loaded = run.number("release." + side + "_angle_loaded_deg"),
                 free   = run.number("release." + side + "_angle_free_deg"),
                 back   = run.number("release." + side + "_springback_deg");
    // The question is of a bend: legs that hardly stand may even rise when let go.
    constexpr double bent = 45; // [deg]
    if (!std::isfinite(loaded) || !std::isfinite(free) || !std::isfinite(back) ||
        loaded < bent || back <= 0)
      return {};
    answer += std::string(answer.empty() ? "The " : " The ") + side + " leg stands at " +
              angle_text(loaded) + " while it is held, and at " + angle_text(free) +
              " when it is free: it springs back by " + angle_text(back) + ".";
  }
  LessonQuestion q;
  q.heading = "How far do the legs spring back?";
  q.task =
      "When the tools are taken away, each leg opens by some degrees. Estimate the angle, "
      "and say what would make it larger.";
  if (std::abs(run.number("release.left_angle_loaded_deg") -
               run.number("release.right_angle_loaded_deg")) > 0.3)
    answer += " So it stands before an end leaves; then the whole coupon turns, too, which "
              "is no springback.";
  q.answer = paragraph(answer) +
             paragraph("A stronger or thinner coupon, or a wider plunger, springs back "
                       "further: in a bent beam the angle grows with the flow stress over "
                       "Young's modulus, and with the bend's radius over the thickness.");
  return q;
}
} // namespace

void check_teachable(const RunRecord &run)
{
  const std::string what    = run.folder.string() + ": ";
  const std::string outcome = run.word("finding.outcome");
  if (run.word("state") != "finished" || outcome.empty() || outcome == "undecided")
    throw InputError(what +
                     "the run has no finding, so a lesson on it has no answers. Finish "
                     "it: throughbend push --resume " +
                     run.folder.string());
  if (run.word("numerical_quality.accuracy") == "broken")
    throw InputError(what +
                     "the run's own figures contradict each other, so no lesson is made "
                     "of it. Push the case again with --mesh.level fine.");
  if (!run.known_case)
    throw InputError(what +
                     "the case of the run is not known, and its sizes are what a lesson "
                     "asks about. Push the case again.");
}

std::vector<LessonQuestion> pass_questions(const ReportedRun &reported,
                                           const ReaderUnits &units, const Asked asked)
{
  std::vector<std::optional<LessonQuestion>> possible = {finding_question(reported, units)};
  if (asked == Asked::everything)
    possible.push_back(springback_question(reported));
  possible.push_back(force_question(reported, units));
  possible.push_back(stretch_question(reported, units));
  possible.push_back(zone_question(reported, units));
  possible.push_back(flaw_question(reported, units));
  if (asked == Asked::everything)
    possible.push_back(flow_question(reported, units));
  std::vector<LessonQuestion> questions;
  for (std::optional<LessonQuestion> &q : possible)
    if (q)
      questions.push_back(std::move(*q));
  return questions;
}
} // namespace throughbend
