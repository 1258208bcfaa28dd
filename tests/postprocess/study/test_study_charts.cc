// Contours, bins, grids and marks of studies, against values by hand.

#include "postprocess/study/chart_frame.h"
#include "postprocess/study/contour_lines.h"
#include "postprocess/study/finding_mark.h"
#include "postprocess/study/histogram.h"
#include "postprocess/study/map_chart.h"
#include "tests/support/study_fixture.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <limits>
#include <set>

using namespace throughbend;

namespace
{
constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

void check_ends(const Points &curve, const std::pair<double, double> &a,
                const std::pair<double, double> &b)
{
  const auto same =
      [](const std::pair<double, double> &p, const std::pair<double, double> &q)
  { return std::hypot(p.first - q.first, p.second - q.second) < 1e-12; };
  const bool forth = same(curve.front(), a) && same(curve.back(), b);
  const bool back  = same(curve.front(), b) && same(curve.back(), a);
  CHECK((forth || back));
}

/// How much darker the ink is than the ground (WCAG 2.1, 1.4.3, relative luminance).
double contrast(const std::string &a, const std::string &b)
{
  const auto light = [](const std::string &hex)
  {
    const unsigned long value = std::strtoul(hex.c_str() + 1, nullptr, 16);
    double              sum   = 0;
    for (const auto &[shift, weight] :
         {std::pair(16, 0.2126), std::pair(8, 0.7152), std::pair(0, 0.0722)})
    {
      const double share = static_cast<double>(value >> shift & 255) / 255;
      sum += weight *
             (share <= 0.03928 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4));
    }
    return sum;
  };
  const double p = light(a), q = light(b);
  return (std::max(p, q) + 0.05) / (std::min(p, q) + 0.05);
}

StudyPass pass_with(const std::string &outcome, const std::string &metal,
                    const std::string &accuracy)
{
  StudyPass pass;
  pass.outcome  = outcome;
  pass.metal    = metal;
  pass.accuracy = accuracy;
  return pass;
}
} // namespace

TEST_CASE("a contour crosses a plane where the plane has its level", "[study]")
{
  // By hand: value = x + 2 y on 0, 1, 3 by 0, 2; level 2.5 runs from (2.5, 0) to (0, 1.25).
  ContourField field;
  field.x = {0, 1, 3};
  field.y = {0, 2};
  for (const double y : field.y)
    for (const double x : field.x)
      field.values.push_back(x + 2 * y);
  const auto curves = contour_lines(field, 2.5);
  REQUIRE(curves.size() == 1);
  REQUIRE(curves[0].size() == 3);
  check_ends(curves[0], {2.5, 0}, {0, 1.25});
  CHECK(curves[0][1].first == Approx(1));     // at the column between, where 1 + 2 y = 2.5
  CHECK(curves[0][1].second == Approx(0.75)); //
  CHECK(contour_lines(field, 7.5).empty());
  CHECK(contour_lines(field, -1).empty());
}

TEST_CASE("a contour about a peak is closed", "[study]")
{
  // By hand: 4 in the middle of zeros; level 1 is three quarters of the way out.
  ContourField field;
  field.x           = {0, 1, 2};
  field.y           = {0, 1, 2};
  field.values      = {0, 0, 0, 0, 4, 0, 0, 0, 0};
  const auto curves = contour_lines(field, 1);
  REQUIRE(curves.size() == 1);
  REQUIRE(curves[0].size() == 5);
  CHECK(curves[0].front() == curves[0].back());
  for (const auto &[x, y] : curves[0])
    CHECK(std::abs(x - 1) + std::abs(y - 1) == Approx(0.75));
}

TEST_CASE("corners crosswise are joined by the mean of the four", "[study]")
{
  // By hand: 3 at lower left and upper right, 0 elsewhere, mean 1.5. At level 1 the high
  // corners are joined, so each curve cuts off a low corner; at level 2 a high one.
  ContourField field;
  field.x      = {0, 1};
  field.y      = {0, 1};
  field.values = {3, 0, 0, 3};
  for (const double level : {1., 2.})
  {
    const auto curves = contour_lines(field, level);
    REQUIRE(curves.size() == 2);
    for (const Points &curve : curves)
    {
      REQUIRE(curve.size() == 2);
      const double x = (curve[0].first + curve[1].first) / 2,
                   y = (curve[0].second + curve[1].second) / 2;
      // Near the corner that it cuts off, the middle of the curve lies on its side.
      CHECK(((x < 0.5) == (y < 0.5)) == (level == 2.));
    }
  }
}

TEST_CASE("no contour crosses a cell with an unknown corner or of two groups", "[study]")
{
  ContourField field;
  field.x      = {0, 1, 2};
  field.y      = {0, 1};
  field.values = {0, 0, 0, 2, 2, unknown};
  auto curves  = contour_lines(field, 1);
  REQUIRE(curves.size() == 1);
  check_ends(curves[0], {0, 0.5}, {1, 0.5});
  field.groups = {0, 1, 1, 0, 1, 1};
  CHECK(contour_lines(field, 1).empty());
}

