// The drawing is read with a rule and a caliper: what it shows must have the length that is
// written beside it, in both families of units, and nothing may hide anything else. The 3/8
// in jig is from ASME BPVC IX (2010), Fig. QW-466.1 (read); other fixtures are invented.

#include "inputs/text/input_error.h"
#include "meshes/setup/fixture_profiles.h"
#include "postprocess/drawing/fixture_drawing.h"
#include "postprocess/drawing/tool_outline.h"
#include "tests/support/reference_case.h"

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>

using namespace throughbend;

namespace
{
constexpr double pi = 3.14159265358979323846;

DrawingSubject reference_subject()
{
  const Case     c = reference_case();
  DrawingSubject subject;
  subject.fixture = c.fixture;
  subject.coupon  = c.coupon;
  subject.title   = c.title;
  subject.program = "throughbend 0.1.0";
  return subject;
}

DrawingSubject inch_jig()
{
  DrawingSubject subject            = reference_subject();
  subject.coupon                    = {6 * 25.4, 1.5 * 25.4, 0.375 * 25.4, 0};
  subject.fixture.plunger           = {1.5 * 25.4, 0.75 * 25.4};
  subject.fixture.shoulders.radius  = 0.75 * 25.4;
  subject.fixture.shoulders.opening = 2.375 * 25.4;
  subject.die_bottom_radius         = (1 + 3 / 16.) * 25.4;
  return subject;
}

DrawingSubject framed()
{
  DrawingSubject subject = reference_subject();
  subject.fixture.frame  = {80, 1.5, 2.5, 10, 1};
  subject.coupon.length  = 190;
  return subject;
}

DrawingSubject with_rollers(double radius, double opening)
{
  DrawingSubject subject            = reference_subject();
  subject.fixture.shoulders         = {};
  subject.fixture.shoulders.kind    = ShoulderKind::rollers;
  subject.fixture.shoulders.radius  = radius;
  subject.fixture.shoulders.opening = opening;
  return subject;
}

bool shows(const FixtureSheet &drawn, const std::string &words)
{
  return std::any_of(drawn.sheet.texts().begin(), drawn.sheet.texts().end(),
                     [&](const SheetText &t)
                     { return t.words.find(words) != std::string::npos; });
}

/// Whether an edge of a tool or of the coupon stands upright at this x.
bool edge_at(const FixtureSheet &drawn, double x)
{
  return std::any_of(drawn.sheet.strokes().begin(), drawn.sheet.strokes().end(),
                     [&](const Stroke &s)
                     {
                       return s.pen == Pen::outline && s.radius == 0 &&
                              std::abs(s.from.x - x) < 1e-6 && std::abs(s.to.x - x) < 1e-6;
                     });
}

/// Whether an arc of an outline has this middle and radius.
bool arc_around(const FixtureSheet &drawn, PlaneVector centre, double radius)
{
  return std::any_of(drawn.sheet.strokes().begin(), drawn.sheet.strokes().end(),
                     [&](const Stroke &s)
                     {
                       return s.pen == Pen::outline && std::abs(s.radius - radius) < 1e-6 &&
                              std::abs(length(s.from - centre) - radius) < 1e-6 &&
                              std::abs(length(s.middle() - centre) - radius) < 1e-6 &&
                              std::abs(length(s.to - centre) - radius) < 1e-6;
                     });
}

std::map<std::string, DrawnDimension> by_letter(const FixtureSheet &drawn)
{
  std::map<std::string, DrawnDimension> found;
  for (const DrawnDimension &d : drawn.dimensions)
    found.emplace(d.text.letter, d);
  return found;
}

/// A stretch of a stroke that crosses the box (Liang and Barsky's clipping).
bool crosses(PlaneVector from, PlaneVector to, const Box &box)
{
  double            first = 0, last = 1;
  const PlaneVector way    = to - from;
  const double      step[] = {-way.x, way.x, -way.y, way.y};
  const double allowed[]   = {from.x - box.low.x, box.high.x - from.x, from.y - box.low.y,
                              box.high.y - from.y};
  for (int i = 0; i < 4; ++i)
  {
    if (step[i] == 0)
    {
      if (allowed[i] < 0)
        return false;
      continue;
    }
    const double at = allowed[i] / step[i];
    if (step[i] < 0)
      first = std::max(first, at);
    else
      last = std::min(last, at);
  }
  return first < last;
}

bool crosses(const Stroke &s, const Box &box)
{
  return s.radius > 0 ? crosses(s.from, s.middle(), box) || crosses(s.middle(), s.to, box)
                      : crosses(s.from, s.to, box);
}

/// What is wrong with a sheet as a reader sees it; empty if nothing.
std::string fault_of(const FixtureSheet &drawn)
{
  const Box bounds = drawn.sheet.bounds();
  if (bounds.low.x < 9.9 || bounds.low.y < 9.9 || bounds.high.x > drawn.width - 9.9 ||
      bounds.high.y > drawn.height - 9.9)
    return "something lies outside of the border";
  const auto &texts = drawn.sheet.texts();
  for (std::size_t i = 0; i < texts.size(); ++i)
  {
    if (texts[i].height < 2.5)
      return "too small to read: " + texts[i].words;
    for (std::size_t j = 0; j < i; ++j)
      if (texts[i].box.overlaps(texts[j].box))
        return "\"" + texts[i].words + "\" on \"" + texts[j].words + "\"";
    for (const Stroke &s : drawn.sheet.strokes())
      if (crosses(s, texts[i].box.grown(-0.1)))
        return "a line through \"" + texts[i].words + "\"";
  }
  return "";
}
} // namespace

