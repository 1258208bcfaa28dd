// The search for a fixture on made-up passes whose best fixture is known by hand.

#include "inputs/keys/case_reader.h"
#include "postprocess/words/study/choose_answer.h"
#include "solver/study/choose_search.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <set>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
/// Fixture: opening W and plunger A. A coupon of thickness t goes through if A + 2.2 t <= W
/// <= A + 6 t; the force is 1000 t^2 / (W - 30). Closed forms know the first limit, and the
/// force up to a fifth of it.
class MadeUpTrials : public FixtureTrials
{
public:
  std::size_t pushed = 0;
  double      trap   = 0; ///< a coupon of this thickness hooks whatever the fixture

  Screened screen(const FixtureTrial &trial) override
  {
    const double w = trial.fixture[0], a = trial.fixture[1], t = trial.coupon.values[0];
    if (w < a + 2.2 * t)
      return {"check says no to clearance: " + std::to_string(w), 0};
    return {"", -0.8 * force(trial)};
  }
  std::vector<Judged> push(const std::vector<FixtureTrial> &trials) override
  {
    std::vector<Judged> all;
    for (const FixtureTrial &trial : trials)
    {
      ++pushed;
      const double t = trial.coupon.values[0];
      const bool   good =
          trial.fixture[0] <= trial.fixture[1] + 6 * t && std::abs(t - trap) > 0.3;
      all.push_back({good, -force(trial), good ? "" : "DROPPED: at 20 mm"});
    }
    return all;
  }

private:
  static double force(const FixtureTrial &trial)
  {
    return 1000 * std::pow(trial.coupon.values[0], 2) / (trial.fixture[0] - 30);
  }
};

std::vector<double> levels(const double from, const double to)
{
  std::vector<double> all;
  for (double level = from; level <= to; level += 1)
    all.push_back(level);
  return all;
}

ChooseSpace space()
{
  ChooseSpace made;
  made.levels  = {levels(50, 110), {36, 40, 45}};
  made.corners = {{{9.}, {}}, {{10.5}, {}}};
  made.sample  = {{{9.4}, {}}, {{9.8}, {}}, {{10.2}, {}}};
  return made;
}
} // namespace

TEST_CASE("the fixture of least force is found, and what limits it", "[study][choose]")
{
  MadeUpTrials        trials;
  const FixtureChoice choice = choose_fixture(space(), trials, 1);
  REQUIRE(choice.fixture);
  // By hand: the widest opening that holds the thinnest coupon, W = A + 54, with the widest
  // plunger: 45 + 54 = 99 mm. Its worst coupon is the thickest: 1000 x 10.5^2 / 69.
  CHECK((*choice.fixture)[0] == 99);
  CHECK((*choice.fixture)[1] == 45);
  CHECK(choice.score == Approx(-1000 * 10.5 * 10.5 / 69));
  CHECK(choice.worst.values[0] == 10.5);
  // Opening, others as chosen: from A + 2.2 x 10.5 = 68.1 up, so 69, to 99.
  CHECK(choice.low[0].good == 69);
  CHECK(choice.low[0].bad == 68);
  CHECK_THAT(choice.low[0].because, Contains("clearance"));
  CHECK(choice.high[0].good == 99);
  CHECK(choice.high[0].bad == 100);
  CHECK_THAT(choice.high[0].because, Contains("DROPPED"));
  // Plunger: 40 needs W <= 94, so 45 alone; it is the last of its levels.
  CHECK(choice.low[1].good == 45);
  CHECK(choice.low[1].bad == 40);
  CHECK(choice.high[1].at_end);
  // A band that may only go down from 99: all the way to 69, where all corners are good.
  REQUIRE(choice.bands.size() == 2);
  CHECK(choice.band_share == 1);
  CHECK(choice.bands[0].low == 69);
  CHECK(choice.bands[0].high == 99);
  CHECK(choice.bands[1].low == 45);
  CHECK(choice.bands[1].high == 45);
  CHECK(choice.candidates == 61 * 3);
  CHECK(choice.by_closed_forms + choice.by_passes + choice.not_better + 1 ==
        choice.candidates);
  // Fewer passes than all fixtures with all coupons.
  CHECK(trials.pushed < 61 * 3 * 2);
}

TEST_CASE("bands shrink until all their corners hold together", "[study][choose]")
{
  ChooseSpace made = space();
  // Every plunger of 36 to 50 mm: alone each key may go far, but not both at once.
  made.levels = {levels(60, 94), levels(36, 50)};
  MadeUpTrials        trials;
  const FixtureChoice choice = choose_fixture(made, trials, 1);
  REQUIRE(choice.fixture);
  // 94 mm is the end; with A = 40 or more: the first of those of equal force is taken.
  CHECK((*choice.fixture)[0] == 94);
  const double a = (*choice.fixture)[1];
  CHECK(a >= 40);
  REQUIRE(choice.bands.size() == 2);
  // Worst corners by hand: widest opening with narrowest plunger on 9 mm, narrowest opening
  // with widest plunger on 10.5 mm.
  CHECK(choice.bands[0].high <= choice.bands[1].low + 54 + 1e-9);
  CHECK(choice.bands[0].low >= choice.bands[1].high + 23.1 - 1e-9);
  CHECK(choice.band_share < 1);
  CHECK_FALSE(choice.wider.empty());
  // Half as far again would break one of these two conditions.
  const double wider = 1.5 * choice.band_share;
  const double low0  = 94 - wider * (94 - choice.low[0].good);
  const double low1  = a - wider * (a - choice.low[1].good);
  const double high1 = a + wider * (choice.high[1].good - a);
  CHECK((94 > low1 + 54 || low0 < high1 + 23.1));
}

