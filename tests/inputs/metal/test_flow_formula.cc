// Formulas against the same laws worked out without a parser: Voce (1948), Ludwik (1909),
// Swift (1952); see inputs/metal/flow_curve.h. Parameters are invented, other values by
// hand.

#include "inputs/keys/case_reader.h"
#include "inputs/keys/case_text.h"
#include "inputs/keys/starter_case.h"
#include "inputs/metal/considere.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
FlowFormula made(const std::string &expression, const std::string &constants)
{
  FlowFormula formula;
  formula.expression             = expression;
  const ConstantsReading reading = read_formula_constants(constants);
  INFO(reading.error);
  REQUIRE(reading.error.empty());
  formula.constants = reading.constants;
  REQUIRE(expression_fault(expression).empty());
  INFO(tabulate(formula));
  REQUIRE(formula.curve);
  return formula;
}

/// What is wrong with a formula as a flow curve; empty: nothing.
std::string fault(const std::string &expression, const std::string &constants)
{
  return made(expression, constants).curve->fault();
}

CaseReading read(const std::string &formula, const std::string &constants,
                 std::vector<std::string> more = {})
{
  std::vector<std::string> words = {"--material.law=formula",
                                    "--material.formula=" + formula,
                                    "--material.constants=" + constants};
  words.insert(words.end(), more.begin(), more.end());
  return read_case_text(starter_text(), "starter", words);
}

std::string errors(const std::string &formula, const std::string &constants,
                   std::vector<std::string> more = {})
{
  return error_list(read(formula, constants, std::move(more)).errors);
}
} // namespace

TEST_CASE("a tabulated formula keeps within its stated error", "[unit][formula]")
{
  struct Law
  {
    std::string                   expression, constants;
    std::function<double(double)> stress, slope;
  };
  // By hand; a saturating law, one without a slope at 0, one of both, one with a kink.
  const std::vector<Law> laws = {
      {"s0 + q*(1-exp(-b*p)) + h*p", "s0:250 MPa, q:200 MPa, b:12, h:150 MPa",
       [](double p) { return 250 + 200 * (1 - std::exp(-12 * p)) + 150 * p; },
       [](double p) { return 2400 * std::exp(-12 * p) + 150; }},
      {"s0 + k*p^n", "s0:280 MPa, k:0.5 GPa, n:0.2",
       [](double p) { return 280 + 500 * std::pow(p, 0.2); },
       [](double p) { return 100 * std::pow(p, -0.8); }},
      {"k*(e0+p)^n", "k:759 MPa, e0:0.388 %, n:0.2",
       [](double p) { return 759 * std::pow(0.00388 + p, 0.2); },
       [](double p) { return 151.8 * std::pow(0.00388 + p, -0.8); }},
      {"s0 + q1*(1-exp(-b1*p)) + q2*(1-exp(-b2*p))",
       "s0:30 ksi, q1:60 MPa, b1:400, q2:210 MPa, b2:6",
       [](double p) {
         return 206.84271879504 + 60 * (1 - std::exp(-400 * p)) +
                210 * (1 - std::exp(-6 * p));
       },
       [](double p) { return 24000 * std::exp(-400 * p) + 1260 * std::exp(-6 * p); }},
      {"max(s0, s0 + h*(p-e))", "s0:300 MPa, h:900 MPa, e:0.015",
       [](double p) { return std::max(300., 300 + 900 * (p - 0.015)); },
       [](double p) { return p > 0.015 ? 900. : 0.; }}};
  std::mt19937                           random(7);
  std::uniform_real_distribution<double> power(-8, 1);
  for (const Law &law : laws)
  {
    INFO(law.expression);
    const auto curve = made(law.expression, law.constants).curve;
    CHECK(curve->fault().empty());
    CHECK(curve->at(0).stress == Approx(law.stress(0)).epsilon(1e-12));
    for (int i = 0; i < 20000; ++i)
    {
      const double    p     = std::pow(10, power(random));
      const FlowState state = curve->at(p);
      REQUIRE(std::abs(state.stress - law.stress(p)) <=
              1.5 * TabulatedFlow::tolerance * law.stress(p));
      if (std::abs(p - 0.015) > 1e-3)
        REQUIRE(state.slope == Approx(law.slope(p)).epsilon(0.01).margin(1));
    }
  }
}

TEST_CASE("slope and work of a tabulated formula are those of its own curve",
          "[unit][formula]")
{
  const auto curve = made("s0 + k*p^n", "s0:280 MPa, k:500 MPa, n:0.2").curve;
  CHECK(curve->work(0.3) == // by hand: s0 p + k p^(n+1) / (n+1)
        Approx(280 * 0.3 + 500 * std::pow(0.3, 1.2) / 1.2).epsilon(1e-6));
  CHECK(curve->work(12) - curve->work(11) ==
        Approx((curve->at(11).stress + curve->at(12).stress) / 2).epsilon(1e-9));
  std::mt19937                           random(3);
  std::uniform_real_distribution<double> strain(1e-4, 9);
  for (int i = 0; i < 2000; ++i)
  {
    const double p = strain(random), step = 1e-7 * p;
    const double quotient =
        (curve->at(p + step).stress - curve->at(p - step).stress) / (2 * step);
    REQUIRE(curve->at(p).slope == Approx(quotient).epsilon(1e-3).margin(1e-3));
  }
}

