// Figures of a model with width, from samples that are made up so that each is known.

#include "inputs/text/json.h"
#include "solver/outcome/key_figures.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
PassSample sample_at(double travel, double strain, double stress, bool on_nose)
{
  PassSample sample;
  sample.travel                               = travel;
  sample.tool(tool_at::plunger).normal        = 1000;
  sample.tool(tool_at::left_shoulder).normal  = 700; // held
  sample.tool(tool_at::right_shoulder).normal = 700;
  sample.nose_gap                             = travel / 20;
  sample.wrap                                 = 120;
  WidthShape shape;
  shape.edge_strain           = strain;
  shape.edge_strain_at        = 2;
  shape.largest_strain        = strain + 0.01;
  shape.largest_strain_at     = 3;
  shape.largest_strain_across = 18;
  shape.nose_gap_middle       = travel / 100;
  shape.nose_gap_edge         = travel / 20;
  shape.convex_curl           = strain * 5;
  shape.concave_curl          = strain * 7;
  shape.convex_width          = 36;
  shape.concave_width         = 41;
  shape.crown_width_stress    = stress;
  shape.crown_on_nose         = on_nose;
  sample.width                = shape;
  return sample;
}

/// The strain is largest in the middle one, and the crown has left the nose in the last.
std::vector<PassSample> three()
{
  return {sample_at(10, 0.1, 200, true), sample_at(20, 0.3, 225, true),
          sample_at(60, 0.25, -166, false)};
}
} // namespace

TEST_CASE("Edge and largest strain come with the place and travel where they were",
          "[unit][width]")
{
  const WidthFigures figures = width_figures(three()).value();
  CHECK(figures.edge_strain == 0.3);
  CHECK(figures.edge_strain_at == 2);
  CHECK(figures.edge_strain_travel == 20);
  CHECK(figures.largest_strain == 0.31);
  CHECK(figures.largest_across == 18);
  CHECK(figures.largest_travel == 20);
  CHECK(figures.convex_curl == 1.5);
  CHECK(figures.end.convex_curl == 1.25);
  CHECK(figures.nose_gap_edge == 3);
  CHECK(figures.nose_gap_middle == 0.6);
}

TEST_CASE(
    "The largest strain of the face is that of the edges where they are stretched more",
    "[unit][width]")
{
  std::vector<PassSample> samples = three();
  for (PassSample &sample : samples)
    sample.outer_strain = 0.22; // at mid-width
  const KeyFigures body = key_figures(samples, reference_case());
  CHECK(body.outer_strain == 0.22);
  CHECK(body.face_strain == 0.31);
  CHECK(body.face_elongation == Approx(std::exp(0.31) - 1));
  for (PassSample &sample : samples)
    sample.outer_strain = 0.4; // a cap's toe, say
  CHECK(key_figures(samples, reference_case()).face_strain == 0.4);
  for (PassSample &sample : samples)
    sample.width.reset();
  CHECK(key_figures(samples, reference_case()).face_strain == 0.4);
  samples[1].outer_strain = std::nan("");
  CHECK(std::isnan(key_figures(samples, reference_case()).face_strain));
}

TEST_CASE("The crown's stress across the width is told while it bore on the nose, and at "
          "the end",
          "[unit][width]")
{
  const WidthFigures figures = width_figures(three()).value();
  CHECK(figures.on_nose_stress == 225);
  CHECK(figures.on_nose_travel == 20);
  CHECK(figures.end.crown_width_stress == -166);
  CHECK(std::isnan(width_figures({sample_at(1, 0, 0, false)})->on_nose_stress));
  const std::string text = json_text(width_json(figures));
  CHECK(text.find("\"crown_stress_across_width_on_nose_MPa\": 225") != std::string::npos);
  CHECK(text.find("\"nose_gap_mid_width_end_mm\": 0.6") != std::string::npos);
  CHECK(text.find("\"nose_gap_edge_end_mm\": 3") != std::string::npos);
}

TEST_CASE("A wire is tried at mid-width, not where the edge has curled off the nose",
          "[unit][width]")
{
  const KeyFigures figures = key_figures(three(), reference_case());
  CHECK(figures.nose_gap_end == 3);     // the largest over the width
  CHECK(figures.gap_for_wire() == 0.6); // the crown's own
  CHECK(wire_goes_in(figures, 0.5) == true);
  CHECK(wire_goes_in(figures, 0.8) == false);
}

TEST_CASE("A plane model has no such figures", "[unit][width]")
{
  std::vector<PassSample> samples = three();
  for (PassSample &sample : samples)
    sample.width.reset();
  CHECK_FALSE(width_figures(samples));
  CHECK(key_figures(samples, reference_case()).gap_for_wire() == 3);
}
