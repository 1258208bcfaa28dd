#pragma once
// The coupon's fields at one moment as a VTK file (.vtu), on the deformed shape. Each cell
// is cut into halves along every direction, so its nodes are exact and any viewer's filters
// work; values are those of NodalFields. Decides nothing about when.

#include "solver/pass/nodal_fields.h"

#include <string>
#include <vector>

namespace throughbend
{
/// The text of a .vtu file with the cells of this rank and the arrays of
/// solver/record/field_names: displacement, Cauchy stress (of a plane model with its zz),
/// von Mises stress, plastic and axial strain, contact pressure, zone, with flaws their
/// lips. A viewer that is told nothing colours by the axial strain.
template <int dim>
std::string field_file_text(const NodalFields<dim> &fields, const CouponModel<dim> &model,
                            const NodalState &state);

/// The text of a .pvtu file, by which viewers take the parts of several ranks for one
/// shape. `parts` are .vtu files beside it.
template <int dim>
std::string field_parts_text(const CouponModel<dim>         &model,
                             const std::vector<std::string> &parts);
} // namespace throughbend