TEST_CASE("scaling a formula scales its stresses and nothing else", "[unit][formula]")
{
  const FlowFormula own    = made("k*(e0+p)^n", "k:759 MPa, e0:0.00388, n:0.2");
  const FlowFormula scaled = own.scaled(0.8);
  CHECK(exact_text(scaled.constants) == "k:607.2 MPa, e0:0.00388, n:0.2");
  CHECK(scaled.curve->at(0.1).stress == Approx(0.8 * own.curve->at(0.1).stress));
  CHECK(scaled.curve->at(0.1).slope == Approx(0.8 * own.curve->at(0.1).slope));
  // As the scaled text reads.
  const FlowFormula again = made(scaled.expression, exact_text(scaled.constants));
  CHECK(again.curve->at(0.1).stress == Approx(scaled.curve->at(0.1).stress).epsilon(1e-9));
}

TEST_CASE("what is no flow curve is refused with its place", "[unit][formula]")
{
  CHECK_THAT(fault("k*p^n", "k:600 MPa, n:0.2"), Contains("is 0 MPa at p = 0"));
  CHECK_THAT(fault("-s*(1+p)", "s:300 MPa"), Contains("is -300 MPa at p = 0"));
  CHECK_THAT(fault("s + k*ln(p)", "s:300 MPa, k:10 MPa"),
             Contains("is not a finite number at p = 0"));
  CHECK_THAT(fault("s + a*p - b*p^2", "s:300 MPa, a:800 MPa, b:1000 MPa"),
             Contains("falls"));
  CHECK_THAT(fault("p < 0.1 ? s : 1.1*s", "s:300 MPa"), Contains("jumps from 300"));
  CHECK_THAT(fault("p > 0 ? 1.2*s : s", "s:300 MPa"), Contains("jumps from 300 MPa"));
  CHECK_THAT(fault("s*(1 + sqrt(0.5-p))", "s:300 MPa"), Contains("falls"));
  CHECK_THAT(fault("s*(2 - sqrt(0.5-p))", "s:300 MPa"),
             Contains("is not a finite number at p = 0.5"));
  CHECK(fault("s", "s:300 MPa").empty());
  // By hand: the parabola's top is at p = 0.4.
  CHECK(made("s + a*p - b*p^2", "s:300 MPa, a:800 MPa, b:1000 MPa").curve->fault_strain() ==
        Approx(0.4).margin(0.006));
}

TEST_CASE("kinks are found where they are", "[unit][formula]")
{
  const auto kinks = [](const std::string &expression, const std::string &constants)
  { return made(expression, constants).curve->kinks(); };
  CHECK(kinks("s0 + k*p^n", "s0:280 MPa, k:500 MPa, n:0.1").empty());
  CHECK(kinks("s0 + q*(1-exp(-b*p))", "s0:280 MPa, q:500 MPa, b:3000").empty());
  const auto found = kinks("max(s0, s0 + h*(p-e))", "s0:300 MPa, h:900 MPa, e:0.0153");
  REQUIRE(found.size() == 1);
  CHECK(found.front() == Approx(0.0153).epsilon(0.001));
}

TEST_CASE("slips of the pen in a formula are named", "[unit][formula]")
{
  CHECK_THAT(expression_fault(""), Contains("has no value"));
  CHECK_THAT(expression_fault("s0 + "), Contains("is no formula"));
  CHECK_THAT(expression_fault("s0 + q*(1-exp(-b*p)"), Contains("is no formula"));
  CHECK_THAT(expression_fault("p = 3"), Contains("sets something"));
  CHECK_THAT(expression_fault("s0*log(1+p)"), Contains("ln or log10"));
  CHECK_THAT(expression_fault("s0 + 0,5*q"), Contains("comma"));
  CHECK_THAT(expression_fault("\"s0\""), Contains("character"));
  CHECK_THAT(expression_fault("s0; rm"), Contains("character"));
  CHECK_THAT(expression_fault(std::string(400, '(')), Contains("longer"));
  CHECK_THAT(expression_fault(std::string(290, '(')), Contains("is no formula"));
  CHECK(expression_fault("p >= 0.02 ? s0 : s0*(1+p)").empty());
  CHECK_THAT(read_formula_constants("s0 355 MPa").error, Contains("no colon"));
  CHECK_THAT(read_formula_constants("s0:355 MPa, s0:3 MPa").error, Contains("twice"));
  CHECK_THAT(read_formula_constants("p:0.2").error, Contains("plastic strain"));
  CHECK_THAT(read_formula_constants("exp:0.2").error, Contains("function"));
  CHECK_THAT(read_formula_constants("s 0:0.2").error, Contains("no name"));
  CHECK_THAT(read_formula_constants("s0:5 mm").error, Contains("neither a stress"));
  const std::string missing = errors("s0 + q*p", "s0:300 MPa");
  CHECK_THAT(missing, Contains("the formula has q, which is not among the constants"));
  CHECK_THAT(errors("s0*(1+p)", "s0:300 MPa, q:3"), Contains("q is not in the formula"));
  // A stress without a unit is nobody's MPa.
  CHECK_THAT(errors("300 + q*p", "q:900 MPa"), Contains("the formula is not a stress"));
  CHECK_THAT(errors("max(s0, 250) + s0*p", "s0:300 MPa"), Contains("is not a stress"));
  CHECK_THAT(errors("s0 + b*p", "s0:300 MPa, b:12"),
             Contains("the formula is not a stress"));
  CHECK_THAT(errors("s0*(1+p)", ""), Contains("material.constants"));
  CHECK_THAT(errors("", "s0:300 MPa"), Contains("material.formula"));
}