TEST_CASE("cells of a refined map may be larger than the grid's", "[study]")
{
  // By hand: only the outer corners of 2 x 1 are known; 0 left, 4 right, level 1 at x =
  // 0.5.
  ContourField field;
  field.x           = {0, 1, 2};
  field.y           = {0, 1};
  field.values      = {0, unknown, 4, 0, unknown, 4};
  field.cells       = {{0, 0, 2, 1}};
  const auto curves = contour_lines(field, 1);
  REQUIRE(curves.size() == 1);
  check_ends(curves[0], {0.5, 0}, {0.5, 1});
}

TEST_CASE("a map's curves end where the finding does", "[study]")
{
  const StudyRecord   record = made_up_map(12, 9, 1);
  const ReportedStudy study  = reported_study(record);
  const StudyGrid     grid(record);
  ContourField        field = field_of(study, grid, 0, "peak_ram_force_N");
  REQUIRE(field.values.size() == record.passes.size());
  std::size_t known = 0;
  for (std::size_t i = 0; i < field.values.size(); ++i)
  {
    const bool left =
        record.passes[i].outcome == "through" || record.passes[i].outcome == "dropped";
    CHECK(std::isfinite(field.values[i]) == left);
    known += left ? 1 : 0;
  }
  CHECK(known > 50);
  CHECK(known < record.passes.size());
  for (const Points &curve : contour_lines(field, 30000))
    for (const auto &[x, y] : curve)
    {
      // Every point lies between places that are both known: no further than a through one.
      CHECK(x <= 11.5 + 1e-9);
      CHECK(x >= 6.5 - 1e-9);
      CHECK(y >= 0);
    }
}

TEST_CASE("bins are round and count every value once", "[study]")
{
  // By hand: 16 values from 0.3 to 7.8; a fifth of that is 1.5, so bins of 2 from 0 to 8.
  std::vector<double> values;
  for (int i = 0; i < 16; ++i)
    values.push_back(0.3 + 0.5 * i);
  const Bins bins = bins_of(values);
  CHECK(bins.low == Approx(0).margin(1e-12));
  CHECK(bins.width == Approx(2));
  CHECK(bins.count == 4);
  CHECK(histogram(values, bins) == std::vector<std::size_t>{4, 4, 4, 4});
  // On a border: in the bin above, the last border in the last bin; what is outside or no
  // number is left out.
  CHECK(histogram({0, 2, 4, 6, 8, unknown, 8.1, -0.1}, bins) ==
        std::vector<std::size_t>{1, 1, 1, 2});
}

TEST_CASE("bins of one value and of none", "[study]")
{
  const Bins one = bins_of({5, 5, 5});
  CHECK(one.count == 1);
  CHECK(one.low < 5);
  CHECK(one.high() > 5);
  CHECK(histogram({5, 5, 5}, one) == std::vector<std::size_t>{3});
  CHECK(histogram({}, bins_of({})) == std::vector<std::size_t>{0});
  CHECK(histogram({unknown}, bins_of({unknown})) == std::vector<std::size_t>{0});
}

TEST_CASE("a pass looks sound only when all its answers are", "[study]")
{
  CHECK(mark_of(pass_with("through", "within", "sound")).letters == "T");
  CHECK(mark_of(pass_with("through", "not known", "sound")).letters == "T*");
  CHECK(mark_of(pass_with("through", "within", "low")).letters == "T*");
  CHECK(mark_of(pass_with("through", "within", "")).letters == "T*");
  CHECK(mark_of(pass_with("through", "beyond", "sound")).letters == "T!");
  CHECK(mark_of(pass_with("over-capacity", "beyond", "sound")).letters == "C!");
  CHECK(mark_of(pass_with("undecided", "within", "sound")).letters == "?");
  CHECK(mark_of(pass_with("through", "within", "broken")).letters == "?");
  CHECK(mark_of(pass_with("", "", "")).letters == "?");
  CHECK(mark_of(pass_with("a word of later", "within", "sound")).letters == "?");

  StudyPass ironed = pass_with("through", "within", "sound");
  ironed.events    = {"leg ironed"};
  CHECK(mark_of(ironed).letters == "T*");
  CHECK(finding_words(ironed) == "through, leg ironed; metal within limits");
  ironed.events = {"leg ironed", "frame touched"};
  CHECK(finding_words(ironed) == "through, leg ironed, frame touched; metal within limits");
  StudyPass close = pass_with("through", "within", "sound");
  close.verdict = "THROUGH (close: the ripple of the computed ram force could turn it): a.";
  CHECK(mark_of(close).letters == "T*");
  close.verdict = "THROUGH: the coupon is bent and clear.";
  CHECK(mark_of(close).letters == "T");

  StudyPass stop = pass_with("over-capacity", "not known", "sound");
  stop.events    = {"leg ironed"};
  CHECK(mark_of(stop).letters == "C");
  CHECK(mark_of(pass_with("stroke-out", "within", "low")).letters == "E*");
  CHECK(mark_of(pass_with("stroke-out", "beyond", "low")).letters == "E!");
  stop.verdict =
      "OVER CAPACITY (close: the ripple of the computed ram force could turn it).";
  CHECK(mark_of(stop).letters == "C*");
  CHECK(mark_of(stop).brief == "over capacity, look closer");

  StudyPass hooked = pass_with("jammed", "within", "sound");
  hooked.held      = "hooked";
  CHECK(mark_of(hooked).letters == "H");
  hooked.outcome = "stroke-out"; // first of all the stroke is missing
  CHECK(mark_of(hooked).letters == "E");
  hooked.outcome = "jammed";
  // A metal that is beyond does not hide that the finding could turn.
  StudyPass both = pass_with("through", "beyond", "sound");
  CHECK(mark_of(both).brief == "through, metal beyond");
  both.verdict =
      "THROUGH (close: the numerical error of the ram force could turn it): clear.";
  CHECK(mark_of(both).letters == "T!");
  CHECK(mark_of(both).brief == "through, metal beyond, look closer");
  CHECK_FALSE(find_the_same(hooked, pass_with("jammed", "within", "sound")));
  CHECK(find_the_same(pass_with("through", "within", "low"),
                      pass_with("through", "not known", "sound")));
  CHECK_FALSE(find_the_same(pass_with("through", "within", "sound"),
                            pass_with("through", "beyond", "sound")));
  CHECK_FALSE(std::isfinite(figure_of(pass_with("through", "", "broken"), "any")));
}

