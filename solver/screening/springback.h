#pragma once
// How far a bend opens when it is let go, in closed form. The part of the legs, which stay
// curved, is in guided_beam.

namespace throughbend
{
/// Initial over final inner radius of a perfectly plastic bar, 4 x^3 - 3 x + 1 with
/// x = R Y / (E t) [-]. For plane strain give 2/sqrt3 Y and E / (1 - nu^2). Valid for x
/// below 1/2, where some of the section yields. Source: Gardiner (1957) Trans. ASME 79, 1
/// (from memory).
double gardiner_ratio(double radius, double yield, double young, double thickness);

/// Curvature that unloading a moment takes back, M / (E' I) = 12 M (1 - nu^2) / (E t^3)
/// [1/mm]; moment per width [N mm/mm]. Elementary beam theory.
double elastic_curvature(double moment, double young, double poisson, double thickness);
} // namespace throughbend
