#pragma once
// From the record of a tension test to a flow curve: what the elastic part says of slope
// and toe, where the force is largest, true stress over plastic strain up to there, and how
// the curve may go on. Every rule is stated here; nothing beyond the force maximum is used,
// because from there on the bar is no longer stretched evenly.
//
// Elastic part: straight line by least squares through the points between 20 and 50 % of
// the 0.2 % proof stress, which is found with that line, so in turns (the range lies within
// that of ISO 6892-1, from memory). Where the line meets the axis the strain is 0, which
// takes a toe away. Its slope holds the give of grips and machine where the extension was
// not taken on the bar: that goes with the force, and is taken away before the bar's own
// strain makes true stress and plastic strain.
// With fewer than four points there, all up to 80 % of it, three or more, that lie on one
// line within 2 % of it: readings by hand. Without those, or with columns of plastic
// strain, Young's modulus of the case takes its place, and no toe is looked for; a record
// that is then stretched for good at a quarter of its largest stress is refused: what gives
// there is no plate of this trade but a machine.
//
// Force maximum (Considere): vertex of the parabola by least squares through the points
// about the largest force, those within five times the record's scatter of it, at least
// 0.1 and at most 1 %. It counts if the force falls again by 1 %, or this parabola by 0.1
// %; else the maximum was not reached, and the curve ends with the last row.
//
// Flow curve: means over up to 40 pieces of strain, shorter near yield, then the curve
// closest to them that never falls (pool adjacent violators: Barlow et al. (1972)
// Statistical Inference under Order Restrictions, from memory). Below a plastic strain of
// 0.05 % the stress there is taken, back to 0.

#include "inputs/metal/elastic_part.h"
#include "inputs/metal/necking.h"
#include "inputs/metal/tension_file.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
struct TensionTest
{
  std::vector<FlowPoint> points; ///< plastic strain from 0 to the end, stress never falls
  /// Every row that was used, plastic strain and true stress as recorded.
  std::vector<FlowPoint> recorded;
  CurveEnd               end;
  NeckingCurves          beyond;
  bool                   necks            = false; ///< the force maximum was reached
  double                 tensile_strength = 0;     ///< largest force over section [MPa]
  double                 uniform          = 0;     ///< engineering strain at the end [-]
  double                 proof            = 0;     ///< stress at 0.2 % plastic strain [MPa]
  ElasticPart            elastic          = ElasticPart::assumed;
  double                 slope            = 0; ///< of the elastic part [MPa]
  double                 toe              = 0; ///< strain taken away [-]
  double                 scatter          = 0; ///< root mean square, record to curve [MPa]
  std::size_t            rows = 0, not_rising = 0, beyond_end = 0; ///< rows left out

  /// Points up to the end and beyond it by a rule: the table of a case.
  std::vector<FlowPoint> table(BeyondNecking which) const;
};

struct TensionReading
{
  std::optional<TensionTest> test;
  std::vector<std::string>   faults; ///< with line and cure
};

/// `young` [MPa] where the record has no elastic part, and to compare with where it has.
TensionReading read_tension_test(const TensionFile &file, double young,
                                 const std::string &name);

/// From a file. Missing, unreadable and oversized files come back as faults.
TensionReading read_tension_test(const std::string &path, double young);

/// What the slope of the elastic part says against the record.
enum class ElasticFault
{
  none,
  soft, ///< rises by less than nine tenths of Young's modulus
  stiff ///< by more than eleven tenths: no machine does that
};
ElasticFault elastic_fault(const TensionTest &test, double young);

/// Sentences on how the test was read: what was found, corrected and left out.
std::vector<std::string> reading_notes(const TensionTest &test, double young);
} // namespace throughbend
