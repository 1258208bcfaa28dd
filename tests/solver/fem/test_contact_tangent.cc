// Contact forces on whole faces: tangent against difference quotients where points stick
// and where they slip, on arcs and on lines; sums of forces and moments; friction work of
// a plain slide. Tools and motions are invented.

#include "meshes/setup/placed_coupon.h"
#include "solver/fem/contact_assembly.h"
#include "tests/solver/fem/small_coupon.h"
#include "tests/solver/fem/tangent_quotient.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
constexpr ContactStiffness spring{105000, 52500, 2e-3, 5e-3};
constexpr ContactStiffness bare{105000, 52500, 2e-3, 0}; // acts from the outline on

/// A disc that dents the upper face by 0.15 mm, right of the middle.
RigidTool disc(double level, double friction)
{
  const double r = 15;
  return {tool_at::plunger, RigidProfile::disc({1.3, level + 8 + r - 0.15}, r), friction};
}

/// A block with its flat under side 0.02 mm deep in the upper face, its fillet on it too.
RigidTool block(double level, double friction)
{
  const double low = level + 8 - 0.02;
  return {tool_at::plunger,
          RigidProfile::rounded(
              {{{-20, low + 30}, 0}, {{-20, low}, 1}, {{5, low}, 3}, {{5, low + 30}, 0}}),
          friction};
}

/// A shoulder below, so that two tools press at once.
RigidTool roller(double level, double friction)
{
  return {tool_at::right_shoulder, RigidProfile::disc({7, level - 19.95}, 20), friction};
}

/// How many touching points stick and slip, on lines and on arcs.
struct Touching
{
  int stick = 0, slip = 0;
};
template <int dim>
Touching touching(const CouponModel<dim> &model, const ContactAssembly<dim> &contact)
{
  Touching count;
  for (std::size_t f = 0; f < model.faces().size(); ++f)
    for (std::size_t q = 0; q < model.faces()[f].weight.size(); ++q)
      for (std::size_t k = 0; k < contact.pieces().size(); ++k)
        if (contact.latest(f, q, k).pressure > 0)
          ++(contact.latest(f, q, k).slipping ? count.slip : count.stick);
  return count;
}

/// Adds a motion along x (and across) to every node.
template <int dim>
void slide(const CouponModel<dim> &model, Vector &u, double along, double across)
{
  std::vector<bool> done(u.size(), false);
  for (const auto &cell : model.cells())
    for (unsigned a = 0; a < model.n_nodes_per_cell(); ++a)
      for (const unsigned c : {0u, 2u})
        if (c < dim)
        {
          const unsigned i = cell.dofs[c * model.n_nodes_per_cell() + a];
          if (!done[i])
            u[i] += c == 0 ? along : across;
          done[i] = true;
        }
}
} // namespace

TEMPLATE_TEST_CASE_SIG(
    "The contact tangent is the derivative of the contact forces in stick "
    "and slip, on arc and line",
    "[fem][contact][tangent]", ((int dim), dim), 2, 3)
{
  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  const double           level = model.level();
  for (const auto &tools :
       {std::vector<RigidTool>{disc(level, 0.2)}, std::vector<RigidTool>{block(level, 0.2)},
        std::vector<RigidTool>{disc(level, 0.3), roller(level, 0.1)},
        std::vector<RigidTool>{block(level, 0.)}})
  {
    ContactAssembly<dim> contact(model, tools, spring);
    std::mt19937         random(dim + 50);
    Vector               u(model.n_dofs()), f(model.n_dofs());
    shake(u, random, 1e-3);
    contact.add_forces(u, 0, f);
    contact.accept();
    // A hair's breadth: everything that had pressure sticks.
    slide(model, u, 4e-4, -3e-4);
    shake(u, random, 1e-4);
    const double stick_error = contact_tangent_error(model, contact, u, 0.001);
    const auto   stick       = touching(model, contact);
    INFO("stick " << stick.stick << ", slip " << stick.slip << ", error " << stick_error);
    CHECK(stick_error < 1e-6);
    if (tools[0].friction > 0)
      CHECK(stick.stick > 3);
    contact.accept();
    // Far enough that everything slips.
    slide(model, u, 0.2, 0.1);
    shake(u, random, 1e-3);
    const double slip_error = contact_tangent_error(model, contact, u, 0.003);
    const auto   slip       = touching(model, contact);
    INFO("stick " << slip.stick << ", slip " << slip.slip << ", error " << slip_error);
    CHECK(slip_error < 1e-6);
    if (tools[0].friction > 0)
      CHECK(slip.slip > 3);
    contact.accept();
    // And back a little: sticking under a standing friction stress.
    slide(model, u, -5e-4, 2e-4);
    CHECK(contact_tangent_error(model, contact, u, 0.004) < 1e-6);
  }
}