TEST_CASE("A 3/8 in jig is drawn with the dimensions that the standard's figure has",
          "[unit][drawing]")
{
  const FixtureSheet drawn = fixture_sheet(inch_jig());
  for (const char *words : {"A 38.1 mm",   "[1-1/2 in]",
                            "B R19.05 mm", "[R3/4 in]",
                            "C 60.33 mm",  "[2-3/8 in]",
                            "E R19.05 mm", "P 11.11 mm",
                            "[7/16 in]",   "S 1.59 mm",
                            "[1/16 in]",   "t 9.53 mm",
                            "[3/8 in]",    "L 152.4 mm",
                            "[6 in]",      "W 38.1 mm",
                            "F 45 mm",     "[1.772 in]",
                            "1-3/16 in",   "Clearance per side S = 1.59 mm (1/16 in)"})
  {
    CAPTURE(words);
    CHECK(shows(drawn, words));
  }
  CHECK(drawn.scale == 0.5);
  CHECK(drawn.detail_scale == 5);
  CHECK(shows(drawn, "Scale 1:2, detail 5:1"));
  CHECK(shows(drawn, "no manufacturing"));
}

TEST_CASE(
    "Every dimension line is as long as its figure times the scale, and its ends lie on "
    "what it measures",
    "[unit][drawing]")
{
  DrawingSubject narrow              = framed();
  narrow.fixture.plunger.nose_radius = 8;
  DrawingSubject aside               = reference_subject();
  aside.coupon.offset                = 7;
  for (const DrawingSubject &subject :
       {reference_subject(), inch_jig(), framed(), narrow, aside, with_rollers(25, 70)})
  {
    const FixtureSheet drawn = fixture_sheet(subject);
    const Fixture     &f     = subject.fixture;
    for (const DrawnDimension &d : drawn.dimensions)
    {
      CAPTURE(d.text.letter);
      const double parts = d.text.letter == "H" ? 2 : 1;
      CHECK(length(d.to - d.from) == Approx(parts * d.scale * d.text.value));
      CHECK(shows(drawn, d.text.over()));
      CHECK(shows(drawn, d.text.under()));
    }
    const auto found = by_letter(drawn);
    CHECK(found.at("A").text.value == f.plunger.width);
    CHECK(found.at("B").text.value == f.plunger.nose_radius);
    CHECK(found.at("C").text.value == f.shoulders.opening);
    CHECK(found.at("E").text.value == f.shoulders.radius);
    CHECK(found.at("t").text.value == subject.coupon.thickness);
    CHECK(found.at("L").text.value == subject.coupon.length);
    CHECK(found.at("W").text.value == subject.coupon.width);
    CHECK(found.at("P").text.value == Approx((f.shoulders.opening - f.plunger.width) / 2));
    CHECK(found.at("S").text.value == Approx(f.clearance(subject.coupon.thickness)));
    for (const char *radius : {"B", "E"})
      CHECK(arc_around(drawn, found.at(radius).from,
                       drawn.scale * found.at(radius).text.value));
    const bool rollers = f.shoulders.kind == ShoulderKind::rollers;
    for (const char *letter : {"A", "C", "L", "P", "S", "H", "J"})
      if (found.count(letter) > 0 &&
          !(rollers && std::string("CPS").find(letter) != std::string::npos))
      {
        CAPTURE(letter);
        CHECK(edge_at(drawn, found.at(letter).from.x));
        CHECK(edge_at(drawn, found.at(letter).to.x));
      }
    CHECK(found.count("F") == (rollers ? 0 : 1));
    CHECK(found.count("H") == (f.frame.present() ? 1 : 0));
    // The coupon lies where it is said to: offset from the middle of the opening.
    const auto middle = [&](const char *letter)
    { return (found.at(letter).from.x + found.at(letter).to.x) / 2; };
    CHECK(middle("A") == Approx(middle("C")));
    CHECK(middle("L") - middle("C") ==
          Approx(drawn.scale * subject.coupon.offset).margin(1e-9));
  }
}