TEST_CASE("a coupon inside the family that fails takes the fixture away", "[study][choose]")
{
  MadeUpTrials trials;
  trials.trap                = 9.8; // between the corners
  const FixtureChoice choice = choose_fixture(space(), trials, 1);
  CHECK_FALSE(choice.fixture);
  CHECK(choice.bands.empty());
  CHECK(choice.by_passes > 0);
  CHECK(choice.by_closed_forms + choice.by_passes == choice.candidates);
  CHECK(choice.objections.at("DROPPED") == choice.by_passes);
}

TEST_CASE("a family that no fixture takes is said to be one", "[study][choose]")
{
  ChooseSpace made = space();
  made.corners     = {{{3.}, {}}, {{30.}, {}}};
  MadeUpTrials        trials;
  const FixtureChoice choice = choose_fixture(made, trials, 1);
  CHECK_FALSE(choice.fixture);
  ChoiceReport report;
  report.space  = made;
  report.choice = choice;
  report.keys.free.resize(2);
  report.keys.family = {{"coupon.thickness", "mm", 1, 10}};
  CHECK_THAT(choice_words(report, UnitSystem::metric), Contains("None of these fixtures"));
  CHECK(nlohmann::json::parse(choice_json(report))["fixture"].is_null());
}

namespace
{
const std::string yard =
    "[coupon]\nlength = 160 mm\nwidth = 38 mm\nthickness = 10 mm\n"
    "[material]\nlaw = voce\nyield = 250 MPa\nsaturation = 200 MPa\nrate = 12\n"
    "hardening = 150 MPa\nelongation = 0.3\n"
    "[plunger]\nwidth = 40 mm\n[shoulders]\nradius = 20 mm\nopening = 63.2 mm\n"
    "[friction]\nplunger = 0.12\nshoulders = 0.12\n[ram]\ncapacity = 80 kN\nstroke = 120 "
    "mm\n";

StudyPass made_up(const Case &c)
{
  StudyPass    pass;
  const double room                    = c.fixture.clearance(c.coupon.thickness);
  pass.outcome                         = "through";
  pass.accuracy                        = "sound";
  pass.metal                           = "within";
  pass.verdict                         = "THROUGH: made up";
  pass.figures["peak_ram_force_N"]     = 30000 - 1000 * room;
  pass.figures["largest_travel_mm"]    = 60;
  pass.figures["peak_face_elongation"] = 0.27;
  if (room < 1.5)
    pass.events = {"leg ironed"};
  return pass;
}
std::string verdict_of(const StudyPass &pass)
{
  return pass.verdict;
}
} // namespace

