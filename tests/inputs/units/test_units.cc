// Conversion factors: NIST Special Publication 811 (2008 edition), Appendix B.8, recalled
// from memory with the seven digits printed there; the exact definitions behind them
// (1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s^2) stand in the same appendix.

#include "inputs/units/units.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <string>
#include <vector>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
constexpr auto length = UnitKind::length;
constexpr auto force  = UnitKind::force;
constexpr auto stress = UnitKind::stress;

double value_of(const std::string &text, UnitKind kind)
{
  const Quantity quantity = read_quantity(text, kind);
  INFO(text << ": " << quantity.error);
  REQUIRE(quantity.ok());
  return quantity.value;
}

std::string error_of(const std::string &text, UnitKind kind)
{
  const Quantity quantity = read_quantity(text, kind);
  INFO("'" << text << "' was read as " << quantity.value);
  REQUIRE_FALSE(quantity.ok());
  return quantity.error;
}

/// Agreement to all seven digits that the table prints.
Approx seven_digits(double value)
{
  return Approx(value).epsilon(0.6e-6).margin(0);
}
} // namespace

TEST_CASE("metric lengths are read to the last bit", "[unit][units]")
{
  CHECK(value_of("9.5 mm", length) == 9.5);
  CHECK(value_of("9.5mm", length) == 9.5);
  CHECK(value_of("  1.6 cm ", length) == 16);
  CHECK(value_of("0.16 m", length) == 160);
  CHECK(value_of("9.5 um", length) == 0.0095);
  CHECK(value_of("9.5 \xC2\xB5m", length) == 0.0095);
  CHECK(value_of("-3 mm", length) == -3);
  CHECK(value_of("+3 mm", length) == 3);
  CHECK(value_of(".5 mm", length) == 0.5);
  CHECK(value_of("1.5e1 mm", length) == 15);
}

TEST_CASE("an inch is 25.4 mm by definition", "[unit][units]")
{
  CHECK(value_of("1 in", length) == 25.4);
  CHECK(value_of("1 inch", length) == 25.4);
  CHECK(value_of("1\"", length) == 25.4);
  CHECK(value_of("1 ft", length) == Approx(304.8).epsilon(1e-15));
}

TEST_CASE("fractions are read as shops write them", "[unit][units]")
{
  CHECK(value_of("3/8 in", length) == Approx(9.525).epsilon(1e-15));
  CHECK(value_of("3/8in", length) == Approx(9.525).epsilon(1e-15));
  CHECK(value_of("1-1/2in", length) == Approx(38.1).epsilon(1e-15));
  CHECK(value_of("1-1/2 in", length) == Approx(38.1).epsilon(1e-15));
  CHECK(value_of("1 1/2\"", length) == Approx(38.1).epsilon(1e-15));
  CHECK(value_of("2-3/8 in", length) == Approx(60.325).epsilon(1e-15));
  CHECK(value_of("-1-1/2 in", length) == Approx(-38.1).epsilon(1e-15));
  CHECK(value_of("7/4 in", length) == Approx(44.45).epsilon(1e-15));
  CHECK(value_of("1/2", UnitKind::ratio) == 0.5);
}

TEST_CASE("forces agree with the published factors", "[unit][units]")
{
  CHECK(value_of("80 kN", force) == 80000);
  CHECK(value_of("2 MN", force) == 2e6);
  CHECK(value_of("1 kgf", force) == seven_digits(9.80665));
  CHECK(value_of("1 lbf", force) == seven_digits(4.448222));
  CHECK(value_of("1 kip", force) == seven_digits(4448.222));
  CHECK(value_of("1 short-tonf", force) == seven_digits(8896.443));
}

TEST_CASE("the three tons are told apart", "[unit][units]")
{
  // A long ton is 2240 lb, a short ton 2000 lb, a tonne 1000 kg (NIST SP 811, App. B.8).
  CHECK(value_of("1 long-tonf", force) / value_of("1 short-tonf", force) == Approx(1.12));
  CHECK(value_of("1 metric-tonf", force) == seven_digits(9806.65));
  CHECK(value_of("1 tf", force) == value_of("1 metric-tonf", force));

  const Quantity plain = read_quantity("8 tonf", force);
  CHECK(plain.ok());
  CHECK(plain.value == value_of("8 short-tonf", force));
  CHECK_THAT(plain.note, Contains("short ton") && Contains("metric-tonf"));
  CHECK(read_quantity("8 short-tonf", force).note.empty());
}