TEMPLATE_TEST_CASE_SIG("What the tools press is what the nodes get, in force and moment",
                       "[fem][contact]", ((int dim), dim), 2, 3)
{
  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  ContactAssembly<dim>   contact(
        model, {disc(model.level(), 0.3), roller(model.level(), 0.1)}, spring);
  std::mt19937 random(8);
  Vector       u(model.n_dofs()), f(model.n_dofs());
  contact.add_forces(u, 0, f);
  contact.accept();
  slide(model, u, 0.003, 0);
  shake(u, random, 1e-3);
  f = 0;
  contact.add_forces(u, 0.01, f);

  double            fx = 0, fy = 0, moment = 0, largest = 0;
  std::vector<bool> done(u.size(), false);
  for (const auto &cell : model.cells())
    for (unsigned a = 0; a < model.n_nodes_per_cell(); ++a)
    {
      const unsigned i = cell.dofs[a], j = cell.dofs[model.n_nodes_per_cell() + a];
      if (done[i])
        continue;
      done[i] = true;
      fx += f[i];
      fy += f[j];
      moment += (model.nodes()[i][0] + u[i]) * f[j] - (model.nodes()[j][1] + u[j]) * f[i];
    }
  double px = 0, py = 0, twist = 0, normal = 0;
  for (std::size_t face = 0; face < model.faces().size(); ++face)
  {
    const FaceData<dim> &data = model.faces()[face];
    const auto          &dofs = model.cells()[data.cell].dofs;
    for (std::size_t q = 0; q < data.weight.size(); ++q)
    {
      double x = data.position[q][0], y = data.position[q][1];
      for (std::size_t i = 0; i < data.nodes.size(); ++i)
      {
        const double N = data.shape[q * data.nodes.size() + i];
        x += N * u[dofs[data.dofs[i]]];
        y += N * u[dofs[data.dofs[data.nodes.size() + i]]];
      }
      for (std::size_t k = 0; k < 2; ++k)
      {
        const ContactState &state = contact.latest(face, q, k);
        const PlaneVector   n     = state.normal, t{-n.y, n.x};
        const double        area  = data.weight[q];
        const double        gx    = area * (state.pressure * n.x + state.stress[0] * t.x),
                     gy           = area * (state.pressure * n.y + state.stress[0] * t.y);
        px += gx;
        py += gy;
        twist += x * gy - y * gx;
        normal += area * state.pressure;
        largest = std::max(largest, state.pressure);
      }
    }
  }
  const double size = std::abs(fx) + std::abs(fy);
  REQUIRE(size > 100);
  CHECK(fx == Approx(px).margin(1e-9 * size));
  CHECK(fy == Approx(py).margin(1e-9 * size));
  CHECK(moment == Approx(twist).margin(1e-8 * size));
  const auto tools = contact.tool_forces();
  double     tx = 0, ty = 0, tn = 0, highest = 0;
  for (const ToolForce &tool : tools)
  {
    tx += tool.force_x;
    ty += tool.force_y;
    tn += tool.normal;
    highest = std::max(highest, tool.pressure);
  }
  CHECK(tx == Approx(fx).margin(1e-9 * size));
  CHECK(ty == Approx(fy).margin(1e-9 * size));
  CHECK(tn == Approx(normal));
  CHECK(highest == largest);
  // Pushed by the plunger downwards, by the shoulder upwards; friction against the slide.
  CHECK(tools[tool_number(tool_at::plunger)].force_y < 0);
  CHECK(tools[tool_number(tool_at::right_shoulder)].force_y > 0);
  CHECK(tools[tool_number(tool_at::left_frame)].normal == 0);
}

