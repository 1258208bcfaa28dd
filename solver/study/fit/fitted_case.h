#pragma once
// The case at a point of a fit: which keys friction and flow-stress factor stand for.

#include "inputs/case/case.h"
#include "solver/study/fit/pass_surface.h"

#include <string>

namespace throughbend
{
/// Friction of the shoulders is set. Plunger, frame and a left shoulder of its own go along
/// where the case has the same figure for them (one grease on all), else they stay. Every
/// flow stress, of weld and HAZ too, is multiplied by the factor. Names of catalogue rows
/// that the values no longer are those of are taken out.
Case case_at(const Case &own, const FitPoint &point);

/// `friction.shoulders, friction.plunger`: the keys that the friction stands for.
std::string friction_keys(const Case &own);
/// Those that stay: `friction.plunger = 0.05`; empty: none.
std::string frictions_that_stay(const Case &own);
} // namespace throughbend
