// Keys of the sections mesh, solver and output.

#include "inputs/keys/option_sections.h"
#include "inputs/keys/option_words.h"

namespace throughbend
{
using namespace option_words;

void add_settings_options(Options &o)
{
  const auto mesh   = [](auto member) { return at(&Case::mesh, member); };
  const auto solver = [](auto member) { return at(&Case::solver, member); };

  add(o, choice("mesh.level", {"quick", "standard", "fine"}, mesh(&MeshSettings::level),
                "Level of mesh refinement.")
             .otherwise("standard"));
  add(o, choice("mesh.model", {"automatic", "full"}, mesh(&MeshSettings::model),
                "automatic: half the coupon if the case is symmetric; full: always the "
                "whole coupon.")
             .otherwise("automatic"));
  add(o, count("mesh.dimension", between(2, 3), mesh(&MeshSettings::dimension),
               "2: plane strain; 3: 3D model with the coupon's real width.")
             .otherwise("2"));
  add(o, count("mesh.layers", between(0, 40), mesh(&MeshSettings::layers),
               "Number of cells through the thickness; 0 = set by mesh.level. With fewer "
               "than the level's the accuracy is low.")
             .otherwise("0"));
  add(o, length("mesh.cell_size", between(0, 100), mesh(&MeshSettings::cell_size),
                "Cell length along the coupon in the bend; 0 mm = set by mesh.level. With "
                "longer ones than the level's the accuracy is low.")
             .otherwise("0 mm"));

  add(o,
      length("solver.largest_step", between(0, 100), solver(&SolverSettings::largest_step),
             "Largest step of travel; 0 mm = chosen from the fixture.")
          .otherwise("0 mm"));
  add(o, ratio("solver.residual_tolerance", between(1e-12, 0.1),
               solver(&SolverSettings::residual_tolerance),
               "Convergence tolerance of a step: unbalanced force divided by contact "
               "force.")
             .otherwise("1e-3"));
  add(o, ratio("solver.penetration_tolerance", between(1e-8, 0.1),
               solver(&SolverSettings::penetration_tolerance),
               "Largest penetration of the tools into the coupon, divided by the "
               "thickness.")
             .otherwise("5e-4"));
  add(o, ratio("solver.regularisation", between(0, 1e-2),
               solver(&SolverSettings::regularisation),
               "Small drag that holds a coupon nothing else holds, divided by the plastic "
               "bending force.")
             .otherwise("1e-4"));
  add(o, count("solver.step_limit", between(1, 1e6), solver(&SolverSettings::step_limit),
               "Largest number of steps, accepted or refused, before the solver gives "
               "up.")
             .otherwise("4000"));

  add(o, number("solver.checkpoint_every", UnitKind::time, between(0, 1e6),
                solver(&SolverSettings::checkpoint_every),
                "Wall time between two checkpoints for push --resume; 0 min = only on "
                "interruption.")
             .otherwise_by("5 min in 3D, 0 min in 2D", {"mesh.dimension"},
                           [](const Case &c) -> std::optional<double>
                           { return c.mesh.dimension == 3 ? 300. : 0.; }));

  add(o, length("output.field_spacing", between(0, 10000),
                at(&Case::output, &OutputSettings::field_spacing),
                "Travel between two field files; 0 mm = no field files.")
             .otherwise("5 mm"));
}
} // namespace throughbend