TEMPLATE_TEST_CASE_SIG("Sliding under a flat tool costs friction times pressure times way",
                       "[fem][contact]", ((int dim), dim), 2, 3)
{
  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  const double           mu = 0.2, depth = 0.01;
  const double           low = model.level() + 8 - depth;
  const RigidTool        plate{
      tool_at::plunger,
      RigidProfile::rounded(
                 {{{-50, low + 30}, 0}, {{-50, low}, 1}, {{50, low}, 1}, {{50, low + 30}, 0}}),
      mu};
  ContactAssembly<dim> contact(model, {plate}, spring);
  // The plate's face only; the coupon's end faces, which the plate's points do not reach
  // but for the topmost 0.01 mm, are left out by that depth.
  const double area     = dim == 2 ? 24. : 24. * 6.;
  const double pressure = spring.normal * (depth + spring.band - spring.onset / 2);
  Vector       u(model.n_dofs()), f(model.n_dofs());
  contact.add_forces(u, 0, f);
  contact.accept();
  CHECK(contact.tool_forces()[0].normal == Approx(area * pressure).epsilon(1e-9));
  CHECK(contact.deepest() == Approx(depth));

  // While it sticks nothing is lost.
  const double hold = mu * pressure / spring.tangential; // [mm]
  slide(model, u, 0.5 * hold, 0);
  f = 0;
  contact.add_forces(u, 0, f);
  CHECK(contact.energy().friction_step == Approx(0).margin(1e-9 * area * pressure));
  const double springs = contact.energy().springs;
  CHECK(springs > area * spring.normal * depth * depth / 2 * 0.7);
  CHECK(contact.tool_forces()[0].slipping == 0);
  contact.accept();

  double lost = 0;
  double way  = 0.5 * hold;
  for (int step = 0; step < 400; ++step)
  {
    const double move = 0.02 * hold;
    slide(model, u, move, 0);
    way += move;
    f = 0;
    contact.add_forces(u, 0, f);
    lost += contact.energy().friction_step;
    CHECK(contact.energy().friction_step >= -1e-9 * area);
    contact.accept();
  }
  CHECK(contact.tool_forces()[0].slipping == Approx(area * pressure));
  CHECK(std::abs(contact.tool_forces()[0].force_x) == Approx(mu * area * pressure));
  CHECK(contact.tool_forces()[0].force_x < 0); // the coupon went along +x
  CHECK(lost == Approx(mu * pressure * area * (way - hold)).epsilon(1e-3));
}

TEST_CASE("Stiffer springs press harder, and tools taken away press no more",
          "[fem][contact]")
{
  const Case           c = small_coupon<2>();
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  ContactAssembly<2>   contact(model, {disc(model.level(), 0.1)}, spring);
  Vector               u(model.n_dofs()), f(model.n_dofs());
  contact.add_forces(u, 0, f);
  const double soft = contact.tool_forces()[0].normal;
  contact.stiffen(3);
  f = 0;
  contact.add_forces(u, 0, f);
  CHECK(contact.tool_forces()[0].normal == Approx(3 * soft));
  contact.separate();
  f = 0;
  contact.add_forces(u, 0, f);
  CHECK(f.linfty_norm() == 0);
  CHECK(contact.tool_forces()[0].normal == 0);
  CHECK(contact.deepest() == 0);
}

