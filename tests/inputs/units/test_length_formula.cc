// Values by hand; notation as shops and rules write it.

#include "inputs/catalogue/rule_cells.h"
#include "inputs/units/length_formula.h"
#include "inputs/units/shop_fraction.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <string>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
double value_of(const std::string &text, const Lengths &known)
{
  const LengthFormula formula = LengthFormula::read(text, {"t", "A", "B", "C", "T", "t/e"});
  INFO(text << ": " << formula.error());
  REQUIRE(formula.ok());
  const auto value = formula.value(known);
  REQUIRE(value);
  return *value;
}

std::string error_of(const std::string &text)
{
  const LengthFormula formula = LengthFormula::read(text, {"t", "A"});
  INFO("'" << text << "' was taken");
  REQUIRE_FALSE(formula.ok());
  return formula.error();
}
} // namespace

TEST_CASE("lengths and multiples of the thickness add up", "[unit][rules]")
{
  const Lengths ten = {{"t", 10}};
  CHECK(value_of("4t", ten) == 40);
  CHECK(value_of("4 t", ten) == 40);
  CHECK(value_of("t", ten) == 10);
  CHECK(value_of("6t + 1/8 in", ten) == Approx(63.175));
  CHECK(value_of("6t+1/8in", ten) == Approx(63.175));
  CHECK(value_of("6t + 1/8\"", ten) == Approx(63.175));
  CHECK(value_of("16-1/2 t", ten) == 165);
  CHECK(value_of("3-1/3 t", ten) == Approx(100. / 3));
  CHECK(value_of("1-1/2 in", {}) == Approx(38.1));
  CHECK(value_of("1-1/2in - 2t", ten) == Approx(18.1));
  CHECK(value_of("-t + 30 mm", ten) == 20);
  CHECK(value_of("0.2t", ten) == 2);
  CHECK(value_of("t/2", ten) == 5);
  CHECK(value_of("3t/2", ten) == 15);
  CHECK(value_of("t + t", ten) == 20);
}

TEST_CASE("rules may build on their own figures", "[unit][rules]")
{
  CHECK(value_of("A + 2t + 1.6 mm", {{"A", 40}, {"t", 10}}) == Approx(61.6));
  CHECK(value_of("C/2 + 1/32 in", {{"C", 60}}) == Approx(30.79375));
  CHECK(value_of("t/e - t", {{"t", 10}, {"t/e", 50}}) == 40);
  CHECK_FALSE(LengthFormula::read("A + t", {"A", "t"}).value({{"t", 10}}));
  CHECK(LengthFormula::read("6t + 1/8 in", {"t"}).multiple_of("t") == 6);
  CHECK(LengthFormula::read("6t + 1/8 in", {"t"}).constant() == Approx(3.175));
}

TEST_CASE("what is no length is refused with an example", "[unit][rules]")
{
  for (const std::string text : {"", "4", "4x", "4 t 3", "t +", "+", "four t", "t * 4",
                                 "4t + 3", "t//2", "t/0", "t/t", "10 MPa", "1/0 t", "4tt"})
    CHECK_THAT(error_of(text), Contains("6t + 1/8 in"));
}

TEST_CASE("a dimension has a figure, limits, or both", "[unit][rules]")
{
  const std::vector<std::string> letters = {"A", "t"};
  const Lengths                  known   = {{"A", 40}, {"t", 10}};
  const DimensionRule both = read_dimension("A + 3t; > A + 2t; <= A + 3t", letters);
  REQUIRE(both.error.empty());
  CHECK(*both.value(known) == 70);
  CHECK(both.range(known).text(UnitKind::length, UnitSystem::metric) ==
        "above 60 mm, up to 70 mm");
  // The figure is kept within the limits; limits alone give the nearest one.
  CHECK(*read_dimension("4t; <= 32 mm", letters).value(known) == 32);
  CHECK(*read_dimension("<= 0.2t; <= 3 mm", letters).value(known) == 2);
  CHECK(*read_dimension(">= 4t", letters).value(known) == 40);
  CHECK_FALSE(read_dimension("", letters).present());
  CHECK_THAT(read_dimension("4t; 5t", letters).error, Contains("two figures"));
  CHECK_FALSE(read_dimension("< 4x", letters).error.empty());
}

