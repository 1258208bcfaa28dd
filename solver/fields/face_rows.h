#pragma once
// Both faces of the coupon as rows for surface.csv: the strain as the probe measures it,
// stress and the rest interpolated between the nodes. In 3D along the mid-width, with the
// free edge and the largest strain across the width beside it.

#include "solver/outcome/surface_row.h"
#include "solver/pass/nodal_fields.h"

#include <vector>

namespace throughbend
{
template <int dim>
std::vector<SurfaceRow> face_rows(const PassView<dim> &view, const NodalFields<dim> &fields,
                                  const NodalState &state);
} // namespace throughbend
