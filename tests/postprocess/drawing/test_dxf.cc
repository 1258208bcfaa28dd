// The CAD file is read back here by its group codes (Autodesk, DXF reference, release 12:
// from memory) and held to the case: a builder cuts by its lines.
// tests/postprocess/app/cad_file opens the same with a library that others made.

#include "postprocess/drawing/dxf.h"
#include "postprocess/drawing/fixture_drawing.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>

using namespace throughbend;

namespace
{
constexpr double pi = 3.14159265358979323846;

struct Entity
{
  std::string                kind, layer;
  std::map<int, std::string> words;

  double      number(int code) const { return std::stod(words.at(code)); }
  PlaneVector point(int code) const { return {number(code), number(code + 10)}; }
  PlaneVector on_circle(int code) const
  {
    const double angle = number(code) * pi / 180;
    return point(10) + number(40) * PlaneVector{std::cos(angle), std::sin(angle)};
  }
};

/// Entities of the file; fails on a file without the frame of sections that a reader asks
/// for.
std::vector<Entity> entities(const std::string &text)
{
  std::istringstream  in(text);
  std::vector<Entity> all;
  std::string         code, value, section, before;
  bool                ended = false;
  while (std::getline(in, code) && std::getline(in, value))
  {
    REQUIRE_FALSE(ended);
    for (const char c : value)
      REQUIRE((c >= 0x20 && c < 0x7F));
    const int number = std::stoi(code);
    if (number == 0)
      before = value;
    if (number == 2 && before == "SECTION")
      section = value;
    if (number == 0 && value == "ENDSEC")
      section.clear();
    ended = number == 0 && value == "EOF";
    if (section != "ENTITIES" || value == "ENTITIES")
      continue;
    if (number == 0)
      all.push_back({value, "", {}});
    else if (number == 8)
      all.back().layer = value;
    else
      all.back().words.emplace(number, value);
  }
  REQUIRE(ended);
  return all;
}

DrawingSubject reference_subject()
{
  const Case     c = reference_case();
  DrawingSubject subject;
  subject.fixture = c.fixture;
  subject.coupon  = c.coupon;
  subject.title   = "R";
  return subject;
}

DrawingSubject roller_subject()
{
  DrawingSubject subject            = reference_subject();
  subject.fixture.shoulders         = {};
  subject.fixture.shoulders.kind    = ShoulderKind::rollers;
  subject.fixture.shoulders.radius  = 25;
  subject.fixture.shoulders.opening = 70;
  return subject;
}

/// Ends of lines and arcs that have no partner on these layers.
int loose_ends(const std::vector<Entity> &all, const std::vector<std::string> &layers)
{
  std::vector<PlaneVector> ends;
  for (const Entity &e : all)
  {
    if (std::find(layers.begin(), layers.end(), e.layer) == layers.end())
      continue;
    if (e.kind == "LINE")
    {
      ends.push_back(e.point(10));
      ends.push_back(e.point(11));
    }
    else if (e.kind == "ARC")
    {
      ends.push_back(e.on_circle(50));
      ends.push_back(e.on_circle(51));
    }
  }
  int loose = 0;
  for (const PlaneVector &end : ends)
    loose += std::count_if(ends.begin(), ends.end(),
                           [&](const PlaneVector &other)
                           { return length(end - other) < 1e-6; }) %
                         2 !=
                     0
                 ? 1
                 : 0;
  return loose;
}

struct Extent2
{
  double left = 1e9, right = -1e9, low = 1e9, high = -1e9;
};

/// Of a layer's ends; arcs by their ends, which is enough for outlines cut at quarters.
Extent2 extent(const std::vector<Entity> &all, const std::string &layer)
{
  Extent2 e;
  for (const Entity &one : all)
  {
    if (one.layer != layer || one.kind == "TEXT" || one.kind == "CIRCLE")
      continue;
    for (const PlaneVector &p :
         one.kind == "LINE"
             ? std::vector<PlaneVector>{one.point(10), one.point(11)}
             : std::vector<PlaneVector>{one.on_circle(50), one.on_circle(51)})
    {
      e.left  = std::min(e.left, p.x);
      e.right = std::max(e.right, p.x);
      e.low   = std::min(e.low, p.y);
      e.high  = std::max(e.high, p.y);
    }
  }
  return e;
}
} // namespace

