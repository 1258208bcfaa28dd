#pragma once
// Names of a shape that several ranks have written: `coupon_peak.pvtu` names the parts
// `coupon_peak_part0.vtu`, `coupon_peak_part1.vtu`, one of each rank. Opens no file.

#include <string>

namespace throughbend
{
/// `shape` without ending, "coupon_peak" say.
std::string part_file(const std::string &shape, int rank);

/// The .pvtu that a file is a part of, by its name; empty when it is no part.
std::string shape_of_part(const std::string &file);
} // namespace throughbend