TEST_CASE("a bare ton is refused with the three it may be", "[unit][units]")
{
  for (const std::string word : {"ton", "tons", "t", "T", "Tons", "tonne", "tonnes"})
    CHECK_THAT(error_of("8 " + word, force),
               Contains("short-tonf (2000 lbf, 8.896 kN)") &&
                   Contains("long-tonf (2240 lbf, 9.964 kN)") &&
                   Contains("metric-tonf (1000 kgf, 9.807 kN)"));
  CHECK_THAT(error_of("8 tonnf", force), Contains("unknown unit"));
  // The figures in the message, from the definitions.
  CHECK(value_of("1 short-tonf", force) == Approx(8896).margin(0.5));
  CHECK(value_of("1 long-tonf", force) == Approx(9964).margin(0.5));
  CHECK(value_of("1 metric-tonf", force) == Approx(9807).margin(0.5));
  // tonf is the least of them: a ram is never taken to be stronger than it is.
  CHECK(value_of("1 tonf", force) < value_of("1 metric-tonf", force));
  CHECK(value_of("1 tonf", force) < value_of("1 long-tonf", force));
}

TEST_CASE("spellings of a shop are taken", "[unit][units]")
{
  CHECK(value_of("50 ksi", stress) == seven_digits(344.7379));
  CHECK(value_of("50ksi", stress) == value_of("50 ksi", stress));
  CHECK(value_of("345MPa", stress) == 345);
  CHECK(value_of("3 inches", length) == Approx(76.2).epsilon(1e-15));
  CHECK(value_of("1-1/2\xE2\x80\xB3", length) == Approx(38.1).epsilon(1e-15));
  CHECK(value_of("1 1/2\xE2\x80\x9D", length) == Approx(38.1).epsilon(1e-15));
  CHECK(value_of("18 kips", force) == value_of("18 kip", force));
}

TEST_CASE("stresses, densities and energies agree with the published factors",
          "[unit][units]")
{
  CHECK(value_of("210 GPa", stress) == 210000);
  CHECK(value_of("250 N/mm^2", stress) == 250);
  CHECK(value_of("7 kPa", stress) == 0.007);
  CHECK(value_of("7 Pa", stress) == 7e-6);
  CHECK(value_of("1 bar", stress) == 0.1);
  CHECK(value_of("1 psi", stress) == seven_digits(6.894757e-3));
  CHECK(value_of("1 ksi", stress) == seven_digits(6.894757));
  CHECK(value_of("7.85 g/cm^3", UnitKind::density) == 7850);
  CHECK(value_of("1 lb/in^3", UnitKind::density) == seven_digits(2.767990e4));
  CHECK(value_of("1 J", UnitKind::energy) == 1000);
  CHECK(value_of("1 N m", UnitKind::energy) == 1000);
  CHECK(value_of("1 N mm", UnitKind::energy) == 1);
  CHECK(value_of("1 ft lbf", UnitKind::energy) == seven_digits(1355.818));
  CHECK(value_of("2 s", UnitKind::time) == 2);
}

TEST_CASE("angles, ratios and counts are read", "[unit][units]")
{
  CHECK(value_of("180 deg", UnitKind::angle) == Approx(std::acos(-1.)).epsilon(1e-15));
  CHECK(value_of("1 rad", UnitKind::angle) == 1);
  CHECK(value_of("12 %", UnitKind::ratio) == 0.12);
  CHECK(value_of("12%", UnitKind::ratio) == 0.12);
  CHECK(value_of("0.12", UnitKind::ratio) == 0.12);
  CHECK(value_of("4000", UnitKind::count) == 4000);
  CHECK_THAT(error_of("2.5", UnitKind::count), Contains("whole number"));
  CHECK_THAT(error_of("1e12", UnitKind::count), Contains("too large"));
}

TEST_CASE("a missing unit is refused and the possible ones are named", "[unit][units]")
{
  CHECK_THAT(error_of("10", length),
             Contains("unit is missing") && Contains("mm") && Contains("ft"));
  CHECK_THAT(error_of("0", length), Contains("unit is missing"));
  CHECK_THAT(error_of("80", force), Contains("kN") && Contains("long-tonf"));
  CHECK_THAT(error_of("3/8", length), Contains("unit is missing"));
}

TEST_CASE("a unit of another kind is called by its kind", "[unit][units]")
{
  CHECK_THAT(error_of("10 MPa", length), Contains("unit of stress") && Contains("length"));
  CHECK_THAT(error_of("80 mm", force), Contains("unit of length"));
  CHECK_THAT(error_of("10 mm", UnitKind::ratio), Contains("unit of length"));
  CHECK_THAT(error_of("10 %", length), Contains("unit of ratio"));
}

TEST_CASE("wrong capitals in a unit are refused with the right ones", "[unit][units]")
{
  // mPa and MPa differ by a factor of a thousand million; guessing is not for us.
  CHECK_THAT(error_of("250 mPa", stress), Contains("did you mean 'MPa'"));
  CHECK_THAT(error_of("80 KN", force), Contains("did you mean 'kN'"));
}