TEST_CASE("At first touch the flat coupon is neither pressed nor rubbed", "[fem][contact]")
{
  const Case           c = reference_case();
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  const double         level = model.level();
  ContactAssembly<2>   contact(
        model,
        {{tool_at::plunger, RigidProfile::disc({0, level + 10 + 20}, 20), 0.2},
         {tool_at::right_shoulder, RigidProfile::disc({51.6, level - 20}, 20), 0.2}},
        bare);
  Vector u(model.n_dofs()), f(model.n_dofs());
  contact.add_forces(u, 0, f);
  CHECK(f.linfty_norm() < 1e-9);
  CHECK(contact.deepest() < 1e-9);
}

TEST_CASE("A point that comes to a round from far off in one step has rubbed all the way",
          "[fem][contact]")
{
  // Six millimetres past a roller of 2 mm: a foot alone would turn by atan(6 / 2), 2.5 mm.
  const Case           c = small_coupon<2>();
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  const double         mu = 0.2, depth = 0.2, way = 6;
  const RigidTool      roller{tool_at::right_shoulder,
                         RigidProfile::disc({7, model.level() - 2 + depth}, 2), mu};
  ContactStiffness     wide = spring;
  wide.reach                = 2 * way;
  ContactAssembly<2> contact(model, {roller}, wide);
  Vector             u(model.n_dofs()), f(model.n_dofs());
  double             before = 0;
  for (int step = 0; step < 3; ++step)
  {
    f = 0;
    contact.add_forces(u, 0, f);
    const double now = contact.tool_forces()[tool_number(tool_at::right_shoulder)].normal;
    REQUIRE(now > 0);
    if (step == 2)
      CHECK(contact.energy().friction_step ==
            Approx(mu * (before + now) / 2 * way).epsilon(0.05));
    before = now;
    contact.accept();
    slide(model, u, step == 0 ? 0.1 : way, 0); // the first short slide takes up the springs
  }
}

TEST_CASE("Points that leave a tool at a small corner have rubbed all the way",
          "[fem][contact]")
{
  // The coupon lies on a block whose corner is far sharper than the round that the tool is
  // known by, and slides out over it by some points a step.
  const Case           c = small_coupon<2>();
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  const double         mu = 0.2, top = model.level() + 0.01, way = 2;
  RigidTool            block{
      tool_at::right_shoulder,
      RigidProfile::rounded(
                     {{{5, top}, 0.5}, {{-50, top}, 1}, {{-50, top - 30}, 0}, {{5, top - 30}, 0}}),
      mu};
  block.gauge.round     = 20;
  ContactStiffness wide = spring;
  wide.reach            = 2 * way;
  ContactAssembly<2> contact(model, {block}, wide);
  Vector             u(model.n_dofs()), f(model.n_dofs());
  double             before = 0;
  for (int step = 0; step < 5; ++step)
  {
    f = 0;
    contact.add_forces(u, 0, f);
    const double now = contact.tool_forces()[tool_number(tool_at::right_shoulder)].normal;
    if (step > 1)
    {
      REQUIRE(now < 0.95 * before);
      CHECK(contact.energy().friction_step ==
            Approx(mu * (before + now) / 2 * way).epsilon(0.01));
    }
    before = now;
    contact.accept();
    slide(model, u, step == 0 ? 0.1 : way, 0); // the first short slide takes up the springs
  }
}