TEST_CASE("real cases: check discards, events and metal are no sound pass",
          "[study][choose]")
{
  const StudyCase base(yard, "yard.ini", {});
  ChoiceKeys      keys;
  keys.free   = {base.key("shoulders.opening", UnitSystem::metric)};
  keys.family = {base.key("coupon.thickness", UnitSystem::metric)};
  CaseTrials trials(
      base, keys, ChoiceGoal::least_force,
      [&](const std::vector<StudyPoint> &points)
      {
        std::vector<StudyPass> passes;
        for (const StudyPoint &point : points)
          passes.push_back(made_up(*base.at(keys.all(), point).value));
        return passes;
      },
      verdict_of);
  ChooseSpace made;
  made.levels  = {{58, 60, 61, 62, 63, 64, 65}};
  made.corners = {{{9.}, {}}, {{10.5}, {}}};
  made.sample  = {{{9.9}, {}}};
  // 10.5 mm needs more than 61 mm to have any room, by hand (W - 40) / 2 - t; check says
  // no.
  CHECK_FALSE(trials.screen({{60}, {{10.5}, {}}}).objection.empty());
  CHECK(trials.screen({{65}, {{10.5}, {}}}).objection.empty());
  // A thin coupon in a wide opening loses its support as a V, and goes through all the
  // same.
  CHECK_THAT(trials.screen({{72}, {{9.}, {}}}).objection, Contains("long enough"));
  ChoiceReport report;
  report.keys   = keys;
  report.space  = made;
  report.choice = choose_fixture(made, trials, 1);
  REQUIRE(report.choice.fixture);
  // The widest has the least force; the leg is ironed below 1.5 mm of room, 64 mm.
  CHECK((*report.choice.fixture)[0] == 65);
  CHECK(report.choice.low[0].good == 64);
  CHECK(report.choice.low[0].bad == 63);
  const std::string words = choice_words(report, UnitSystem::metric);
  CHECK_THAT(words, Contains("shoulders.opening") && Contains("65 mm") &&
                        Contains("64 mm to 65 mm") && Contains("coupon.thickness 10.5 mm"));
  const auto json = nlohmann::json::parse(choice_json(report));
  CHECK(json["fixture"]["shoulders.opening"] == 65);
  CHECK(json["family"]["coupon.thickness"][0] == 9);
  CHECK(json["limited_by"][0]["low"]["value"] == 64);
  CHECK(json["bands"][0]["high"] == 65);
  const std::vector<SizeLimits> limits = chosen_limits(report);
  REQUIRE(limits.size() == 1);
  CHECK(limits[0].letter == "C"); // the opening, as the drawing's table names it
  CHECK(limits[0].range.low == 64);
  CHECK(limits[0].range.high == 65);

  CHECK(trials.metal_not_known() == 0);
  CHECK_THAT(words, !Contains("NOT cleared"));

  // A metal that states nothing: the coupon goes through, and that clears no metal.
  CaseTrials silent(
      base, keys, ChoiceGoal::least_force,
      [&](const std::vector<StudyPoint> &points)
      {
        StudyPass pass = made_up(base.own());
        pass.metal     = "not known";
        pass.events.clear();
        return std::vector<StudyPass>(points.size(), pass);
      },
      verdict_of);
  CHECK(silent.push({{{65}, {{10.}, {}}}, {{64}, {{10.}, {}}}})[0].good);
  CHECK(silent.metal_not_known() == 2);
  report.metal_not_known = 2;
  CHECK_THAT(choice_words(report, UnitSystem::metric),
             Contains("NOT cleared: of 2 passes"));
  CHECK(nlohmann::json::parse(choice_json(report))["metal_not_known"] == 2);

  // Most margin: 60 mm of 120 mm of stroke, force, and 0.27 of an elongation of 0.3; the
  // least is that of the stretch, 0.1, by hand.
  CaseTrials margin(
      base, keys, ChoiceGoal::most_margin,
      [&](const std::vector<StudyPoint> &points)
      { return std::vector<StudyPass>(points.size(), made_up(base.own())); },
      verdict_of);
  CHECK(margin.push({{{65}, {{10.}, {}}}})[0].score == Approx(0.1));

  // What is beyond what the metal bears, or undecided, is not good.
  for (const char *fault : {"metal", "outcome", "accuracy", "close"})
  {
    CaseTrials bad(
        base, keys, ChoiceGoal::least_force,
        [&](const std::vector<StudyPoint> &)
        {
          StudyPass pass = made_up(base.own());
          pass.events.clear();
          if (fault == std::string("metal"))
            pass.metal = "beyond";
          if (fault == std::string("outcome"))
            pass.outcome = "undecided";
          if (fault == std::string("accuracy"))
            pass.accuracy = "low";
          if (fault == std::string("close"))
            pass.verdict = "THROUGH (close: made up could turn it): made up";
          return std::vector<StudyPass>{pass};
        },
        [](const StudyPass &) { return "in the reader's units"; });
    INFO(fault);
    const Judged judged = bad.push({{{65}, {{10.}, {}}}})[0];
    CHECK_FALSE(judged.good);
    CHECK_THAT(judged.words, Contains("in the reader's units"));
  }
}

TEST_CASE("a fixture whose jack or tools check refuses is not chosen", "[study][choose]")
{
  const auto objection = [](const std::vector<std::string> &more)
  {
    const StudyCase base(yard, "yard.ini", more);
    ChoiceKeys      keys;
    keys.free = {base.key("shoulders.opening", UnitSystem::metric)};
    CaseTrials trials(base, keys, ChoiceGoal::least_force, {}, verdict_of);
    return trials.screen({{65}, {}}).objection;
  };
  CHECK(objection({}) == "");
  // Pi/4 of (20 mm)^2 at the gauge's usual 70 MPa are 22 kN, less than the coupon takes.
  CHECK_THAT(objection({"--jack.bore", "20 mm"}), Contains("gauge"));
  CHECK_THAT(objection({"--shoulders.yield", "100 MPa"}), Contains("shoulder"));
}

TEST_CASE("a rule discards the fixtures that are outside of it", "[study][choose]")
{
  // asme-ix-plunger-general: opening A + 3 t within limits, see the catalogue's row.
  const StudyCase base(yard + "[fixture]\nrule = asme-ix-plunger-general\n", "yard.ini",
                       {});
  ChoiceKeys      keys;
  keys.free   = {base.key("plunger.width", UnitSystem::metric)};
  keys.family = {base.key("coupon.thickness", UnitSystem::metric)};
  CaseTrials trials(base, keys, ChoiceGoal::least_force, {}, verdict_of);
  // A plunger of 4 t: 40 mm for 10 mm; 30 mm is 10 mm off.
  CHECK_THAT(trials.screen({{30}, {{10.}, {}}}).objection, Contains("rule asme-ix"));
}
