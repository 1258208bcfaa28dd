// The fit of readings on made-up passes: forces in closed form, so that friction, factor
// and zeros are known. Noise and seeds are invented; what is compared with is computed by
// hand or is the frequency that an interval promises.

#include "postprocess/fit/fit_words.h"
#include "solver/study/fit/fit_judgement.h"
#include "solver/study/fit/fitted_case.h"
#include "solver/study/fit/other_units.h"
#include "tests/support/flow_curves.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
/// A force like that of a bend: a plateau after the hinge, a hump at 40 mm that friction
/// raises, and a stiffness that no strength changes before yield.
double made_up_force(const double travel, const FitPoint &point)
{
  if (travel <= 0)
    return 0;
  const double hump    = std::exp(-std::pow((travel - 40) / 18, 2));
  const double plastic = point.factor * (12000 + 15000 * hump * (1 + 2 * point.friction));
  return plastic * (1 - std::exp(-30000 * travel / plastic));
}

FitPass made_up_pass(const FitPoint &point, const double mesh)
{
  FitPass pass;
  pass.point   = point;
  pass.outcome = "through";
  pass.lets_go = true;
  for (double travel = 0.02; travel <= 80; travel += travel < 4 ? 0.02 : 0.25)
  {
    pass.travel.push_back(travel);
    pass.force.push_back(mesh * made_up_force(travel, point));
  }
  pass.ends[EndKind::springback] = 1.6 * point.factor;
  return pass;
}

struct Maker
{
  double      coarse = 1; ///< what the own mesh makes of the force
  std::size_t passes = 0;

  std::optional<std::vector<FitPass>> operator()(const std::vector<FitAsk> &asks)
  {
    std::vector<FitPass> made;
    for (const FitAsk &ask : asks)
      made.push_back(made_up_pass(ask.point, ask.mesh == FitMesh::own ? coarse : 1));
    passes += made.size();
    return made;
  }
};

struct Zeros
{
  double travel = 0, force = 0;
};

/// Rounds to the marks of a ruler [mm] and a gauge [N].
void put_marks(ShopReadings &readings, const double travel, const double force)
{
  readings.travel_mark = travel;
  readings.force_mark  = force;
  for (Reading &reading : readings.push)
  {
    reading.travel = travel * std::round(reading.travel / travel);
    reading.force  = force * std::round(reading.force / force);
  }
}

FitQuestion question_of(const FitPoint &truth, const double last, const double noise,
                        const unsigned seed, const Zeros &zeros = {})
{
  std::mt19937               draw(seed);
  std::normal_distribution<> normal;
  FitQuestion                question;
  question.friction             = 0.1;
  question.readings.file        = "r.csv";
  question.readings.force_unit  = "kN";
  question.readings.travel_unit = "mm";
  for (int i = 0; i < 40; ++i)
  {
    const double travel = 1 + (last - 1) * i / 39;
    question.readings.push.push_back(
        {travel + zeros.travel,
         made_up_force(travel, truth) * (1 + noise * normal(draw)) + zeros.force,
         static_cast<std::size_t>(i + 2)});
  }
  return question;
}

FitSearch search_of(const FitQuestion &question, Maker make = {})
{
  return fit_search(question, other_units(question.readings), std::ref(make));
}

bool is_inside(const FitSearch &search, const std::size_t k, const double truth)
{
  return std::abs(search.fit.estimate[k] - truth) <=
         search.fit.width * std::sqrt(search.covariance[k][k]);
}
} // namespace

TEST_CASE("runs of signs are judged as Wald and Wolfowitz do", "[study][fit]")
{
  std::vector<double> halves(20, 1.), turns;
  for (std::size_t i = 10; i < 20; ++i)
    halves[i] = -1;
  for (int i = 0; i < 20; ++i)
    turns.push_back(i % 2 == 0 ? 1 : -1);
  // By hand: 10 and 10, mean 11, variance 36000 / 7600; 2 runs are 4.135 off, 20 as much.
  CHECK(runs_chance(halves) == Approx(3.55e-5).epsilon(0.01));
  CHECK(runs_chance(turns) == Approx(3.55e-5).epsilon(0.01));
  CHECK(runs_chance({1, 1, -1}) == 1); // too few to tell
  CHECK(runs_chance(std::vector<double>(10, 1.)) == Approx(std::pow(0.5, 9)));
}