TEST_CASE("In US units the sheet is Letter and inches come first", "[unit][drawing]")
{
  for (DrawingSubject subject : {inch_jig(), framed(), with_rollers(25, 70)})
  {
    subject.units            = UnitSystem::us;
    const FixtureSheet drawn = fixture_sheet(subject);
    CHECK(fault_of(drawn) == "");
    // 11 by 8-1/2 in, ASME Y14.1's size A (from memory).
    CHECK(drawn.width == Approx(11 * 25.4));
    CHECK(drawn.height == Approx(8.5 * 25.4));
    CHECK(shows(drawn, "Letter"));
    CHECK(shows(drawn, "inch [mm]"));
    CHECK_FALSE(shows(drawn, "A4"));
  }
  DrawingSubject subject = inch_jig();
  subject.units          = UnitSystem::us;
  const FixtureSheet us  = fixture_sheet(subject);
  for (const char *words : {"A 1-1/2 in", "[38.1 mm]", "B R3/4 in", "t 3/8 in",
                            "Clearance per side S = 1/16 in (1.59 mm)", "2 in"})
  {
    CAPTURE(words);
    CHECK(shows(us, words));
  }
  CHECK_THAT(fixture_drawing(subject),
             Catch::Matchers::Contains("width=\"279.4mm\" height=\"215.9mm\""));
}

TEST_CASE("Rollers touch the drawn opening", "[unit][drawing]")
{
  const FixtureSheet drawn  = fixture_sheet(with_rollers(25, 70));
  const auto         found  = by_letter(drawn);
  const double       radius = 25 * drawn.scale;
  const PlaneVector  left   = found.at("E").from;
  CHECK(left.x + radius == Approx(found.at("C").from.x));
  CHECK(arc_around(drawn, {found.at("C").to.x + radius, left.y}, radius));
}

