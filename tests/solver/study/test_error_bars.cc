// Error bars from made-up passes, and what is changed in each of them.

#include "inputs/keys/case_text.h"
#include "inputs/text/input_error.h"
#include "solver/study/bar_cases.h"
#include "tests/solver/study/made_up.h"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

using namespace throughbend;

namespace
{
constexpr auto numerics = BarPass::Kind::numerics, shop = BarPass::Kind::shop;

ErrorBars some_bars()
{
  ErrorBars bars;
  bars.own    = {"through", 30000, 0.22};
  bars.passes = {{"finer mesh", numerics, {"through", 30300, 0.218}},
                 {"half the step", numerics, {"through", 29900, 0.221}},
                 {"friction +0.03", shop, {"through", 31000, 0.22}},
                 {"friction -0.03", shop, {"through", 29200, 0.22}},
                 {"flow stress +10 %", shop, {"over-capacity", 33000, 0.22}},
                 {"flow stress -10 %", shop, {"through", 27000, 0.22}}};
  return bars;
}
} // namespace

TEST_CASE("Bars add up what each setting moves, and the worse of each cause", "[study]")
{
  // By hand: numerics 300 + 100 either way; down 800 + 3000, up 1000 + 3000.
  const ErrorBars bars = some_bars();
  CHECK(bars.force(numerics).high == Approx(400));
  CHECK(bars.force(numerics).low == Approx(-400));
  CHECK(bars.force(shop).low == Approx(-3800));
  CHECK(bars.force(shop).high == Approx(4000));
  CHECK(bars.strain(numerics).high == Approx(0.003));
  CHECK(bars.force(shop).whole);
  REQUIRE(bars.turned().size() == 1);
  CHECK(bars.turned()[0].what == "flow stress +10 %");
  CHECK_THAT(error_bars_text(bars, UnitSystem::metric),
             Catch::Contains("30.0 kN") && Catch::Contains("+-0.400 kN") &&
                 Catch::Contains("WITH flow stress +10 % the finding is over-capacity"));
  CHECK(error_bars_json(bars)["passes"].size() == 6);
}

TEST_CASE("A bar whose pass has no finding says that it is not whole", "[study]")
{
  ErrorBars bars         = some_bars();
  bars.passes[3].figures = {"undecided", 0, 0};
  CHECK_FALSE(bars.force(shop).whole);
  CHECK(bars.force(shop).low == Approx(-3000));
  bars.passes[0].figures = {};
  CHECK_FALSE(bars.force(numerics).whole);
  CHECK(bars.turned().size() == 3);
  const std::string text = error_bars_text(bars, UnitSystem::metric);
  CHECK_THAT(text,
             Catch::Contains("at least: not every pass") && Catch::Contains("finer mesh"));
}

TEST_CASE("Each further pass changes one thing", "[study]")
{
  const StudyCase            base(case_text(), "made up", {"--mesh.level", "standard"});
  const std::vector<BarCase> cases = bar_cases(base.own());
  REQUIRE(cases.size() == 7);
  const auto differences = [&](const Case &c)
  { return case_difference(case_values(base.own()), case_values(c)); };
  REQUIRE(differences(cases[0].changed).size() == 1);
  CHECK(differences(cases[0].changed).front().find("mesh.level ") == 0);
  CHECK(cases[0].changed.mesh.level == MeshLevel::fine);
  CHECK(differences(cases[1].changed).size() == 1);
  CHECK(cases[1].changed.solver.largest_step > 0);
  CHECK(differences(cases[2].changed).size() == 1);
  CHECK(cases[3].changed.friction.shoulders ==
        Approx(base.own().friction.shoulders + 0.03));
  CHECK(cases[4].changed.friction.plunger == Approx(base.own().friction.plunger - 0.03));
  for (const double p : {0., 0.05, 0.3})
    CHECK(cases[5].changed.material.flow.stress(p) ==
          Approx(1.1 * base.own().material.flow.stress(p)));
  // Greased so well that 0.03 less is none.
  const StudyCase slick(case_text(), "made up", {"--friction.shoulders", "0.01"});
  CHECK(bar_cases(slick.own())[4].changed.friction.shoulders == 0);
}

TEST_CASE("Bars of a coupon that the ram does not push through are of the force it takes",
          "[study]")
{
  StudyPass pass = made_up("over-capacity");
  CHECK(bar_figures(pass).force == Approx(1000. / 3));
  pass.figures["finding.beyond_capacity.force_it_takes_N"] = 412;
  CHECK(bar_figures(pass).force == 412);
}

TEST_CASE("Bars are made by a crew, and left when they are stopped", "[study]")
{
  const StudyCase base(case_text(), "made up", {});
  const auto      cases = bar_cases(base.own());
  ThreadCrew      crew(
      [](const Case &c, const auto &) -> std::optional<StudyPass>
      {
        StudyPass pass                       = made_up("through");
        pass.figures["peak_face_strain_log"] = c.friction.shoulders;
        return pass;
      },
      2);
  const ErrorBars bars =
      error_bars({"through", 1000, 0.12}, cases, crew, [] { return false; });
  for (const BarPass &pass : bars.passes)
    CHECK(pass.figures.outcome == "through");
  CHECK(bars.passes[3].figures.strain == cases[3].changed.friction.shoulders);
  ThreadCrew      others([](const Case &, const auto &) { return made_up("through"); }, 1);
  const ErrorBars none = error_bars({"through", 1, 1}, cases, others, [] { return true; });
  CHECK(none.turned().size() >= 6);
}
