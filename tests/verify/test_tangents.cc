// The exact tangents of material, element and contact against difference quotients.

#include "meshes/setup/placed_coupon.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"
#include "tests/solver/fem/tangent_quotient.h"
#include "tests/support/update_quotient.h"
#include "tests/verify/ladder.h"

#include <catch2/catch.hpp>

#include <random>
#include <string>

using namespace throughbend;

namespace
{
constexpr double bound = 1e-6;

template <int dim>
std::string in_dim(const std::string &what)
{
  return what + (dim == 2 ? ", 2D [-]" : ", 3D [-]");
}

/// Three large random steps and a small one back, so that some points unload.
template <int dim>
void update_rows(Rung &rung)
{
  const Case         c    = reference_case();
  const ZoneMaterial zone = zone_materials(c)[0];
  std::mt19937       random(dim);
  Matrix3            F = unit;
  PlasticState       state;
  double             elastic = 0, flowing = 0, unloading = 0;
  for (int path = 0; path < 20; ++path)
  {
    F                    = unit;
    state                = {};
    const Matrix3 little = random_deformation<dim>(random, 5e-4);
    elastic      = std::max(elastic, update_tangent_error<dim>(little, state, zone));
    flowing      = std::max(flowing, flowing_tangent_error<dim>(F, state, zone, random));
    Matrix3 back = unit;
    back[0][0] -= 2e-4;
    unloading =
        std::max(unloading, update_tangent_error<dim>(product(back, F), state, zone));
  }
  rung.row(in_dim<dim>("constitutive update, elastic"), 0, elastic, no_more(bound));
  rung.row(in_dim<dim>("constitutive update, flowing"), 0, flowing, no_more(bound));
  rung.row(in_dim<dim>("constitutive update, after a small step back"), 0, unloading,
           no_more(bound));
}

template <int dim>
void element_rows(Rung &rung)
{
  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  Equilibrium<dim>       equilibrium(model, zone_materials(c));
  std::mt19937           random(dim + 7);
  Vector                 u(model.n_dofs());
  rung.row(in_dim<dim>("element, elastic"), 0, tangent_errors(model, equilibrium, u).first,
           no_more(bound));
  const auto [flowing, skew] = flowing_tangent_errors(model, equilibrium, u, random);
  rung.row(in_dim<dim>("element, flowing, with plastic history"), 0, flowing,
           no_more(bound));
  rung.row(in_dim<dim>("asymmetry of the element's tangent"), 0, skew, no_more(1e-12));
}

template <int dim>
void contact_rows(Rung &rung)
{
  constexpr ContactStiffness spring{105000, 52500, 2e-3, 5e-3};
  const Case                 c = small_coupon<dim>();
  const CouponModel<dim>     model(placed_coupon(c), MPI_COMM_WORLD);
  const double               radius = 15;
  ContactAssembly<dim>       contact(
            model,
            {{tool_at::plunger,
              RigidProfile::disc({1.3, model.level() + 8 + radius - 0.15}, radius), 0.2}},
            spring);
  std::mt19937 random(dim + 50);
  Vector       u(model.n_dofs()), f(model.n_dofs());
  shake(u, random, 1e-3);
  contact.add_forces(u, 0, f);
  contact.accept();
  shake(u, random, 2e-4);
  rung.row(in_dim<dim>("contact under a disc, sticking"), 0,
           contact_tangent_error(model, contact, u, 0.001), no_more(bound));
  contact.accept();
  for (unsigned i = 0; i < u.size(); ++i)
    u[i] += 0.2; // upwards too: deeper into the disc
  shake(u, random, 1e-3);
  rung.row(in_dim<dim>("contact under a disc, slipping"), 0,
           contact_tangent_error(model, contact, u, 0.003), no_more(bound));
}
} // namespace

TEST_CASE("Tangents are the derivatives of stresses and forces", "[verify]")
{
  Rung rung(
      "tangents", "Exact tangents against central difference quotients",
      "Difference quotients of the program's own forces: largest difference relative to "
      "the largest entry; 0 is exact, quotients in double precision reach some 1e-8");
  update_rows<2>(rung);
  update_rows<3>(rung);
  element_rows<2>(rung);
  element_rows<3>(rung);
  contact_rows<2>(rung);
  contact_rows<3>(rung);
}