TEST_CASE("A leg that finds no room is called a pinch, in words and as a length",
          "[unit][drawing]")
{
  DrawingSubject subject            = reference_subject();
  subject.fixture.shoulders.opening = 58;
  const FixtureSheet drawn          = fixture_sheet(subject);
  CHECK(shows(drawn, "PINCH: "));
  CHECK(shows(drawn, "1 mm (0.039 in) thicker"));
  CHECK(shows(drawn, "S -1 mm"));
  CHECK(shows(fixture_sheet(reference_subject()), "Clearance per side"));
  CHECK_FALSE(shows(drawn, "Clearance per side"));
  CHECK_FALSE(shows(fixture_sheet(reference_subject()), "PINCH"));

  subject.fixture.shoulders.opening = 60; // leg and room are equal
  CHECK(shows(fixture_sheet(subject), "No clearance"));
  subject.fixture.shoulders.opening = 39;
  CHECK(shows(fixture_sheet(subject), "does not pass"));
}

TEST_CASE("What is not known gets no dimension, and the sheet says so", "[unit][drawing]")
{
  DrawingSubject subject          = inch_jig();
  subject.fixture.shoulders.depth = 0;
  subject.coupon.length           = 0;
  const FixtureSheet drawn        = fixture_sheet(subject);
  const auto         found        = by_letter(drawn);
  CHECK(found.count("F") == 0);
  CHECK(found.count("G") == 0);
  CHECK(found.count("L") == 0);
  CHECK(found.count("W") == 1);
  CHECK(shows(drawn, "without dimension: shoulder depth, coupon length."));
  CHECK(fault_of(drawn).empty());

  subject.fixture.frame = {120, 1, 1, 2, 5}; // plates of 2 mm with edges rounded by 5 mm
  CHECK_THROWS_AS(fixture_sheet(subject), InputError);
  subject.fixture.plunger.width = 0;
  CHECK_THROWS_AS(fixture_sheet(subject), InputError);
  subject                  = inch_jig();
  subject.coupon.thickness = 0;
  CHECK_THROWS_AS(fixture_sheet(subject), InputError);
}

TEST_CASE("Titles and cautions are escaped, and the SVG is well formed and in millimetres",
          "[unit][drawing]")
{
  DrawingSubject subject = framed();
  subject.title          = "<b>& \"quoted\" 'title'\x01";
  subject.rule           = "a < b & c";
  subject.cautions       = {"</svg>"};
  const std::string svg  = fixture_drawing(subject);
  CHECK(svg.find("&lt;b&gt;&amp; &quot;quoted&quot; &#39;title&#39;</title>") !=
        std::string::npos);
  CHECK(svg.find("<b>") == std::string::npos);

  std::istringstream          text(svg);
  boost::property_tree::ptree tree;
  REQUIRE_NOTHROW(boost::property_tree::read_xml(text, tree));
  const auto &root = tree.get_child("svg");
  CHECK(root.get<std::string>("<xmlattr>.width") == "297mm");
  CHECK(root.get<std::string>("<xmlattr>.height") == "210mm");
  CHECK(root.get<std::string>("<xmlattr>.viewBox") == "0 0 297 210");
  CHECK(root.get<std::string>("title") == "<b>& \"quoted\" 'title'");
  std::vector<std::string> words;
  for (const auto &[tag, child] : root)
    if (tag == "text")
      words.push_back(child.data());
  const auto has = [&](const std::string &line)
  { return std::find(words.begin(), words.end(), line) != words.end(); };
  CHECK(has("<b>& \"quoted\" 'title'"));
  CHECK(has("Rule: a < b & c"));
  CHECK(has("</svg>"));
  CHECK(words.size() == fixture_sheet(subject).sheet.texts().size());
}

TEST_CASE("Very long titles and cautions neither leave the sheet nor hide anything",
          "[unit][drawing]")
{
  DrawingSubject subject = framed();
  subject.title          = std::string(300, 'W');
  for (int i = 0; i < 40; ++i)
    subject.cautions.push_back("Read the standard before you cut; this line is number " +
                               std::to_string(i) + " of many that ask for it.");
  const FixtureSheet drawn = fixture_sheet(subject);
  CHECK(fault_of(drawn) == "");
  CHECK(shows(drawn, "... and more"));
}

