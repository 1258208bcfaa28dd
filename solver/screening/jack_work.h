#pragma once
// What a hand-pumped jack has to do for a force and a travel: pressure on the gauge,
// strokes of the handle, and the hand's force. No hose, valve or oil springiness.

#include "inputs/case/fixture.h"

#include <optional>

namespace throughbend
{
/// Friction in pump and linkage: hand force is this much above the ideal; common practice,
/// no source.
constexpr double pump_efficiency = 0.85;

/// Usual ceiling of hand hydraulics, 70 MPa (10 000 psi) (from memory).
constexpr double usual_pressure = 70; // [MPa]

/// What a person puts on a handle without strain (common practice, no source).
constexpr double easy_hand = 200, hard_hand = 400; // [N]

struct JackWork
{
  double                pressure = 0; ///< F / ram area [MPa]
  std::optional<double> strokes;      ///< travel / (stroke (d_pump / d_ram)^2) [-]
  std::optional<double> hand_force;   ///< F (A_pump / A_ram) / (lever * efficiency) [N]
};

/// For a jack with a known bore; force [N], travel [mm]. Source: hydrostatics.
JackWork jack_work(const Jack &jack, double force, double travel);

/// Force with the gauge at its usual ceiling, for a jack with a known bore [N].
double jack_ceiling(const Jack &jack);
} // namespace throughbend
