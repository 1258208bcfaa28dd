#pragma once
// What runs came to, made up for the texts about them. All figures are invented.

#include "solver/outcome/verdict.h"
#include "solver/record/run_summary.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
/// A sound pass of a plain coupon.
inline RunSummary invented_summary()
{
  RunSummary summary;
  summary.state        = RunState::finished;
  summary.origin.title = "Kestrel Haven, sound pass";
  summary.finding      = Finding{
      Outcome::through, {}, {}, "", 71.12, 1200, "Both tips are past the shoulders."};
  summary.finding->verdict = verdict(*summary.finding);
  KeyFigures key;
  key.peak_force         = 31400;
  key.peak_force_at      = 30.48;
  key.capacity           = 80000;
  key.force_margin       = 0.6075;
  key.stroke             = 127;
  key.travel             = 71.12;
  key.stroke_margin      = 0.44;
  key.outer_strain       = 0.243;
  key.outer_elongation   = 0.2751;
  key.face_strain        = 0.243;
  key.face_elongation    = 0.2751;
  key.outer_strain_at    = -2.54;
  key.nominal_elongation = 0.2;
  key.plastic_strain     = 0.251;
  key.energy_error       = 0.0012;
  key.penetration_share  = 0.000034;
  summary.figures        = key;
  summary.release        = Release{88, 88, 85, 86.5, 3, 1.5, 13558.2, 0, 3.048, true};
  return summary;
}

inline ZoneFigures zone(const FaceZone which, const double elongation, const double from,
                        const double to)
{
  ZoneFigures figures;
  figures.peak        = {which, std::log1p(elongation), (from + to) / 2, 0.58};
  figures.from        = from;
  figures.to          = to;
  figures.inside_bend = std::min(from + 35, 35 - to);
  return figures;
}

/// 12 mm of weld about 0, bands of 3 mm, the right one soft; a bend from -35 to 35 mm.
inline RunSummary welded()
{
  FaceFigures face;
  face.nominal_elongation = 0.2;
  face.weld_middle        = 0;
  face.fusion_left        = -6;
  face.fusion_right       = 6;
  face.gauge_length       = 40;
  face.gauge_mean         = 0.212;
  face.bend_from          = -35;
  face.bend_to            = 35;
  face.weld_inside_bend   = 26;
  face.zones              = {zone(FaceZone::left_base, 0.223, -35, 35),
                             zone(FaceZone::left_haz, 0.3, -9, -6), zone(FaceZone::weld, 0.19, -6, 6),
                             zone(FaceZone::right_haz, 0.46, 6, 9)};
  face.peak               = face.zones.back().peak; // at 7.5 mm
  RunSummary summary;
  summary.figures               = KeyFigures();
  summary.figures->nose_gap_end = 0.73;
  summary.figures->wrap_end     = 166.5;
  summary.figures->walk_end     = -0.4;
  summary.wire_diameter         = 3.175;
  summary.face_at_end           = face;
  summary.origin.model          = "full";
  return summary;
}
} // namespace throughbend
