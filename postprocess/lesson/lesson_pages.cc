#include "postprocess/lesson/lesson_pages.h"

#include "postprocess/html/html_text.h"
#include "postprocess/html/page_texts.h"
#include "postprocess/lesson/lesson_questions.h"
#include "postprocess/report/report_tables.h"
#include "postprocess/runs/run_badge.h"
#include "postprocess/words/finding_words.h"

#include <cmath>

namespace throughbend
{
namespace
{
/// Coupon A, B, ..., Z, AA, ...: the runs' own titles may tell the answer.
std::string coupon_name(std::size_t i)
{
  constexpr std::size_t letters = 26;
  std::string           name;
  for (++i; i > 0; i = (i - 1) / letters)
    name.insert(name.begin(), static_cast<char>('A' + (i - 1) % letters));
  return "Coupon " + name;
}

/// What a class is told of a coupon and its fixture.
std::string sizes_html(const Case &c, const ReaderUnits &units)
{
  std::vector<std::vector<std::string>> rows;
  const auto                            length = [&](const char *name, double value) {
    rows.push_back({name, units.length(value)});
  };
  length("coupon: thickness t", c.coupon.thickness);
  length("width", c.coupon.width);
  length("length", c.coupon.length);
  if (c.coupon.taper != 0)
    length(c.coupon.taper > 0 ? "thicker at the right end by"
                              : "thicker at the left end by",
           std::abs(c.coupon.taper));
  if (c.weld.cap.height > 0)
    length("weld: cap stands above its face by", c.weld.cap.height);
  if (c.weld.root_bead.height > 0)
    length("weld: bead stands above its root by", c.weld.root_bead.height);
  if (c.coupon.offset != 0)
    length(c.coupon.offset > 0 ? "lies right of the middle by"
                               : "lies left of the middle by",
           std::abs(c.coupon.offset));
  length("plunger: width A", c.fixture.plunger.width);
  length("nose radius", c.fixture.plunger.nose_radius);
  length(c.fixture.shoulders.kind == ShoulderKind::rollers
             ? "rollers: opening between them"
             : "shoulders: opening between them",
         c.fixture.shoulders.opening);
  length("radius", c.fixture.shoulders.radius);
  if (c.fixture.shoulders.kind == ShoulderKind::solid)
    length("depth", c.fixture.shoulders.depth);
  if (c.fixture.frame.present())
    length("frame: from the middle", c.fixture.frame.distance);
  rows.push_back({"friction: shoulders", c.fixture.shoulders.roll()
                                             ? "none: the rollers turn"
                                             : decimal_text(c.friction.shoulders, 2)});
  if (!c.fixture.shoulders.roll() && c.friction.left_shoulder() != c.friction.shoulders)
    rows.push_back({"left shoulder", decimal_text(c.friction.left_shoulder(), 2)});
  rows.push_back({"plunger", decimal_text(c.friction.plunger, 2)});
  rows.push_back({"base plate: first yield",
                  units.both(c.material.flow.initial_stress(), stress_text)});
  rows.push_back({"ram: force", units.force(c.ram.capacity)});
  length("stroke", c.ram.stroke);
  // Side by side, half of them each.
  std::string       html = "<div class=\"sizes\">\n";
  const std::size_t half = (rows.size() + 1) / 2;
  for (const auto &[from, to] :
       {std::pair{std::size_t{0}, half}, std::pair{half, rows.size()}})
  {
    html += "<table><tbody>\n";
    for (std::size_t i = from; i < to; ++i)
      html += table_row(rows[i]);
    html += "</tbody></table>\n";
  }
  return html + "</div>\n";
}

std::string space_html(const LessonQuestion &q)
{
  std::string html;
  if (!q.choices.empty())
  {
    html += "<ul class=\"choices\">\n";
    for (const std::string &choice : q.choices)
      html += "<li>" + escaped(choice) + "</li>\n";
    html += "</ul>\n";
  }
  for (int i = 0; i < q.lines; ++i)
    html += "<p class=\"line\"></p>\n";
  return html;
}

/// What both pages have in common.
std::string page_of(const LessonOrder &order, const std::string &kind,
                    const std::string &head, const std::string &coupons)
{
  return filled(std::string(lesson_page_html()),
                {{"mark", std::string(lesson_mark)},
                 {"title", escaped(order.title)},
                 {"kind", escaped(kind)},
                 {"css", std::string(lesson_css())},
                 {"paper", order.units == UnitSystem::us ? "letter" : "A4"},
                 {"head", head},
                 {"caution", caution_html()},
                 {"coupons", coupons}});
}
} // namespace

LessonPages lesson_pages(const std::vector<ReportedRun> &all, const LessonOrder &order)
{
  const ReaderUnits units(order.units);
  LessonPages       pages;
  std::string       sheets, answers;
  int               number = 0;
  for (std::size_t i = 0; i < all.size(); ++i)
  {
    const ReportedRun &reported = all[i];
    check_teachable(reported.run);
    std::vector<LessonQuestion> questions =
        pass_questions(reported, units, i == 0 ? Asked::everything : Asked::the_pass);
    if (i > 0)
    {
      if (auto change = change_question(all[0].run, reported.run, coupon_name(0),
                                        coupon_name(i), units))
        questions.insert(questions.begin(), std::move(*change));
      else
        pages.notes.push_back(
            coupon_name(i) + " differs from " + coupon_name(0) +
            " in nothing, in more than three keys, or in the mesh: no question "
            "about what changes.");
    }
    if (reported.shapes.empty())
      pages.notes.push_back(reported.run.folder.string() +
                            ": no shapes are kept, so there is no picture of the coupon.");
    const std::string heading =
        all.size() == 1 ? "The coupon and its fixture" : coupon_name(i);
    sheets += "<section class=\"coupon\">\n<h2>" + escaped(heading) + "</h2>\n" +
              sizes_html(*reported.run.known_case, units);
    answers +=
        "<section class=\"coupon\">\n<h2>" +
        escaped((all.size() == 1 ? "" : coupon_name(i) + ": ") + reported.run.title()) +
        "</h2>\n" +
        paragraph("Run " + reported.run.folder.string() + ": " + badge_words(reported.run));
    if (const std::string doubt = accuracy_sentence(reported.run, units); !doubt.empty())
      answers += paragraph(doubt);
    answers += lesson_html(reported.run);
    for (const LessonQuestion &q : questions)
    {
      const std::string head =
          "<h3>" + std::to_string(++number) + ". " + escaped(q.heading) + "</h3>\n";
      sheets +=
          "<section class=\"question\">\n" + head + paragraph(q.task) +
          (q.picture.empty() ? "" : "<div class=\"picture\">" + q.picture + "</div>\n") +
          space_html(q) + "</section>\n";
      answers += "<section class=\"question\">\n" + head + q.answer + "</section>\n";
    }
    sheets += "</section>\n";
    answers += "</section>\n";
  }
  pages.questions =
      page_of(order, "Questions",
              "<p class=\"who\"><span>Name</span><span>Class</span><span>Date</span></p>\n",
              sheets);
  pages.answers =
      page_of(order, "Answers, for the teacher",
              paragraph("All figures are computed by throughbend from the runs that "
                        "are named; none was measured on a bench."),
              answers);
  return pages;
}
} // namespace throughbend
