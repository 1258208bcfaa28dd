// Coupon rules and limits of open defects against where they were found. [R]: read, [M]:
// from memory. ASME BPVC IX (2017) p. 191 of the scan; ASTM E190; AWS D1.1:2015, 4.9.3.3,
// page scan; ISO 7438; ISO 5173; API 1104; LR rules for ships.

#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/catalogue/coupon_rules.h"
#include "inputs/text/input_error.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
constexpr double inch = 25.4;

CouponRequest of(double thickness, double plate = 0, double pipe = 0)
{
  CouponRequest request;
  request.thickness = thickness;
  request.plate     = plate;
  request.pipe      = pipe;
  return request;
}

CouponRule rule(const std::string &name, const CouponRequest &request)
{
  return coupon_by_rule(built_in_coupon_rules(), name, request);
}

double value(const DimensionRule &dimension, const CouponRequest &request)
{
  const auto found = dimension.value(letters_of(request));
  REQUIRE(found);
  return *found;
}

const SurfaceLimit &limit(const std::string &name, RuleUnits units)
{
  for (const SurfaceLimit &row : built_in_surface_limits())
    if (row.rule == name && (row.units == units || row.units == RuleUnits::any))
      return row;
  FAIL("no limit " << name);
  return built_in_surface_limits().front();
}

double high(const DimensionRule &dimension)
{
  return dimension.range({}).high;
}
} // namespace

TEST_CASE("the built-in coupon rules and limits hold no fault", "[unit][rules]")
{
  CHECK(fault_list(read_coupon_rules(coupon_rules_csv(), "c").faults) == "");
  CHECK(fault_list(read_surface_limits(surface_limits_csv(), "s").faults) == "");
}

TEST_CASE("ASME IX QW-462.2 side bends [R]", "[unit][rules]")
{
  const CouponRequest us     = of(3 * inch / 8);
  const CouponRequest metric = of(10);
  CHECK(value(rule("asme-ix-side-bend", us).length, us) == Approx(6 * inch));
  CHECK(value(rule("asme-ix-side-bend", metric).length, metric) == 150);
  CHECK(value(rule("asme-ix-side-bend", us).thickness, us) == Approx(3 * inch / 8));
  CHECK(value(rule("asme-ix-side-bend", metric).thickness, metric) == 10);
  CHECK(value(rule("asme-ix-side-bend-soft-haz", us).thickness, us) == Approx(inch / 8));
  CHECK(value(rule("asme-ix-side-bend-soft-haz", metric).thickness, metric) == 3);
  CHECK(high(rule("asme-ix-side-bend", us).edge_radius) == Approx(inch / 8));
  CHECK(high(rule("asme-ix-side-bend", metric).edge_radius) == 3);
  CHECK_THAT(rule("asme-ix-side-bend", us).note, Contains("3/4 to 1-1/2 in (19 to 38 mm)"));
}

TEST_CASE("ASME IX QW-462.3(a) face and root bends: width [M], thickness [R]",
          "[unit][rules]")
{
  const CouponRequest thick = of(3 * inch / 8, 0.5 * inch);
  const CouponRequest thin  = of(inch / 4, inch / 4);
  CHECK(value(rule("asme-ix-face-root-bend", thick).width, thick) == Approx(1.5 * inch));
  CHECK(value(rule("asme-ix-face-root-bend", thick).thickness, thick) ==
        Approx(3 * inch / 8));
  CHECK(value(rule("asme-ix-face-root-bend", thin).thickness, thin) == Approx(inch / 4));
  CHECK(value(rule("asme-ix-face-root-bend", of(10, 20)).width, of(10)) == 38);
  CHECK(value(rule("asme-ix-face-root-bend-soft-haz", of(3, 20)).thickness, of(3)) == 3);
  CHECK(rule("asme-ix-face-root-bend", thick).how.of("width") == How::from_memory);
  CHECK(rule("asme-ix-face-root-bend", thick).how.of("thickness") == How::read);
}

TEST_CASE("ASTM E190 strips and AWS D1.1 coupons [R]", "[unit][rules]")
{
  const Range strips = rule("astm-e190", of(3 * inch / 8, 2 * inch)).width.range({});
  CHECK(strips.low == Approx(0.75 * inch));
  CHECK(strips.high == Approx(1.5 * inch));
  CHECK(rule("astm-e190", of(10, 50)).width.range({}).low == 19);
  CHECK(rule("astm-e190", of(10, 50)).width.range({}).high == 38);
  CHECK_THROWS_WITH(rule("astm-e190", of(10, 20)), Contains("for other coupons"));
  const CouponRequest us = of(3 * inch / 8);
  CHECK(value(rule("aws-d1-1-bend", us).length, us) == Approx(6 * inch));
  CHECK(value(rule("aws-d1-1-bend", us).width, us) == Approx(1.5 * inch));
  CHECK(value(rule("aws-d1-1-bend", us).thickness, us) == Approx(3 * inch / 8));
}

