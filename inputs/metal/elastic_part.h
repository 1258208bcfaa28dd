#pragma once
// The elastic part of a tension test: its slope, and the toe before it. The rule stands in
// inputs/metal/tension_test.h.

#include <vector>

namespace throughbend
{
/// A row of a tension test: engineering strain [-] and stress [MPa].
struct Pull
{
  double strain = 0, stress = 0;
};

struct StraightLine
{
  double slope = 0, at_zero = 0; ///< y = slope x + at_zero
};

/// By least squares.
StraightLine line_through(const std::vector<Pull> &pulls);

/// Where slope and toe are from.
enum class ElasticPart
{
  measured, ///< the record's own
  assumed   ///< Young's modulus of the case
};

struct Elastic
{
  ElasticPart part  = ElasticPart::assumed;
  double      slope = 0; ///< [MPa]
  double      toe   = 0; ///< strain to take away [-]
};

/// `young` [MPa] where the record has no elastic part. Strains rise from row to row.
Elastic elastic_part(const std::vector<Pull> &pulls, double young);
} // namespace throughbend