TEST_CASE("A long face hands its load from one point to the next over a round",
          "[fem][contact]")
{
  // Faces of 4 mm: points up to 0.73 mm apart, between which a round of 2 mm sinks in by
  // 0.73^2 / 16 = 0.034 mm. It presses by less than that, so points alone would let go.
  const Case           c = small_coupon<2>();
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  ContactStiffness     springs = bare;
  springs.band = springs.onset = 5e-3;
  const auto least_force       = [&](const ContactStiffness &stiffness)
  {
    ContactAssembly<2> contact(model,
                               {{tool_at::right_shoulder,
                                 RigidProfile::disc({7, model.level() - 2 + 1e-3}, 2), 0}},
                               stiffness);
    double             least = 1e300;
    Vector             u(model.n_dofs()), f(model.n_dofs());
    for (int step = 0; step < 80; ++step)
    {
      f = 0;
      contact.add_forces(u, 0, f);
      least = std::min(least,
                       contact.tool_forces()[tool_number(tool_at::right_shoulder)].normal);
      contact.accept();
      slide(model, u, 0.05, 0); // over a whole face in all
    }
    return least;
  };
  CHECK(least_force(springs) == 0);
  springs.long_face = 3.9;
  CHECK(least_force(springs) > 0);
  springs.long_face = 4.1; // the face is none
  CHECK(least_force(springs) == 0);
}

TEST_CASE("No round of a tool gets in between two points of a long leg's faces",
          "[fem][contact]")
{
  Case                 c = reference_case();
  const CouponModel<2> usual(placed_coupon(c), MPI_COMM_WORLD);
  CHECK(usual.n_points_per_face() == 8);
  c.coupon.length            = 1000;
  c.fixture.shoulders.radius = 1;
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  double               apart = 0;
  for (const FaceData<2> &face : model.faces())
    for (std::size_t q = 0; q + 1 < face.position.size(); ++q)
      apart = std::max(apart, face.position[q].distance(face.position[q + 1]));
  CHECK(apart < 1); // half the roller's width
  CHECK(model.n_all_cells() < 400);
}

TEMPLATE_TEST_CASE_SIG(
    "What is not looked at again is as if it had been, wherever coupon and ram go",
    "[fem][contact]", ((int dim), dim), 2, 3)
{
  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  ContactStiffness       near = spring;
  near.reach                  = 2;
  near.nose_reach             = 4;
  // Begins 5 mm above the coupon and comes down with the ram; a roller stands beside.
  const std::vector<RigidTool>           tools = {disc(model.level() + 5, 0.2),
                                                  roller(model.level() - 1, 0.1)};
  ContactAssembly<dim>                   walker(model, tools, near);
  std::mt19937                           random(dim + 70);
  std::uniform_real_distribution<double> part(-1, 1);
  Vector                                 u(model.n_dofs());
  int                                    touched = 0, apart = 0;
  for (int i = 0; i < 300; ++i)
  {
    const double travel = 2.8 * (1 - std::cos(0.05 * i)) + 0.02 * part(random);
    slide(model, u, 0.2 * part(random), 0.1 * part(random));
    shake(u, random, 0.01);
    Vector force(model.n_dofs()), anew(model.n_dofs());
    walker.add_forces(u, travel, force);
    ContactAssembly<dim> looks(model, tools, near);
    looks.restore(walker.all_accepted(), near);
    looks.add_forces(u, travel, anew);
    force -= anew;
    REQUIRE(force.linfty_norm() == 0);
    (anew.linfty_norm() > 0 ? touched : apart) += 1;
    if (i % 3 == 0)
      continue; // so that some are not asked for a while
    bool same = true;
    for (std::size_t f = 0; f < model.faces().size(); ++f)
      for (std::size_t q = 0; q < model.n_points_per_face(); ++q)
        for (std::size_t k = 0; k < tools.size(); ++k)
        {
          const ContactState &a = walker.latest(f, q, k), &b = looks.latest(f, q, k);
          same = same && a.gap == b.gap && a.pressure == b.pressure && a.foot == b.foot &&
                 a.stress == b.stress && a.normal.x == b.normal.x;
        }
    REQUIRE(same);
    if (i % 5 == 0)
      walker.accept();
  }
  CHECK(touched > 50);
  CHECK(apart > 50);
}
