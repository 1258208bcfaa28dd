// Readings of a push: travel and force from ruler, pump, gauge; what is refused. Figures
// are invented; areas and ratios by hand.

#include "inputs/case/shop_readings.h"
#include "inputs/text/input_error.h"

#include <catch2/catch.hpp>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
Case shop_case()
{
  Case c;
  c.ram.capacity         = 80000;
  c.ram.jack.bore        = 60;
  c.ram.jack.pump_bore   = 12;
  c.ram.jack.pump_stroke = 25;
  return c;
}

ShopReadings readings_of(const std::string &text, const Case &c = shop_case())
{
  return shop_readings(ShopTable::of_text(text, "r.csv"), c);
}

std::string refusal(const std::string &text, const Case &c = shop_case())
{
  try
  {
    readings_of(text, c);
  }
  catch (const InputError &error)
  {
    return error.what();
  }
  return "";
}

const std::string rows = "1;20\n2;22\n4;24\n5;26\n7;30\n9;32\n";
} // namespace

TEST_CASE("strokes and pressure become travel and force by the jack", "[unit][readings]")
{
  const ShopReadings read = readings_of("strokes;pressure [bar]\n" + rows);
  REQUIRE(read.push.size() == 6);
  // By hand: a stroke moves 25 mm x (12/60)^2 = 1 mm; 1 bar on pi 30^2 = 2827.43 mm^2.
  CHECK(read.push[2].travel == Approx(4));
  CHECK(read.push[2].force == Approx(2.4 * 2827.433388));
  CHECK(read.push[2].line == 4);
  CHECK(read.per_stroke == Approx(1));
  CHECK(read.travel_mark == Approx(1));
  CHECK(read.force_mark == Approx(0.2 * 2827.433388)); // 2 bar between neighbours
  CHECK(read.force_unit == "bar");
}

TEST_CASE("the head of the readings may say what the case does not", "[unit][readings]")
{
  Case bare              = shop_case();
  bare.ram.jack          = Jack{};
  const std::string head = "strokes;pressure [bar]\n" + rows;
  CHECK_THAT(refusal(head, bare),
             Contains("jack.bore, jack.pump_bore and jack.pump_stroke"));
  const ShopReadings read = readings_of(
      "jack bore = 2 in\ntravel per stroke = 0,8 mm\npressure mark = 5 bar\n" + head, bare);
  CHECK(read.push[0].travel == Approx(0.8));
  CHECK(read.push[0].force == Approx(2 * 2026.82991)); // pi 25.4^2
  CHECK(read.force_mark == Approx(0.5 * 2026.82991));
  CHECK_THAT(refusal("jack bore = 50 mm\n" + head),
             Contains("50.000 mm there and 60.000 mm"));
  CHECK_THAT(refusal("jack bor = 60 mm\n" + head), Contains("did you mean 'jack bore'?"));
}

TEST_CASE("measures of the bent coupon carry their error", "[unit][readings]")
{
  const std::string  table = "travel [mm];force [kN]\n" + rows;
  const ShopReadings read =
      readings_of("leg angle = 86.5 deg +- 1 deg\nnose gap = 2,2 mm\nweather: dry\n"
                  "# invented: no bench\n" +
                  table);
  REQUIRE(read.ends.size() == 2);
  CHECK(read.ends[0].kind == EndKind::leg_angle);
  CHECK(read.ends[0].value == Approx(86.5));
  CHECK(read.ends[0].error == Approx(0.5)); // +- is two standard errors
  CHECK(read.ends[1].value == Approx(2.2));
  REQUIRE(read.remarks.size() == 1);
  CHECK_THAT(read.remarks.at(0), Contains("'weather' is not used"));
  CHECK_THAT(refusal("leg angle = 86.5 mm\n" + table), Contains("is a unit of length"));
  CHECK_THAT(refusal("mark elongation = 20 %\n" + table), Contains("about a weld"));
}

TEST_CASE("readings of legs that only slide are left out, and that is said",
          "[unit][readings]")
{
  const std::string table = "travel [mm];force [kN]\n1;10\n2;15\n3;20\n5;30\n6;25\n7;6.1\n";
  const ShopReadings read = readings_of(table + "8;5.9\n9;6.1\n10;3\n");
  CHECK(read.push.size() == 6);
  CHECK(read.push.back().force == Approx(6100));
  REQUIRE(read.remarks.size() == 1);
  CHECK_THAT(read.remarks.at(0), Contains("r.csv:8 and further: 3 readings are left out"));
  // The jack's own rise from nothing is no slide.
  CHECK(readings_of("travel [mm];force [kN]\n0;0\n1;1\n2;15\n3;20\n5;30\n6;25\n")
            .push.size() == 6);
  CHECK_THAT(refusal("travel [mm];force [kN]\n3;20\n5;30\n6;25\n7;5\n8;4\n9;3\n"),
             Contains("only 3 readings are from before"));
}

TEST_CASE("marks are seen in rounded readings only", "[unit][readings]")
{
  const ShopReadings read =
      readings_of("travel [mm];force [kN]\n0.5;10\n1;10.5\n2;12\n2.5;13.5\n4;15\n6;18\n");
  CHECK(read.travel_mark == Approx(0.5));
  CHECK(read.force_mark == Approx(500));
  // No two neighbours stand one mark apart.
  CHECK(readings_of("travel [mm];force [kN]\n1;10\n2.5;11\n4.5;12\n6;15\n8;17\n9.5;18\n")
            .travel_mark == Approx(0.5));
  // Every fifth millimetre is where it was read, not what the ruler shows.
  CHECK(readings_of("travel [mm];force [kN]\n5;10\n10;11\n15;12\n20;15\n25;17\n30;18\n")
            .travel_mark == Approx(25.4 / 16));
  CHECK(readings_of("travel [mm];force [kN]\n0.51;10.11\n1.02;10.57\n2.2;12.3\n2.51;13.52\n"
                    "4.13;15.17\n6.01;18.29\n")
            .force_mark == 0);
}

TEST_CASE("what cannot be one push is refused with the cure", "[unit][readings]")
{
  const std::string head = "travel [mm];force [kN]\n";
  CHECK_THAT(refusal(head + "1;2\n2;3\n"),
             Contains("2 readings") && Contains("at least 6"));
  CHECK_THAT(refusal(head + "1;2\n2;3\n4;4\n3;5\n5;6\n6;7\n"),
             Contains("r.csv:5") && Contains("4.00 mm to 3.00 mm"));
  CHECK_THAT(refusal(head + "1;2\n2;-3\n4;4\n5;5\n6;6\n7;7\n"),
             Contains("r.csv:3") && Contains("below 0"));
  CHECK_THAT(refusal(head + "1;2\n2;3\n4;4\n5;5\n6;6\n7;95\n"),
             Contains("95.0 kN is beyond what the case's ram can give (80.0 kN)"));
  std::string log = head;
  for (int i = 1; i <= 1001; ++i)
    log += std::to_string(i) + ";5\n";
  CHECK_THAT(refusal(log), Contains("1001 readings") && Contains("every 5th row"));
  CHECK_THAT(refusal("travel [mm];torque [kN]\n" + rows),
             Contains("no column for force") && Contains("'torque [kN]'"));
  CHECK_THAT(refusal("travel [mm];strokes;force [kN]\n1;1;2\n"), Contains("twice"));
}
