#include "postprocess/drawing/drawn_fixture.h"

#include "inputs/text/input_error.h"
#include "meshes/setup/fixture_profiles.h"

#include <algorithm>
#include <stdexcept>

namespace throughbend
{
namespace
{
void must_be_above_0(const double value, const std::string &what)
{
  if (!(value > 0))
    throw InputError("drawing: the " + what + " is missing or not above 0. Give it first.");
}

void must_have_outlines(const Case &shape)
{
  const Fixture &f = shape.fixture;
  try
  {
    shoulder_profile(f, Side::right);
    if (f.frame.present())
      frame_profiles(f.frame, shape.coupon.thickness, Side::right);
  }
  catch (const std::invalid_argument &)
  {
    throw InputError("drawing: shoulders.bottom_radius or frame.edge_radius is too large "
                     "for the shoulder or plate that it rounds. Make it smaller.");
  }
}
} // namespace

DimensionText DrawnFixture::dimension(const std::string &letter, const double value,
                                      const std::string &prefix) const
{
  DimensionText text{letter, value, prefix, units};
  for (const SizeLimits &of_one : limits)
    if (of_one.letter == letter && text.limits.empty())
      text.limits.push_back(of_one);
  return text;
}

double DrawnFixture::pinch() const
{
  return (shape.fixture.shoulders.opening - shape.fixture.plunger.width) / 2;
}

double DrawnFixture::shoulder_bottom() const
{
  const Shoulders &s = shape.fixture.shoulders;
  return rollers() ? -2 * s.radius : -s.depth;
}

double DrawnFixture::shoulder_outside() const
{
  const Shoulders &s    = shape.fixture.shoulders;
  const double     half = s.opening / 2;
  if (rollers())
    return half + 2 * s.radius;
  double outside = 0;
  for (const PlaneVector &point : shoulder_profile(shape.fixture, Side::right).outline(0.1))
    outside = std::max(outside, point.x);
  return outside;
}

double DrawnFixture::plates_outside() const
{
  const Frame &frame = shape.fixture.frame;
  return frame.present() ? frame.distance + frame.plate_thickness : 0;
}

DrawnFixture drawn_fixture(const DrawingSubject &subject)
{
  must_be_above_0(subject.fixture.plunger.width, "plunger's width");
  must_be_above_0(subject.fixture.plunger.nose_radius, "plunger's nose radius");
  must_be_above_0(subject.fixture.shoulders.opening, "opening between the shoulders");
  must_be_above_0(subject.coupon.thickness, "coupon's thickness");

  DrawnFixture drawn;
  drawn.shape.coupon  = subject.coupon;
  drawn.shape.fixture = subject.fixture;
  drawn.units         = subject.units;
  drawn.limits        = subject.limits;
  Coupon    &coupon   = drawn.shape.coupon;
  Plunger   &plunger  = drawn.shape.fixture.plunger;
  Shoulders &s        = drawn.shape.fixture.shoulders;
  // Two rounded figures may miss a half round by their rounding.
  plunger.nose_radius = std::min(plunger.nose_radius, plunger.width / 2);

  drawn.radius_known = s.radius > 0;
  if (!drawn.radius_known)
    s.radius = 2 * coupon.thickness;
  if (drawn.rollers())
    s.depth = s.bottom_radius = 0;
  else
  {
    drawn.depth_known = s.depth > 0;
    if (!drawn.depth_known)
    {
      s.depth         = s.radius + 25;
      s.bottom_radius = std::min(5., s.radius / 2);
    }
    s.depth         = std::max(s.depth, s.radius);
    s.bottom_radius = std::min(s.bottom_radius, s.depth - s.radius);
  }
  drawn.length_known = coupon.length > 0;
  if (!drawn.length_known)
    coupon.length = s.opening + 4 * s.radius;
  drawn.width_known = coupon.width > 0;
  must_have_outlines(drawn.shape);
  drawn.rest = resting_height(drawn.shape);
  return drawn;
}
} // namespace throughbend
