#pragma once
// When GMRES is given up: the same on one rank and on several.

namespace throughbend
{
/// With LDL^T, whose first few iterations do or nothing does, and with the two-level cycle,
/// of which even many cost less than a factorisation.
constexpr int most_iterations = 30, most_cycles = 90;

/// A residual of this share of the right side shows a singular matrix, whatever GMRES
/// estimates.
constexpr double unsolved = 0.01;
} // namespace throughbend
