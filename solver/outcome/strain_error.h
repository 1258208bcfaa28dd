#pragma once
// How far the largest strains of a pass may be off: by its mesh, beside welds, in kinks and
// at the free edges of a body. METAL clears a zone only beyond that.

#include "solver/outcome/face_figures.h"
#include "solver/outcome/key_figures.h"

#include <vector>

namespace throughbend
{
struct StrainError
{
  /// By which a largest log strain may be too small [-]; infinite: no mesh tells.
  double share            = 0;
  bool   finer_mesh_helps = false; ///< a finer level has a smaller one
};

/// `faces`: the convex face at the moments that were kept; may be empty.
StrainError strain_error(const Case &c, const KeyFigures &figures,
                         const std::vector<FaceFigures> &faces);
} // namespace throughbend