TEST_CASE("a case takes a formula as far as it is a flow curve", "[unit][formula]")
{
  const std::string parabola  = "s + a*p - b*p^2";
  const std::string constants = "s:300 MPa, a:800 MPa, b:1000 MPa";
  CHECK_THAT(errors(parabola, constants),
             Contains("the formula falls") && Contains("hold_slope or flat"));
  CHECK_THAT(errors(parabola, constants,
                    {"--material.last_strain=0.5", "--material.extrapolation=flat"}),
             Contains("the formula falls"));
  const CaseReading reading =
      read(parabola, constants,
           {"--material.last_strain=0.35", "--material.extrapolation=flat"});
  INFO(error_list(reading.errors));
  REQUIRE(reading.value);
  // Right up to where the formula ceases to be a flow curve; by hand 459.375 MPa.
  CHECK(made(parabola, constants).curve->at(0.375).stress == Approx(459.375).epsilon(1e-6));
  CHECK(made(parabola, constants).curve->at(0.395).stress == Approx(459.975).epsilon(1e-6));
  const FlowCurve &flow = reading.value->material.flow;
  CHECK(flow.stress(0.2) == Approx(420).epsilon(1e-6)); // by hand
  CHECK(flow.stress(3) == Approx(457.5).epsilon(1e-6)); // by hand, at 0.35
  CHECK(flow.yield == Approx(300));
  CHECK_THAT(errors("s0*(1+p)", "s0:0.5 MPa"), Contains("not a yield stress"));
  CHECK_THAT(errors("s0*(1+p)", "s0:50 GPa"), Contains("look at the units"));

  const CaseReading kinked =
      read("max(s0, s0 + h*(p-e))", "s0:300 MPa, h:900 MPa, e:0.015");
  REQUIRE(kinked.value);
  std::string remarks; // the starter's own keys of its law are remarked on too
  for (const std::string &remark : kinked.remarks)
    remarks += remark + "\n";
  CHECK_THAT(remarks, Contains("slope jumps at p = 0.015"));
}

TEST_CASE("a formula goes through the effective case and means the same",
          "[unit][formula][case_text]")
{
  const CaseReading first =
      read("s0 + q*(1-exp(-b*p)) + h*p", "s0:36.25943 ksi, q:200 MPa, b:12, h:150 MPa");
  REQUIRE(first.value);
  const CaseReading again = read_case_text(effective_text(*first.value), "printed", {});
  INFO(error_list(again.errors));
  REQUIRE(again.value);
  CHECK(case_hash(*again.value) == case_hash(*first.value));
  for (const double p : {0., 1e-6, 0.01, 0.2, 0.7, 3.})
    CHECK(again.value->material.flow.stress(p) == first.value->material.flow.stress(p));
  // One figure has one value everywhere: the same metal by the law of that name.
  const CaseReading voce = read_case_text(
      starter_text(), "starter", {"--material.law=voce", "--material.yield=36.25943 ksi"});
  REQUIRE(voce.value);
  CHECK(first.value->material.tensile_strength ==
        Approx(voce.value->material.tensile_strength).epsilon(1e-5));
  CHECK(case_hash(*voce.value) != case_hash(*first.value));
}

TEST_CASE("a weld's zone may have a formula of its own", "[unit][formula]")
{
  const std::vector<std::string> zone = {"--weld.width=12 mm", "--weld.metal_law=formula",
                                         "--weld_metal.formula=s*(1+p/e)^n"};
  const auto                     with = [&](const std::string &constants)
  {
    std::vector<std::string> words = zone;
    words.push_back("--weld_metal.constants=" + constants);
    return read_case_text(starter_text(), "starter", words);
  };
  const CaseReading good = with("s:400 MPa, e:0.004, n:0.1");
  INFO(error_list(good.errors));
  REQUIRE(good.value);
  CHECK(good.value->weld.metal_flow.curve.stress(0.1) ==
        Approx(400 * std::pow(26, 0.1)).epsilon(1e-6)); // by hand
  CHECK_THAT(error_list(with("s:400 MPa, e:0.004, n:-0.1").errors),
             Contains("weld_metal.formula") && Contains("falls"));
}