TEST_CASE("a surface goes through its passes, and nearly through others", "[study][fit]")
{
  std::vector<FitPass> passes;
  for (const FitPoint &point : std::vector<FitPoint>{
           {0.1, 1}, {0.05, 1}, {0.15, 1}, {0.1, 0.94}, {0.1, 1.06}, {0.15, 1.06}})
    passes.push_back(made_up_pass(point, 1));
  const PassSurface surface(passes);
  for (const FitPass &pass : passes)
    CHECK(surface.force(33, pass.point) == Approx(force_at(pass, 33)));
  CHECK(surface.force(33, {0.12, 1.03}) ==
        Approx(made_up_force(33, {0.12, 1.03})).epsilon(1e-3));
  CHECK(surface.force(-1, {0.12, 1}) == 0);
  CHECK(surface.force(90, {0.12, 1}) == 0); // the coupon has left
  CHECK(surface.end(EndKind::springback, {0.1, 1.1}) == Approx(1.76));
  CHECK(std::isnan(surface.end(EndKind::nose_gap, {0.1, 1})));

  PassSurface corrected(passes);
  corrected.correct_by(made_up_pass({0.1, 1}, 1.02));
  const FitPass finer = made_up_pass({0.1, 1}, 1.02);
  CHECK(corrected.force(33, {0.1, 1}) == Approx(force_at(finer, 33)));
}

TEST_CASE("a cut pass is not known beyond its end", "[study][fit]")
{
  FitPass pass = made_up_pass({0.1, 1}, 1);
  pass.lets_go = false;
  CHECK(std::isnan(force_at(pass, 90)));
  CHECK(PassSurface({pass}).covered() == Approx(pass.travel.back()));
}

TEST_CASE("the standard error of a factor alone is that of a straight line", "[study][fit]")
{
  FitQuestion question   = question_of({0.1, 1.05}, 60, 0.02, 5);
  question.held          = {true, false, true, true};
  const FitSearch search = search_of(question);
  // A regression through 0 with weights: var(s) = scatter / sum (f/sigma)^2, where f is the
  // force for a factor of 1. The made-up force is not quite in proportion below 3 mm.
  double sum = 0;
  for (std::size_t i = 0; i < question.readings.push.size(); ++i)
    sum += std::pow(
        made_up_force(question.readings.push[i].travel, {0.1, 1}) / search.fit.sigma[i], 2);
  CHECK(std::sqrt(search.fit.covariance[1][1]) ==
        Approx(1 / std::sqrt(sum)).epsilon(0.35)); // Huber's factor, scatter, lag
  CHECK(is_inside(search, 1, 1.05));
  CHECK(search.fit.noise == Approx(1).margin(0.45)); // 2 % is what is usual
}

TEST_CASE("exact readings give back the truth, zeros too", "[study][fit]")
{
  const FitSearch search = search_of(question_of({0.23, 1.17}, 70, 0, 1, {1.2, 400}));
  CHECK(search.fit.estimate[0] == Approx(0.23).margin(0.004));
  CHECK(search.fit.estimate[1] == Approx(1.17).margin(0.006));
  CHECK(search.fit.estimate[2] == Approx(1.2).margin(0.05));
  CHECK(search.fit.estimate[3] == Approx(400).margin(60));
}

TEST_CASE("intervals of 95 % hold the truth about so often", "[study][fit]")
{
  const FitPoint truths[] = {{0.05, 0.9}, {0.12, 1.0}, {0.30, 1.1}};
  for (const bool has_marks : {false, true})
  {
    int friction = 0, factor = 0;
    for (unsigned seed = 0; seed < 20; ++seed)
    {
      const FitPoint &truth    = truths[seed % 3];
      FitQuestion     question = question_of(truth, 70, 0.02, 1000 + seed, {0.5, -200});
      if (has_marks)
        put_marks(question.readings, 0.5, 250);
      const FitSearch search = search_of(question);
      friction += is_inside(search, 0, truth.friction) ? 1 : 0;
      factor += is_inside(search, 1, truth.factor) ? 1 : 0;
    }
    CAPTURE(has_marks);
    // Binomial (20, 0.95): 16 or fewer has a chance of 1.6 %, by hand.
    CHECK(friction >= 17);
    CHECK(factor >= 17);
  }
}

