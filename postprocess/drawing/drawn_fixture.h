#pragma once
// A fixture with everything that a picture of it needs: what is not known is filled in with
// what is likely, and remembered as such. Numbers only, no paper.

#include "inputs/case/case.h"
#include "postprocess/drawing/fixture_drawing.h"

namespace throughbend
{
struct DrawnFixture
{
  Case   shape;            ///< complete enough to make outlines of
  double rest         = 0; ///< height of the flat coupon's lower face [mm]
  bool   radius_known = true, depth_known = true, length_known = true, width_known = true;

  UnitSystem units = UnitSystem::metric; ///< first on every dimension

  std::vector<SizeLimits> limits; ///< of sizes, by their letters

  /// With its tolerance, if there is one.
  DimensionText dimension(const std::string &letter, double value,
                          const std::string &prefix = {}) const;
  double touch() const { return rest + shape.coupon.thickness; } ///< of the nose [mm]
  double pinch() const; ///< room between flank and wall [mm]
  double clearance() const { return shape.fixture.clearance(shape.coupon.thickness); }
  bool   rollers() const { return shape.fixture.shoulders.kind == ShoulderKind::rollers; }
  double shoulder_bottom() const;  ///< height of its lowest point [mm, < 0]
  double shoulder_outside() const; ///< x of its outer face [mm]
  double plates_outside() const;   ///< x of the frame's outer face, 0 without [mm]
};

/// Throws InputError where the subject lacks what nothing can be drawn without.
DrawnFixture drawn_fixture(const DrawingSubject &subject);
} // namespace throughbend