namespace
{
/// Every so many-th sheet of a wide range of fixtures; every other one with many cautions.
void check_sheets(int every)
{
  int count = 0, faults = 0;
  for (const double t : {1.5, 3., 6., 9.525, 20., 40.})
    for (const double former : {2., 4., 20 / 3., 10., 16.5})
      for (const double play : {-0.4, 0.8, 3.})
        for (const double nose : {0.5, 0.15})
          for (const double shoulder : {0.5, 2., 6.})
            for (const double frame : {0., 1.1, 2.})
              for (const ShoulderKind kind : {ShoulderKind::solid, ShoulderKind::rollers})
              {
                if (++count % every != 0)
                  continue;
                DrawingSubject subject              = reference_subject();
                Shoulders     &s                    = subject.fixture.shoulders;
                subject.fixture.plunger.width       = former * t;
                subject.fixture.plunger.nose_radius = nose * former * t;
                s.kind                              = kind;
                s.radius                            = shoulder * t;
                s.opening                           = (former + 2) * t + 2 * play;
                s.depth                             = 1.3 * s.radius + 10;
                s.bottom_radius                     = std::min(5., 0.5 * s.radius);
                const double rest                   = s.opening / 2 + s.radius;
                subject.coupon                      = {2 * rest + 6 * t, 4 * t, t, 0};
                if (frame > 0)
                {
                  const double edge     = kind == ShoulderKind::rollers ? s.radius : 0;
                  subject.fixture.frame = {frame * (rest + edge), 0.15 * t, 0.1 * t,
                                           t < 5 ? 6. : 12., 1};
                  subject.coupon.length = 2.2 * subject.fixture.frame.distance;
                }
                if (count / every % 3 == 0)
                  for (const auto &[letter, size] :
                       {std::pair{"A", subject.fixture.plunger.width},
                        std::pair{"C", s.opening}, std::pair{"E", s.radius}})
                    subject.limits.push_back({letter,
                                              LimitKind::tolerance,
                                              {size - 0.37, size + 0.46},
                                              "found"});
                if (count / every % 2 == 0)
                {
                  subject.die_bottom_radius = s.opening / 2;
                  subject.cautions.assign(
                      20, "A caution that fills one line and a part of the next one: read "
                          "the standard.");
                }
                const std::string fault = fault_of(fixture_sheet(subject));
                if (fault.empty())
                  continue;
                ++faults;
                CAPTURE(t, former, play, nose, shoulder, frame, static_cast<int>(kind));
                CHECK(fault == "");
              }
  CHECK(count == 3240);
  CHECK(faults == 0);
}
} // namespace

TEST_CASE("Nothing lies outside of the sheet, on a text, or through one, whatever the size",
          "[unit][drawing]")
{
  check_sheets(11);
}

TEST_CASE("The same for every fixture of the range", "[.whole][drawing]")
{
  check_sheets(1);
}

TEST_CASE("The title block has date, rule, scale with a bar, units and the caution",
          "[unit][drawing]")
{
  DrawingSubject subject = inch_jig();
  subject.date           = "2026-11-27";
  subject.rule_used      = "asme-ix-plunger-general";
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us})
  {
    subject.units            = units;
    const FixtureSheet drawn = fixture_sheet(subject);
    CHECK(fault_of(drawn) == "");
    const bool us = units == UnitSystem::us;
    for (const char *words :
         {"2026-11-27", "Rule: asme-ix-plunger-general", "Scale 1:2, detail 5:1",
          us ? "Letter, inch [mm]" : "A4, mm [inch]", "An estimate", "governing code",
          "throughbend 0.1.0", "No tolerances are known here"})
    {
      CAPTURE(words);
      CHECK(shows(drawn, words));
    }
    // Its bar is half as long as it says: 1:2.
    const double paper = us ? 25.4 : 25;
    CHECK(shows(drawn, us ? "2 in" : "50 mm"));
    CHECK(std::any_of(drawn.sheet.strokes().begin(), drawn.sheet.strokes().end(),
                      [&](const Stroke &s)
                      {
                        return s.pen == Pen::outline && s.from.y == s.to.y &&
                               std::abs(s.to.x - s.from.x - paper) < 1e-9;
                      }));
  }
  subject.rule_used = std::string(200, 'W');
  subject.program   = std::string(200, 'W');
  CHECK(fault_of(fixture_sheet(subject)) == "");
}