TEST_CASE("a coarse mesh is corrected, and its error is in the interval", "[study][fit]")
{
  Maker coarse;
  coarse.coarse        = 0.97;
  FitQuestion question = question_of({0.12, 1}, 70, 0.01, 1);
  question.held = {false, false, true, true}; // the zeros could stand for a mesh, too
  const FitSearch search = search_of(question, coarse);
  CHECK(search.fit.estimate[1] == Approx(1).margin(0.02));
  CHECK(search.by_mesh[1] == Approx(-0.03).margin(0.006));
  CHECK(search.mesh_change == Approx(0.02).margin(0.012));
  CHECK(std::sqrt(search.covariance[1][1]) > 0.4 * 0.03);
}

TEST_CASE("what readings cannot tell apart is said, with what would help", "[study][fit]")
{
  const FitQuestion  question  = question_of({0.12, 1}, 14, 0.02, 3);
  const FitSearch    search    = search_of(question);
  const FitJudgement judgement = judged(search, question);
  CHECK(judgement.verdict == FitVerdict::not_apart);
  CHECK_FALSE(judgement.friction_known);
  CHECK_FALSE(is_offered(judgement));
  REQUIRE_FALSE(judgement.advice.empty());
  bool later = false;
  for (const FitAdvice &advice : judgement.advice)
    if (advice.says.find("past the largest force") != std::string::npos)
    {
      later = true;
      CHECK(advice.friction < 0.5 * judgement.half[0]);
    }
  CHECK(later);

  FitQuestion held          = question;
  held.held                 = {true, false, true, true};
  held.friction             = 0.12;
  const FitSearch    found  = search_of(held);
  const FitJudgement answer = judged(found, held);
  CHECK(answer.verdict == FitVerdict::good);
  CHECK(is_inside(found, 1, 1));
}

TEST_CASE("what further readings are promised to give they give", "[study][fit]")
{
  // A ruler with marks of 1 mm, where the force rises by 0.4 kN a mm: half a mark is more
  // than the gauge's 0.01 kN. Ten more readings, taken as the advice says.
  const FitPoint truth{0.12, 1};
  FitQuestion    question = question_of(truth, 14, 0, 3);
  put_marks(question.readings, 1, 10);
  const FitSearch    search    = search_of(question);
  const FitJudgement judgement = judged(search, question);
  REQUIRE_FALSE(judgement.advice.empty());
  const auto promised =
      std::find_if(judgement.advice.begin(), judgement.advice.end(),
                   [](const FitAdvice &advice) {
                     return advice.says.find("past the largest force") != std::string::npos;
                   });
  REQUIRE(promised != judgement.advice.end());

  for (int i = 1; i <= 10; ++i)
  {
    const double travel = 14 + (65. - 14) * i / 10;
    question.readings.push.push_back(
        {travel, made_up_force(travel, truth), static_cast<std::size_t>(42 + i)});
  }
  put_marks(question.readings, 1, 10);
  const FitJudgement then = judged(search_of(question), question);
  CHECK(then.half[0] < 1.5 * promised->friction);
  CHECK(then.half[1] < 1.5 * promised->factor);
}

TEST_CASE("a springback that does not go with the force is no fit", "[study][fit]")
{
  FitQuestion question = question_of({0.12, 1}, 70, 0.01, 1);
  question.held        = {false, false, true, true};
  question.readings.ends.push_back({EndKind::springback, 1.6, 0.2, 0});
  CHECK(judged(search_of(question), question).verdict == FitVerdict::good);
  question.readings.ends.back().value = 9; // 37 standard errors
  const FitSearch    search           = search_of(question);
  const FitJudgement judgement        = judged(search, question);
  CHECK(judgement.verdict == FitVerdict::unexplained);
  CHECK(judgement.end_missed == EndKind::springback);
  CHECK_FALSE(is_offered(judgement));
}