TEST_CASE("API 1104 coupons [R]", "[unit][rules]")
{
  const CouponRequest us = of(3 * inch / 8);
  CHECK(value(rule("api-1104-face-root-bend", us).length, us) == Approx(9 * inch));
  CHECK(value(rule("api-1104-face-root-bend", us).width, us) == Approx(inch));
  CHECK(value(rule("api-1104-face-root-bend", of(10)).length, of(10)) == 230);
  CHECK(value(rule("api-1104-face-root-bend", of(10)).width, of(10)) == 25);
  CHECK(value(rule("api-1104-side-bend", of(inch / 2, inch)).thickness, us) ==
        Approx(inch / 2));
  CHECK_THROWS_AS(rule("api-1104-side-bend", of(inch / 2, inch / 2)), InputError);
  CHECK(high(rule("api-1104-side-bend", of(inch / 2, inch)).edge_radius) ==
        Approx(inch / 8));
}

TEST_CASE("ISO 7438 edges and widths by thickness [R]", "[unit][rules]")
{
  const auto edge = [](double t) { return high(rule("iso-7438", of(t)).edge_radius); };
  CHECK(edge(9.99) == 1);
  CHECK(edge(10) == 1.5);
  CHECK(edge(49.99) == 1.5);
  CHECK(edge(50) == 3);
  const auto width = [](double t) { return rule("iso-7438", of(t)).width.range({}); };
  CHECK(width(2).low == 15);
  CHECK(width(2).high == 25);
  CHECK(width(3).low == 20);
  CHECK(width(3).high == 50);
}

TEST_CASE("ISO 5173 coupons [M]", "[unit][rules]")
{
  CouponRequest request = of(10, 0, 0);
  request.opening       = 70;
  request.radius        = 25;
  const CouponRule side = rule("iso-5173-side-bend", request);
  CHECK(side.thickness.range({}).low == 9.5);
  CHECK(side.thickness.range({}).high == 10.5);
  CHECK(value(side.length, request) == 120); // l + 2R
  const auto edge = [&](double t)
  { return side.edge_radius.range(letters_of(of(t))).high; };
  CHECK(edge(10) == Approx(2)); // 0.2 t
  CHECK(edge(20) == 3);         // at most 3 mm
  CHECK(value(rule("iso-5173-plate-bend", request).width, request) == 40);
  const auto pipe = [](double t, double diameter)
  {
    const CouponRequest asked = of(t, 0, diameter);
    return value(rule("iso-5173-pipe-bend", asked).width, asked);
  };
  CHECK(pipe(5, 50) == Approx(10));  // t + 0.1 D
  CHECK(pipe(3, 30) == 8);           // at least 8
  CHECK(pipe(5, 200) == Approx(15)); // t + 0.05 D
  CHECK(pipe(12, 1000) == 40);       // at most 40
}

TEST_CASE("LR ship rules [R]", "[unit][rules]")
{
  CHECK(value(rule("lr-ship-bend", of(10)).width, of(10)) == 30);
  CHECK(rule("lr-ship-bend", of(10)).edge_radius.range({}).low == 1);
  CHECK(rule("lr-ship-bend", of(10)).edge_radius.range({}).high == 2);
  CHECK(value(rule("lr-ship-side-bend", of(10, 20)).thickness, of(10)) == 10);
  CHECK_THROWS_AS(rule("lr-ship-side-bend", of(10, 12)), InputError);
}

TEST_CASE("open defects on the convex surface", "[unit][rules]")
{
  const SurfaceLimit &aws = limit("aws-d1-1-open-defects", RuleUnits::us); // [R]
  CHECK(high(aws.single) == Approx(inch / 8));
  CHECK(aws.counted_from.range({}).low == Approx(inch / 32));
  CHECK(high(aws.sum) == Approx(3 * inch / 8));
  CHECK(high(aws.corner_crack) == Approx(inch / 4));
  CHECK(high(aws.corner_crack_by_flaw) == Approx(inch / 8));
  const SurfaceLimit &si = limit("aws-d1-1-open-defects", RuleUnits::metric); // [R]
  CHECK(high(si.single) == 3);
  CHECK(si.counted_from.range({}).low == 1);
  CHECK(high(si.sum) == 10);
  CHECK(high(si.corner_crack) == 6);
  CHECK(high(limit("asme-ix-open-defects", RuleUnits::us).single) == Approx(inch / 8));
  CHECK(high(limit("asme-ix-open-defects", RuleUnits::metric).single) == 3);
  CHECK(high(limit("iso-15614-1-open-defects", RuleUnits::metric).single) == 3);
  // API 1104: 1/8 in or half of the wall [R].
  const SurfaceLimit &api = limit("api-1104-open-defects", RuleUnits::us);
  CHECK(api.single.range({{"T", inch}}).high == Approx(inch / 8));
  CHECK(api.single.range({{"T", inch / 8}}).high == Approx(inch / 16));
  CHECK(high(api.corner_crack) == Approx(inch / 4));
}

TEST_CASE("coupon rules are found by near names", "[unit][rules]")
{
  CHECK_THROWS_WITH(rule("asme-ix-sidebend", of(10)),
                    Contains("did you mean 'asme-ix-side-bend'"));
}
