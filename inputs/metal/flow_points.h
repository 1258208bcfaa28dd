#pragma once
// A tabulated flow curve to and from one line of text, `0:250 MPa, 0.02:300 MPa`. Only the
// notation is judged here; whether strains ascend is asked in inputs/keys/validation.

#include "inputs/metal/flow_curve.h"

#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// A table that was read, or the reason why it could not be.
struct FlowTable
{
  std::vector<FlowPoint> points;
  std::string            error; ///< empty if the points are good
};

FlowTable read_flow_points(std::string_view text);

/// With as many digits as it takes to read back the very same points.
std::string exact_text(const std::vector<FlowPoint> &points);
} // namespace throughbend