TEST_CASE("ranges are read with their open and closed ends", "[unit][rules]")
{
  const Range range = read_range("> 50 MPa and < 90 MPa", UnitKind::stress).range;
  CHECK_FALSE(range.contains(50));
  CHECK(range.contains(50.001));
  CHECK_FALSE(range.contains(90));
  CHECK(read_range(">= 20 %", UnitKind::ratio).range.contains(0.2));
  CHECK(read_range("= 3/8 in", UnitKind::length).fixed());
  CHECK_FALSE(read_range("<= 3/8 in", UnitKind::length).fixed());
  CHECK(read_range("", UnitKind::length).range.contains(1e9));
  CHECK_THAT(read_range("50 ksi", UnitKind::stress).error, Contains("lacks <"));
  CHECK_THAT(read_range("< 50", UnitKind::stress).error, Contains("unit is missing"));
  CHECK_THAT(read_range("> 9 mm and < 5 mm", UnitKind::length).error, Contains("nothing"));
}

TEST_CASE("how figures were obtained is told for the row and for single columns",
          "[unit][rules]")
{
  const HowNotes how = read_how("read; D: from memory; C: computed");
  CHECK(how.error.empty());
  CHECK(how.of("A") == How::read);
  CHECK(how.of("D") == How::from_memory);
  CHECK(how.of("C") == How::computed);
  CHECK(how.any(How::from_memory));
  CHECK_FALSE(read_how("invented").any(How::read));
  CHECK_THAT(read_how("guessed").error, Contains("from memory"));
  CHECK_FALSE(read_how("").error.empty());
  CHECK_FALSE(read_how("D: read").error.empty());
}

TEST_CASE("inches are fractions where they are some", "[unit][units]")
{
  CHECK(inch_text(38.1) == "1-1/2 in");
  CHECK(inch_text(9.525) == "3/8 in");
  CHECK(inch_text(60.325) == "2-3/8 in");
  CHECK(inch_text(50.8) == "2 in");
  CHECK(inch_text(26.19375) == "1-1/32 in");
  CHECK(inch_text(0) == "0 in");
  CHECK(inch_text(-1.5875) == "-1/16 in");
  CHECK(inch_text(38.1 + 0.019) == "1-1/2 in");
  CHECK(inch_text(38.1 + 0.021) == "1.501 in");
  CHECK(inch_text(10) == "0.394 in");
  CHECK(inch_text(std::nan("")) == "unknown in");
  CHECK(both_text(38.1, UnitSystem::us) == "1-1/2 in (38.1 mm)");
  CHECK(both_text(38.1, UnitSystem::metric) == "38.1 mm (1-1/2 in)");
  CHECK(millimetre_text(60.325) == "60.33 mm");
  CHECK(millimetre_text(100) == "100 mm");
  CHECK(likely_system(9.525) == UnitSystem::us);
  CHECK(likely_system(10) == UnitSystem::metric);
}

TEST_CASE("a shown fraction reads back to within the slack, a decimal to half a thousandth",
          "[unit][units]")
{
  std::mt19937                           random(4);
  std::uniform_real_distribution<double> lengths(0.1, 400);
  for (int i = 0; i < 5000; ++i)
  {
    const double   length = lengths(random);
    const Quantity read   = read_quantity(inch_text(length), UnitKind::length);
    INFO(length << " " << inch_text(length));
    REQUIRE(read.ok());
    CHECK(std::abs(read.value - length) <= 0.02001);
  }
  for (int i = 1; i < 640; ++i)
  {
    const double length = i * 25.4 / 32;
    CHECK(read_quantity(inch_text(length), UnitKind::length).value ==
          Approx(length).epsilon(1e-12));
  }
}
