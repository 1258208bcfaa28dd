#pragma once
// The views of a fixture drawing: each is drawn on a scrap of paper of its own at a given
// scale, its dimensions deliberately placed so that no two get in each other's way; the
// sheet then takes them where they fit (postprocess/drawing/fixture_drawing).

#include "postprocess/drawing/drawn_fixture.h"
#include "postprocess/drawing/tool_outline.h"

namespace throughbend
{
struct View
{
  Sheet                       marks;
  std::vector<DrawnDimension> dimensions;
  double                      scale = 1; ///< paper / world

  /// Keep what a dimension measures.
  void note(const DimensionText &text, PlaneVector from, PlaneVector to);
};

/// Section in front, with the coupon flat and, thin, bent and further down; below it the
/// coupon from above. Its origin is the level of the shoulders' tops on the centre line.
View section_view(const DrawnFixture &drawn, double scale);

/// Right leg between plunger and shoulder. Needs a pinch thickness above 0.
View leg_view(const DrawnFixture &drawn, double scale);

/// A part in section: its outline on its layer, and hatching at this angle [rad].
void draw_section(View &view, Layer layer, const Outline &outline, double hatch_angle,
                  double hatch_spacing = 2.2);

/// From the plane of the pass to the paper.
inline PlaneVector on_paper(const View &view, PlaneVector world)
{
  return {view.scale * world.x, -view.scale * world.y};
}
} // namespace throughbend