TEST_CASE("A tolerance stands on its dimension and in words, rounded inward",
          "[unit][drawing]")
{
  // By hand: 62.904 to 63.996 mm is inward 62.91 to 63.99 mm, 2.477 to 2.519 in (2.47654
  // and 2.51953).
  const SizeLimits opening = {"C", LimitKind::tolerance, {62.904, 63.996}, "found"};
  CHECK(deviation_text(63.2, opening, UnitSystem::metric) == "+0.79/-0.29");
  CHECK(deviation_text(63.2, opening, UnitSystem::us) == "+0.031/-0.011"); // from 2.488 in
  CHECK(limits_words(opening, UnitSystem::metric) ==
        "Limits of C: 62.91 mm to 63.99 mm (2.477 in to 2.519 in), found.");
  CHECK(limits_words(opening, UnitSystem::us) ==
        "Limits of C: 2.477 in to 2.519 in (62.91 mm to 63.99 mm), found.");
  // 1-1/16 in is 1.0625 in; 27 mm is 1.06299 in: inward 1.062.
  const SizeLimits fraction = {"E", LimitKind::tolerance, {26.9875, 27.}, ""};
  CHECK(deviation_text(26.9875, fraction, UnitSystem::us) == ""); // 1.063 to 1.062: no room
  CHECK(deviation_text(26.9875, fraction, UnitSystem::metric) == "+0.01/-0");
  const SizeLimits wide = {"E", LimitKind::tolerance, {26.5, 27.5}, ""};
  CHECK(deviation_text(26.9875, wide, UnitSystem::us) == "+0.0195/-0.0185");
  // Limits that lie beyond the size on one side have two signs alike.
  CHECK(deviation_text(60, {"C", LimitKind::tolerance, {60.5, 61}, ""},
                       UnitSystem::metric) == "+1/+0.5");
  CHECK(limits_words({"C", LimitKind::tolerance, {60, 60}, ""}, UnitSystem::metric) ==
        "No room for a tolerance of C was found.");

  Range most;
  most.high      = 60.325;
  most.high_edge = Edge::open;
  const SizeLimits rules{"C", LimitKind::by_rule, most, "the rule's"};
  CHECK(deviation_text(60.325, rules, UnitSystem::metric) == "");
  CHECK(limits_words(rules, UnitSystem::metric) ==
        "Limits of C: below 60.33 mm (below 2-3/8 in), the rule's.");
  // ISO 5173 wants more than A + 2t: an opening of just that nips the legs.
  SizeLimits above     = rules;
  above.range          = {60, 70};
  above.range.low_edge = Edge::open;
  CHECK(limits_words(above, UnitSystem::metric).find("above 60") != std::string::npos);
  CHECK(limits_words(above, UnitSystem::metric).find("mm, at most 70") !=
        std::string::npos);

  DrawingSubject subject            = reference_subject();
  subject.fixture.shoulders.opening = 63.2;
  subject.limits                    = {opening};
  const FixtureSheet drawn          = fixture_sheet(subject);
  CHECK(shows(drawn, "C 63.2 mm +0.79/-0.29"));
  CHECK(shows(drawn, "[2.488 in +0.031/-0.011]"));
  CHECK(shows(drawn, "Limits of C: 62.91 mm to 63.99 mm"));
  CHECK_FALSE(shows(drawn, "No tolerances"));
  CHECK(shows(drawn, "A 40 mm"));
  CHECK_FALSE(shows(drawn, "A 40 mm +"));
}

