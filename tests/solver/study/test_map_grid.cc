// Maps of made-up findings: where the borders run is known by construction.

#include "postprocess/words/study/map_answer.h"
#include "solver/study/map_grid.h"
#include "tests/solver/study/made_up.h"

#include <catch2/catch.hpp>

#include <random>

using namespace throughbend;

namespace
{
std::vector<double> levels(const std::size_t n)
{
  std::vector<double> all;
  for (std::size_t i = 0; i < n; ++i)
    all.push_back(static_cast<double>(i));
  return all;
}

using Finding = std::function<std::string(const StudyPoint &)>;

/// Places whose finding, pushed or taken from those around, is not that of the full grid.
std::size_t wrong_places(const MapPlan &plan, const std::size_t n, const std::size_t m,
                         const Finding &finding)
{
  std::size_t wrong = 0;
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < m; ++j)
      wrong += plan.finding_at({i, j, 0}) !=
                       finding({{static_cast<double>(i), static_cast<double>(j)}})
                   ? 1
                   : 0;
  return wrong;
}
} // namespace

TEST_CASE("A full map pushes every place once", "[study]")
{
  MapPlan           plan({levels(4), levels(3), levels(2)}, MapFill::whole);
  const std::size_t passes = carry_out(plan, [](const StudyPoint &) { return "through"; });
  CHECK(passes == 24);
  CHECK(plan.size() == 24);
  CHECK(plan.planned() == 24);
  CHECK(plan.pass_at({3, 2, 1}));
  MapPlan line({levels(7)}, MapFill::borders);
  CHECK(carry_out(line, [](const StudyPoint &point)
                  { return point.values.at(0) < 2.5 ? "through" : "jammed"; }) == 5);
  CHECK(line.finding_at({2, 0, 0}) == "through");
  CHECK(line.finding_at({3, 0, 0}) == "jammed");
}

TEST_CASE("A refined map has the borders of the full grid for fewer passes", "[study]")
{
  struct Shape
  {
    std::size_t n, m, most; ///< passes
    Finding     finding;
  };
  const std::vector<Shape> shapes = {
      // One straight border, upright and slanting; three findings that meet; a bay.
      {12, 9, 40,
       [](const StudyPoint &p) { return p.values[0] < 6.3 ? "through" : "jammed"; }},
      {12, 9, 54,
       [](const StudyPoint &p)
       { return p.values[0] + 0.5 * p.values[1] < 9.2 ? "through" : "over-capacity"; }},
      {12, 9, 60,
       [](const StudyPoint &p) {
         return p.values[0] < 5.5   ? "through"
                : p.values[1] < 3.5 ? "jammed"
                                    : "over-capacity";
       }},
      {33, 33, 260,
       [](const StudyPoint &p)
       {
         const double x = p.values[0] - 30, y = p.values[1] - 12;
         return x * x + y * y < 14.2 * 14.2 ? "stroke-out" : "through";
       }},
      {41, 31, 254, // a fifth of 1271
       [](const StudyPoint &p)
       { return p.values[0] < 20 + 0.3 * p.values[1] ? "through" : "over-capacity"; }}};
  for (const Shape &shape : shapes)
  {
    MapPlan           plan({levels(shape.n), levels(shape.m)}, MapFill::borders);
    const std::size_t passes = carry_out(plan, shape.finding);
    CAPTURE(shape.n, shape.m, passes);
    CHECK(wrong_places(plan, shape.n, shape.m, shape.finding) == 0);
    CHECK(passes <= shape.most);
  }
}