TEST_CASE("what is no plain finite number is refused in clear words", "[unit][units]")
{
  CHECK_THAT(error_of("", length), Contains("no value"));
  CHECK_THAT(error_of("   ", length), Contains("no value"));
  for (const std::string word : {"nan", "NaN mm", "inf mm", "-inf mm", "infinity mm"})
    CHECK_THAT(error_of(word, length), Contains("finite"));
  for (const std::string word : {"mm", "ten mm", "- mm", "--3 mm", "/8 in", ". mm",
                                 "\xE2\x88\x92"
                                 "3 mm"})
    CHECK_THAT(error_of(word, length), Contains("does not begin with a number"));
  CHECK_THAT(error_of("1,5 mm", length), Contains("comma"));
  CHECK_THAT(error_of("1,500.0 mm", length), Contains("comma"));
  CHECK_THAT(error_of("1e400 mm", length), Contains("too large"));
  CHECK_THAT(error_of("1e308 m", length), Contains("too large"));
  CHECK_THAT(error_of("1/0 in", length), Contains("divides by zero"));
  CHECK_THAT(error_of("1-5/4 in", length), Contains("below 1"));
  CHECK_THAT(error_of("10 mm 5", length), Contains("'5' stands after the unit"));
  CHECK_THAT(error_of("10 furlongs", length), Contains("unknown unit 'furlongs'"));
  CHECK_THAT(error_of("0x10 mm", length), Contains("unknown unit"));
  CHECK_THAT(error_of("1/2/3 in", length), Contains("unknown unit"));
  CHECK_THAT(error_of("5-3 mm", length), Contains("unknown unit"));
}

TEST_CASE("zero has no sign", "[unit][units]")
{
  CHECK_FALSE(std::signbit(value_of("-0 mm", length)));
}

TEST_CASE("people read six digits in the family they asked for", "[unit][units]")
{
  CHECK(to_text(9.525, length, UnitSystem::metric) == "9.525 mm");
  CHECK(to_text(9.525, length, UnitSystem::us) == "0.375 in");
  CHECK(to_text(80000, force, UnitSystem::metric) == "80 kN");
  CHECK(to_text(4448.2216152605, force, UnitSystem::us) == "1 kip");
  CHECK(to_text(1e9, force, UnitSystem::metric) == "1000000 kN");
  CHECK(to_text(250, stress, UnitSystem::metric) == "250 MPa");
  CHECK(to_text(1. / 3, UnitKind::ratio, UnitSystem::metric) == "0.333333");
  CHECK(to_text(40, UnitKind::count, UnitSystem::us) == "40");
}

TEST_CASE("exact text reads back as the very same number", "[unit][units]")
{
  std::mt19937                           random(20240611);
  std::uniform_real_distribution<double> digits(0.1, 1);
  std::uniform_int_distribution<int>     powers(-9, 9);
  for (const UnitKind kind : {length, force, stress, UnitKind::angle, UnitKind::ratio,
                              UnitKind::density, UnitKind::time, UnitKind::energy})
    for (int i = 0; i < 2000; ++i)
    {
      const double value = digits(random) * std::pow(10., powers(random));
      INFO(exact_text(value, kind));
      REQUIRE(value_of(exact_text(value, kind), kind) == value);
      REQUIRE(value_of(exact_text(-value, kind), kind) == -value);
    }
}

TEST_CASE("a number in inches is the very number in mm", "[unit][units]")
{
  // By hand, from 1 in = 25.4 mm; without rounding on the way.
  CHECK(value_of("3/8 in", length) == 9.525);
  CHECK(value_of("0.7 in", length) == 17.78);
  CHECK(value_of("2.3 in", length) == 58.42);
  CHECK(value_of("1-1/2 in", length) == 38.1);
  CHECK(value_of("7 ft", length) == 2133.6);
  CHECK(value_of("16.1 um", length) == 0.0161);
  CHECK(value_of("0.7 %", UnitKind::ratio) == 0.007);
  CHECK(exact_text(value_of("3/8 in", length), length) == "9.525 mm");
  // Sixteenths, as a shop has them: at most four decimals of a millimetre.
  for (int n = 1; n <= 160; ++n)
  {
    const std::string text =
        exact_text(value_of(std::to_string(n) + "/16 in", length), length);
    INFO(text);
    CHECK(text.size() <= std::string("254.1234 mm").size());
  }
}

TEST_CASE("round numbers have short exact texts", "[unit][units]")
{
  CHECK(exact_text(80000, force) == "80 kN");
  CHECK(exact_text(210000, stress) == "210 GPa");
  CHECK(exact_text(250, stress) == "250 MPa");
  CHECK(exact_text(63.2, length) == "63.2 mm");
  CHECK(exact_text(0, length) == "0 mm");
}
