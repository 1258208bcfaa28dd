#pragma once
// Points that fill the unit cube evenly, in several sets that are independent of each
// other. Each set is Sobol's sequence (Boost.Random, direction numbers of Joe & Kuo 2008)
// with a digital shift of its own: bit by bit exclusive or with a random number, after
// which every point is uniform in the cube (L'Ecuyer & Lemieux 2002, "Recent advances in
// randomized quasi-Monte Carlo methods"). Points within a set are not independent; sets
// are, so the scatter of a mean between sets tells its error.

#include <cstddef>
#include <cstdint>
#include <vector>

namespace throughbend
{
/// Points [one a pass][one a key], each coordinate inside (0, 1).
using CubePoints = std::vector<std::vector<double>>;

/// Point i belongs to set i % sets, so a study that was broken off has all sets alike.
CubePoints sample_points(std::size_t points, std::size_t dimensions, std::size_t sets,
                         std::uint64_t seed);

/// Sets for so many points: ten, but no set of fewer than four points.
std::size_t usual_sets(std::size_t points);
} // namespace throughbend