TEST_CASE("In the CAD file every outline closes and has the sizes of the case",
          "[unit][drawing][dxf]")
{
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us})
  {
    DrawingSubject subject = reference_subject();
    subject.units          = units;
    subject.coupon.offset  = 3;
    const double unit      = units == UnitSystem::us ? 25.4 : 1; // [mm]
    const auto   all       = entities(fixture_cad_file(subject));
    CHECK(loose_ends(all, {"SHOULDERS"}) == 0);
    CHECK(loose_ends(all, {"COUPON"}) == 0);
    CHECK(loose_ends(all, {"COUPON_PLAN"}) == 0);
    CHECK(loose_ends(all, {"PLUNGER", "BREAKS"}) == 0);
    CHECK(loose_ends(all, {"PLUNGER"}) == 2); // open where the view ends

    const Extent2 coupon = extent(all, "COUPON"), plunger = extent(all, "PLUNGER");
    const Extent2 plan = extent(all, "COUPON_PLAN");
    CHECK(unit * (coupon.right - coupon.left) == Approx(subject.coupon.length));
    CHECK(unit * (coupon.right + coupon.left) == Approx(2 * 3));
    CHECK(unit * (coupon.high - coupon.low) == Approx(subject.coupon.thickness));
    CHECK(coupon.low == Approx(0).margin(1e-6)); // the origin is on the shoulders' tops
    CHECK(unit * (plan.high - plan.low) == Approx(subject.coupon.width));
    CHECK(unit * (plunger.right - plunger.left) == Approx(subject.fixture.plunger.width));

    double inner = 1e9, low = 1e9;
    int    noses = 0, edges = 0;
    for (const Entity &e : all)
    {
      if (e.layer == "SHOULDERS" && e.kind == "LINE")
        for (const int code : {10, 11})
        {
          inner = std::min(inner, std::abs(e.point(code).x));
          low   = std::min(low, e.point(code).y);
        }
      if (e.kind != "ARC")
        continue;
      const double radius = unit * e.number(40);
      noses += e.layer == "PLUNGER" &&
                       std::abs(radius - subject.fixture.plunger.nose_radius) < 1e-6
                   ? 1
                   : 0;
      edges += e.layer == "SHOULDERS" &&
                       std::abs(radius - subject.fixture.shoulders.radius) < 1e-6
                   ? 1
                   : 0;
    }
    CHECK(unit * inner == Approx(subject.fixture.shoulders.opening / 2));
    CHECK(unit * low == Approx(-subject.fixture.shoulders.depth));
    CHECK(noses == 1); // half a round in one arc
    CHECK(edges == 2);
  }
}

TEST_CASE("A roller is a circle of its radius beside the opening", "[unit][drawing][dxf]")
{
  const auto all   = entities(fixture_cad_file(roller_subject()));
  int        count = 0;
  for (const Entity &e : all)
    if (e.kind == "CIRCLE")
    {
      ++count;
      CHECK(e.layer == "SHOULDERS");
      CHECK(e.number(40) == Approx(25));
      CHECK(std::abs(e.number(10)) == Approx(35 + 25.)); // half the opening and the radius
      CHECK(e.number(20) == Approx(-25));
    }
  CHECK(count == 2);
}

TEST_CASE("The CAD file holds every stroke and text of the sheet", "[unit][drawing][dxf]")
{
  DrawingSubject subject      = reference_subject();
  subject.fixture.frame       = {80, 1.5, 2.5, 10, 1};
  const FixtureSheet drawn    = fixture_sheet(subject);
  const auto         all      = entities(fixture_cad_file(subject));
  double             on_sheet = 0, in_file = 0; // length of all strokes [mm in the part]
  for (const Stroke &s : drawn.sheet.strokes())
    on_sheet +=
        (s.radius > 0 ? 2 * s.radius * std::asin(length(s.to - s.from) / 2 / s.radius)
                      : length(s.to - s.from)) /
        drawn.scale;
  for (const ArrowHead &h : drawn.sheet.heads())
    on_sheet +=
        (length(h.left - h.tip) + length(h.right - h.left) + length(h.tip - h.right)) /
        drawn.scale;
  std::size_t texts = 0;
  for (const Entity &e : all)
    if (e.kind == "LINE")
      in_file += length(e.point(11) - e.point(10));
    else if (e.kind == "ARC")
    {
      const double sweep = e.number(51) - e.number(50);
      in_file += (sweep < 0 ? sweep + 360 : sweep) * pi / 180 * e.number(40);
    }
    else
      ++texts;
  CHECK(in_file == Approx(on_sheet).epsilon(1e-7));
  CHECK(texts == drawn.sheet.texts().size() + 2); // and what the layers mean
  CHECK(loose_ends(all, {"FRAME", "BREAKS", "PLUNGER"}) == 0);
}

TEST_CASE("An arc in the CAD file runs on the same side as on the sheet",
          "[unit][drawing][dxf]")
{
  for (const bool clockwise : {false, true})
  {
    Sheet sheet;
    sheet.use(Layer::later);
    sheet.stroke({{30, 40}, {40, 50}, 10, clockwise, Pen::outline});
    const Stroke s   = sheet.strokes().front();
    const auto   all = entities(dxf(sheet, {{0, 0}, 0.5, UnitSystem::metric}, "c"));
    REQUIRE(all.size() == 1);
    CHECK(all[0].layer == "LATER");
    double from = all[0].number(50), to = all[0].number(51);
    if (to < from)
      to += 360;
    const double      middle = (from + to) / 2 * pi / 180;
    const PlaneVector there =
        all[0].point(10) +
        all[0].number(40) * PlaneVector{std::cos(middle), std::sin(middle)};
    CHECK(there.x == Approx(2 * s.middle().x)); // 1:2, y up
    CHECK(there.y == Approx(-2 * s.middle().y));
  }
}

TEST_CASE("Texts become ASCII of one line without codes", "[unit][dxf]")
{
  CHECK(cad_text("100 % of 5") == "100 % of 5");
  CHECK(cad_text("a\nb\r0\nEOF") == "ab0EOF");
  CHECK(cad_text("%%d") == "%%%%%%d"); // two signs, no code for a degree
  CHECK(cad_text("^J") == "^ J");
  CHECK(cad_text("\\U+0041") == "\\U+005CU+0041");
  CHECK(cad_text("\xC3\xA4\xE2\x82\xAC") == "\\U+00E4\\U+20AC"); // a with dots, euro
  CHECK(cad_text("\xF0\x9F\x98\x80") == "?");
  CHECK(cad_text("\xC3") == "?"); // half a letter
}