TEST_CASE("Every border of a refined map runs between passes, whatever the findings",
          "[study]")
{
  // Blots at random: some may be missed, but no border may be guessed.
  std::mt19937 random(11);
  for (int repeat = 0; repeat < 30; ++repeat)
  {
    const auto   below = [&](unsigned long n) { return static_cast<double>(random() % n); };
    const double cx = below(20), cy = below(15), r = 1 + below(8);
    MapPlan      plan({levels(20), levels(15)}, MapFill::borders);
    carry_out(plan,
              [&](const StudyPoint &p)
              {
                const double x = p.values[0] - cx, y = p.values[1] - cy;
                return x * x + y * y <= r * r ? "jammed" : "through";
              });
    for (std::size_t i = 0; i < 20; ++i)
      for (std::size_t j = 0; j < 15; ++j)
        for (const MapPlan::Index &next :
             {MapPlan::Index{i + 1, j, 0}, MapPlan::Index{i, j + 1, 0}})
          if (next[0] < 20 && next[1] < 15 &&
              plan.finding_at({i, j, 0}) != plan.finding_at(next))
          {
            CHECK(plan.pass_at({i, j, 0}));
            CHECK(plan.pass_at(next));
          }
  }
}

TEST_CASE("A map stars each pass that asks for a closer look, and says why", "[study]")
{
  // Along: sound, metal not known, low accuracy, close, broken.
  MapAnswer map;
  map.keys   = {{"coupon.thickness", "mm", 1, 9}};
  map.levels = {levels(5)};
  map.rule   = {std::nullopt};
  std::vector<StudyPass> passes;
  const auto             row = [&](const MapFill fill)
  {
    map.fill = fill;
    MapPlan plan(map.levels, map.fill);
    passes.clear();
    while (const auto point = plan.next())
    {
      StudyPass    pass = made_up("through");
      const double at   = point->values[0];
      pass.metal        = at == 1 ? "not known" : "within";
      pass.accuracy     = at == 2 ? "low" : at == 4 ? "broken" : "sound";
      pass.verdict = at == 3 ? "THROUGH (close: the ripple could turn it)." : "THROUGH.";
      passes.push_back(pass);
      plan.take(*point, passes.size() - 1, pass);
    }
    return map_text(map, plan, passes);
  };
  const std::string whole = row(MapFill::whole);
  CHECK_THAT(whole, Catch::Contains("| T   T*  T*  T*  ?  \n"));
  for (const char *said :
       {"  T  through ", "  T* through, metal not known ", "  T* through, low accuracy ",
        "  T* through, close ", "  ?  through, broken accuracy "})
    CHECK_THAT(whole, Catch::Contains(said));
  // Both ends agree: what lies between is taken from that which asks most to be looked at.
  CHECK_THAT(row(MapFill::borders), Catch::Contains("| T   ?   ?   ?   ?  \n"));
}

TEST_CASE("A map's picture has a row for each level across and marks the case", "[study]")
{
  MapAnswer map;
  map.keys   = {{"coupon.thickness", "mm", 1, 1}, {"friction.shoulders", "", 1, 2}};
  map.levels = {levels(3), levels(3)};
  map.rule   = {Range{0, 1.5}, std::nullopt};
  MapPlan                plan(map.levels, map.fill);
  std::vector<StudyPass> passes;
  while (const auto point = plan.next())
  {
    passes.push_back(made_up(point->values[0] < 2 ? "through" : "over-capacity"));
    passes.back().metal = point->values == std::vector<double>{2, 0} ? "beyond" : "within";
    if (point->values == std::vector<double>{1, 0})
      passes.back().events = {"leg ironed, both sides"};
    plan.take(*point, passes.size() - 1, passes.back());
  }
  const std::string text = map_text(map, plan, passes);
  CHECK_THAT(text, Catch::Contains("          2 | T  [T ] C  \n") &&
                       Catch::Contains("          0 | T   T*  C! \n"));
  CHECK_THAT(text, Catch::Contains("5 of 9 passes") && Catch::Contains("2 of 9 passes") &&
                       Catch::Contains("T* through, leg ironed") &&
                       Catch::Contains("C! over-capacity, metal beyond"));
  CHECK_THAT(text, Catch::Contains("rule: coupon.thickness 0 to 1.5 mm"));
  CHECK_THAT(map_json(map), Catch::Contains("\"refined\": false"));
}