TEST_CASE("elastic readings tell no strength", "[study][fit]")
{
  FitQuestion question = question_of({0.12, 1}, 0.5, 0.01, 3);
  for (std::size_t i = 0; i < question.readings.push.size(); ++i)
  {
    Reading &reading = question.readings.push[i];
    reading.travel   = 0.002 * static_cast<double>(i + 1);
    reading.force    = made_up_force(reading.travel, {0.12, 1});
  }
  question.held                = {false, false, true, true};
  const FitJudgement judgement = judged(search_of(question), question);
  CHECK(judgement.verdict == FitVerdict::elastic);
}

TEST_CASE("a wrong unit is named", "[study][fit]")
{
  struct Slip
  {
    double      force, travel;
    const char *given_force, *given_travel, *says;
  };
  for (const Slip &slip : {Slip{1 / 9.80665, 1, "kN", "mm", "metric-tonf and not in kN"},
                           Slip{1000, 1, "kN", "mm", "in N and not in kN"},
                           Slip{1 / 4.4482216, 1, "kN", "mm", "kip and not in kN"},
                           Slip{1, 0.1, "kN", "mm", "cm and not in mm"}})
  {
    FitQuestion question = question_of({0.12, 1}, 70, 0.02, 4);
    for (Reading &reading : question.readings.push)
    {
      reading.force *= slip.force;
      reading.travel *= slip.travel;
    }
    question.readings.force_unit  = slip.given_force;
    question.readings.travel_unit = slip.given_travel;
    const FitSearch search        = search_of(question);
    CHECK_THAT(search.wrong_units.at(0), Contains(slip.says));
    CHECK(judged(search, question).verdict == FitVerdict::wrong_unit);
  }
  FitQuestion pressure         = question_of({0.12, 1}, 70, 0.02, 4);
  pressure.readings.force_from = ForceFrom::pressure;
  pressure.readings.force_unit = "bar";
  for (Reading &reading : pressure.readings.push)
    reading.force *= 14.5038; // the gauge shows psi
  CHECK_THAT(search_of(pressure).wrong_units.at(0), Contains("in psi and not in bar"));
  CHECK(search_of(question_of({0.3, 1.3}, 70, 0.02, 4)).wrong_units.empty());
}

TEST_CASE("a pattern that no friction and strength make is not offered", "[study][fit]")
{
  FitQuestion rising = question_of({0.12, 1}, 70, 0.02, 6);
  for (Reading &reading : rising.readings.push)
    if (reading.travel > 55)
      reading.force += 3000 * (reading.travel - 55); // the coupon jams
  const FitJudgement jammed = judged(search_of(rising), rising);
  CHECK(jammed.verdict == FitVerdict::unexplained);
  CHECK_FALSE(is_offered(jammed));

  FitQuestion other = question_of({0.12, 1}, 70, 0.02, 6);
  for (Reading &reading : other.readings.push)
    reading.force = 9000 + 350 * reading.travel; // of a fixture without a hump
  CHECK_FALSE(is_offered(judged(search_of(other), other)));
}

TEST_CASE("friction goes to all tools with the same grease, strength to all zones",
          "[study][fit]")
{
  Case own;
  own.friction.shoulders           = 0.1;
  own.friction.other_left_shoulder = 0.1;
  own.friction.plunger             = 0.05;
  own.friction.lubricant           = "grease";
  own.material.flow                = linear_hardening(250, 1000);
  own.weld.metal_flow.own          = true;
  own.weld.metal_flow.curve        = own.material.flow;
  CHECK(friction_keys(own) == "friction.shoulders, friction.left_shoulder");
  CHECK(frictions_that_stay(own) == "friction.plunger = 0.05");
  const Case c = case_at(own, {0.2, 1.1});
  CHECK(c.friction.shoulders == 0.2);
  CHECK(c.friction.other_left_shoulder == 0.2);
  CHECK(c.friction.plunger == 0.05);
  CHECK(c.friction.lubricant.empty());
  CHECK(c.material.flow.stress(0.1) == Approx(1.1 * own.material.flow.stress(0.1)));
  CHECK(c.weld.metal_flow.curve.yield == Approx(275));
  const Case same = case_at(own, {0.1, 1});
  CHECK(same.friction.lubricant == "grease");
}
