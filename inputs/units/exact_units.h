#pragma once
// The US units in the metric ones, exact by definition: the inch is 25.4 mm, the
// pound-force 4.4482216152605 N (NIST Special Publication 811, 2008 edition, appendix B.8).
// The others follow from these two.

namespace throughbend
{
inline constexpr double mm_per_inch = 25.4, mm_per_foot = 12 * mm_per_inch;
inline constexpr double n_per_pound = 4.4482216152605, n_per_kip = 1000 * n_per_pound;
inline constexpr double mpa_per_ksi = n_per_kip / (mm_per_inch * mm_per_inch);
} // namespace throughbend