TEST_CASE("The check for hidden texts sees what is hidden", "[unit][drawing]")
{
  FixtureSheet drawn;
  drawn.width  = 297; // A4 lying
  drawn.height = 210;
  drawn.sheet.text({50, 50}, Anchor::left, "first");
  CHECK(fault_of(drawn) == "");
  FixtureSheet twice = drawn;
  twice.sheet.text({52, 51}, Anchor::left, "second");
  CHECK(fault_of(twice) == "\"second\" on \"first\"");
  FixtureSheet struck = drawn;
  struck.sheet.line({40, 49}, {100, 49.5});
  CHECK(fault_of(struck) == "a line through \"first\"");
  drawn.sheet.line({40, 60}, {300, 60});
  CHECK(fault_of(drawn) == "something lies outside of the border");
}

TEST_CASE("An outline is recovered in true arcs, and cut and hatched inside",
          "[unit][drawing]")
{
  const Fixture      fixture = reference_case().fixture;
  const RigidProfile profile = shoulder_profile(fixture, Side::right);
  const Outline      outline = outline_of(profile);
  double             round   = 0;
  for (const OutlinePiece &piece : outline)
  {
    CHECK(profile.proximity(piece.from).gap == Approx(0).margin(1e-9));
    if (piece.radius > 0)
      round += 1;
  }
  CHECK(round == 3);
  CHECK(outline.size() == 8); // three arcs, four sides, of which one is in two halves

  const Outline half = cut_off(outline_of(RigidProfile::disc({3, 4}, 5)), {0, 1}, 4);
  double        arcs = 0, cuts = 0;
  for (const OutlinePiece &piece : half)
    if (piece.cut)
      cuts += length(piece.to - piece.from);
    else
      arcs +=
          2 * piece.radius * std::asin(length(piece.to - piece.from) / (2 * piece.radius));
  CHECK(arcs == Approx(5 * pi));
  CHECK(cuts == Approx(10));
  CHECK(cut_off(half, {0, 1}, -2).empty());
  CHECK(cut_off(half, {0, 1}, 5).size() == half.size());

  const auto lines = hatch_lines(outline, -pi / 4, 1.3);
  CHECK(lines.size() > 30);
  for (const auto &[from, to] : lines)
  {
    CHECK(profile.proximity(from).gap == Approx(0).margin(1e-9));
    CHECK(profile.proximity(to).gap == Approx(0).margin(1e-9));
    CHECK(profile.proximity(0.5 * (from + to)).gap < 1e-9);
    CHECK(std::abs((to - from).x + (to - from).y) < 1e-9);
  }
}

TEST_CASE("The .vtp holds plunger, shoulders and frame as the fixture has them",
          "[unit][drawing]")
{
  std::istringstream          text(fixture_profile_file(framed()));
  boost::property_tree::ptree tree;
  REQUIRE_NOTHROW(boost::property_tree::read_xml(text, tree));
  const auto &piece = tree.get_child("VTKFile.PolyData.Piece");
  CHECK(piece.get<int>("<xmlattr>.NumberOfPolys") == 7); // one, two, and four plates
  std::istringstream points(piece.get<std::string>("Points.DataArray"));
  double             x = 0, y = 0, z = 0, right = 0, nose = 1e9, wall = 1e9;
  int                read = 0;
  while (points >> x >> y >> z)
  {
    ++read;
    right = std::max(right, x);
    if (std::abs(x) < 20.001 && y > 0)
      nose = std::min(nose, y);
    if (y < -5)
      wall = std::min(wall, std::abs(x));
    CHECK(z == 0);
  }
  CHECK(read == piece.get<int>("<xmlattr>.NumberOfPoints"));
  CHECK(right == Approx(90));               // frame at 80, 10 thick
  CHECK(nose == Approx(10).epsilon(0.001)); // on the coupon
  CHECK(wall == Approx(31.6));              // half the opening
}
