#pragma once
// The figures of the convex face as a member of run.json, at the end of the push and at the
// largest ram force. Plain numbers in, JSON out; nothing is computed here.

#include "inputs/text/json.h"
#include "solver/outcome/face_figures.h"

#include <optional>

namespace throughbend
{
Json convex_face_json(const std::optional<FaceFigures> &at_end,
                      const std::optional<FaceFigures> &at_peak_force);
} // namespace throughbend