TEST_CASE("marks read on their grounds and differ in more than colour", "[study]")
{
  std::set<std::string> letters;
  for (const char *const outcome :
       {"through", "over-capacity", "stroke-out", "jammed", "dropped", "undecided"})
    for (const char *const metal : {"within", "not known", "beyond"})
    {
      const FindingMark mark = mark_of(pass_with(outcome, metal, "sound"));
      CHECK(contrast(mark.ink, mark.ground) >= 4.5);
      letters.insert(mark.letters);
    }
  CHECK(letters == std::set<std::string>{"T", "T*", "T!", "C", "C!", "E", "E!", "J", "J!",
                                         "D", "D!", "?"});
}

TEST_CASE("cells reach half-way to their neighbours", "[study]")
{
  CHECK(cell_borders({1, 2, 4}) == std::vector<double>{0.5, 1.5, 3, 5});
  CHECK(cell_borders({}).empty());
  CHECK(cell_borders({10}).size() == 2);
}

TEST_CASE("a grid holds the passes on its levels and no others", "[study]")
{
  StudyRecord record = made_up_map(3, 2, 1);
  StudyPass   own    = record.passes[0];
  own.values         = {10, 0.12}; // of the case, between the levels
  record.passes.push_back(own);
  const StudyGrid grid(record);
  CHECK(grid.levels(0) == std::vector<double>{6, 9.75, 13.5});
  CHECK(grid.levels(1) == std::vector<double>{0, 0.4});
  CHECK(grid.pass({0, 0, 0}) == 0);
  CHECK(grid.pass({2, 1, 0}) == 5);
  CHECK(grid.blocks().size() == 2);

  record.passes.erase(record.passes.begin() + 1);
  const StudyGrid holed(record);
  CHECK(holed.pass({1, 0, 0}) == no_pass);
  CHECK(holed.pass_around({1, 0, 0}) == no_pass);
  CHECK(holed.blocks().empty());
}

TEST_CASE("a refined map says for each place what all passes around it find", "[study]")
{
  const StudyRecord whole = made_up_map(13, 9, 1), refined = made_up_refined_map();
  const StudyGrid   all(whole), some(refined);
  REQUIRE(refined.passes.size() < whole.passes.size());
  std::size_t inferred = 0;
  for (std::size_t j = 0; j < 9; ++j)
    for (std::size_t i = 0; i < 13; ++i)
    {
      const StudyPass  &known  = whole.passes[all.pass({i, j, 0})];
      const std::size_t pushed = some.pass({i, j, 0});
      if (pushed != no_pass)
      {
        CHECK(refined.passes[pushed].outcome == known.outcome);
        continue;
      }
      const std::size_t around = some.pass_around({i, j, 0});
      REQUIRE(around != no_pass);
      CHECK(find_the_same(refined.passes[around], known)); // made up without islands
      ++inferred;
    }
  CHECK(inferred > 10);
}

TEST_CASE("a place between passes has the mark that asks most to look closer", "[study]")
{
  StudyRecord record        = made_up_map(5, 1, 1);
  record.passes             = {record.passes[1], record.passes[1]};
  record.passes[0].values   = {6};
  record.passes[1].values   = {13.5};
  record.passes[1].accuracy = "low";
  record.answers.replace(record.answers.find("false"), 5, "true");
  const StudyGrid grid(record);
  REQUIRE(grid.levels(0).size() == 5);
  REQUIRE(grid.pass({2, 0, 0}) == no_pass);
  CHECK(grid.pass_around({2, 0, 0}) == 1);
}

TEST_CASE("long words are put in lines", "[study]")
{
  CHECK(lines_of("a bc def", 4) == std::vector<std::string>{"a bc", "def"});
  CHECK(lines_of("", 4).empty());
  CHECK(lines_of("abcdefgh i", 4) == std::vector<std::string>{"abcdefgh", "i"});
}
