#include "inputs/option_table.h"

#include "inputs/option_words.h"
#include "inputs/plain_text.h"

#include <algorithm>
#include <utility>

namespace throughbend
{
namespace
{
using namespace option_words;

using Options = std::vector<Option>;

void add(Options &options, Entry entry)
{
  options.push_back(std::move(entry).option());
}

void add_coupon(Options &o)
{
  const auto weld = [](auto member) { return at(&Case::weld, member); };
  add(o, entry("case.title", TextSlot{at(&Case::title)}, "A line that names the pass."));

  add(o, length("coupon.length", between(5, 3000), at(&Case::coupon, &Coupon::length),
                "Length of the coupon, along the bend."));
  add(o, length("coupon.width", between(1, 1000), at(&Case::coupon, &Coupon::width),
                "Width of the coupon, across the bend."));
  add(o, length("coupon.thickness", between(0.2, 150),
                at(&Case::coupon, &Coupon::thickness), "Thickness of the coupon."));
  add(o, length("coupon.offset", between(-500, 500), at(&Case::coupon, &Coupon::offset),
                "Coupon centre sideways of the plunger centre.")
             .otherwise("0 mm"));

  add(o, length("weld.width", between(0, 1000), weld(&Weld::width),
                "Width of the weld metal along the coupon; 0 mm = no weld metal.")
             .otherwise("0 mm"));
  add(o, length("weld.haz_width", between(0, 500), weld(&Weld::haz_width),
                "Width of each of the two heat-affected bands beside the weld.")
             .otherwise("0 mm"));
  add(o, length("weld.offset", between(-1000, 1000), weld(&Weld::offset),
                "Weld centre from the coupon's centre.")
             .otherwise("0 mm")
             .only("with a weld", {"weld.width", "weld.haz_width"},
                   [](const Case &c) { return c.weld.present(); }));
  add(o, ratio("weld.strength_ratio", between(0.1, 5), weld(&Weld::strength_ratio),
               "Flow stress of the weld metal over that of the base plate.")
             .otherwise("1")
             .only("weld.width above 0", {"weld.width"},
                   [](const Case &c) { return c.weld.width > 0; }));
  add(o, ratio("weld.haz_ratio", between(0.1, 5), weld(&Weld::haz_ratio),
               "Flow stress of the heat-affected bands over that of the base plate.")
             .otherwise("1")
             .only("weld.haz_width above 0", {"weld.haz_width"},
                   [](const Case &c) { return c.weld.haz_width > 0; }));
}

void add_material(Options &o)
{
  using Law       = HardeningLaw;
  const auto flow = [](auto member)
  { return at(&Case::material, &Material::flow, member); };

  add(o, stress("material.young", between(1000, 1e6), at(&Case::material, &Material::young),
                "Young's modulus.")
             .otherwise("210 GPa"));
  add(o, ratio("material.poisson", between(0, 0.49),
               at(&Case::material, &Material::poisson), "Poisson's ratio.")
             .otherwise("0.3"));
  add(o, number("material.density", UnitKind::density, between(500, 25000),
                at(&Case::material, &Material::density),
                "Density; only the ejection speed needs it.")
             .otherwise("7850 kg/m^3"));
  add(o, choice("material.law", {"perfect", "linear", "voce", "swift", "ludwik", "table"},
                flow(&FlowCurve::law),
                "Flow stress s over plastic strain p. perfect: yield; linear: yield + "
                "hardening p; voce: yield + saturation (1 - exp(-rate p)) + hardening p; "
                "swift: strength (prestrain + p)^exponent; ludwik: yield + strength "
                "p^exponent; table: straight lines between points."));
  add(o, stress("material.yield", between(1, 5000), flow(&FlowCurve::yield),
                "Flow stress at first yield.")
             .only_for_laws({Law::perfect, Law::linear, Law::voce, Law::ludwik}));
  add(o, stress("material.hardening", between(0, 1e5), flow(&FlowCurve::hardening),
                "Linear hardening modulus against plastic strain.")
             .only_for_laws({Law::linear, Law::voce})
             .otherwise_by("0 MPa for voce, required for linear", {"material.law"},
                           [](const Case &c) -> std::optional<double>
                           {
                             if (c.material.flow.law == Law::voce)
                               return 0.;
                             return std::nullopt;
                           }));
  add(o, stress("material.saturation", between(0, 5000), flow(&FlowCurve::saturation),
                "Rise of the flow stress until it saturates.")
             .only_for_laws({Law::voce}));
  add(o, ratio("material.rate", above(0, 10000), flow(&FlowCurve::rate),
               "How fast the flow stress saturates with plastic strain.")
             .only_for_laws({Law::voce}));
  add(o, stress("material.strength", above(0, 20000), flow(&FlowCurve::strength),
                "Strength coefficient of the power law.")
             .only_for_laws({Law::swift, Law::ludwik}));
  add(o, ratio("material.prestrain", above(0, 1), flow(&FlowCurve::prestrain),
               "Strain by which the swift curve is shifted; it sets the yield stress.")
             .only_for_laws({Law::swift}));
  add(o, ratio("material.exponent", above(0, 1), flow(&FlowCurve::exponent),
               "Hardening exponent of the power law.")
             .only_for_laws({Law::swift, Law::ludwik}));
  add(o, entry("material.table", TableSlot{flow(&FlowCurve::points)},
               "Points plastic strain:true stress, strains rising from 0, as in "
               "0:250 MPa, 0.02:300 MPa, 0.2:420 MPa.")
             .only_for_laws({Law::table}));
  add(o, ratio("material.last_strain", above(0, 10), flow(&FlowCurve::last_strain),
               "Last plastic strain that a test backs; beyond it the extrapolation rules.")
             .otherwise_by("1, for a table its last strain",
                           {"material.law", "material.table"},
                           [](const Case &c) -> std::optional<double>
                           {
                             const FlowCurve &curve = c.material.flow;
                             return curve.law == Law::table && !curve.points.empty()
                                        ? curve.points.back().plastic_strain
                                        : 1.;
                           }));
  add(o,
      choice("material.extrapolation", {"formula", "hold_slope", "flat"},
             flow(&FlowCurve::extrapolation),
             "Beyond last_strain: the law goes on (formula; a table goes on with its last "
             "slope), a straight line with the last slope, or a constant stress.")
          .otherwise("formula"));
}

void add_fixture(Options &o)
{
  const auto plunger = [](auto member)
  { return at(&Case::fixture, &Fixture::plunger, member); };
  const auto shoulders = [](auto member)
  { return at(&Case::fixture, &Fixture::shoulders, member); };
  const auto frame = [](auto member)
  { return at(&Case::fixture, &Fixture::frame, member); };

  add(o, length("plunger.width", between(1, 1000), plunger(&Plunger::width),
                "Width of the plunger over its flanks."));
  add(o, length("plunger.nose_radius", between(0.5, 500), plunger(&Plunger::nose_radius),
                "Radius of the plunger's nose, at most half the width.")
             .otherwise_by("half of plunger.width", {"plunger.width"},
                           [](const Case &c) { return c.fixture.plunger.width / 2; }));

  add(o, choice("shoulders.kind", {"solid", "rollers"}, shoulders(&Shoulders::kind),
                "Fixed blocks with a rounded inner edge, or two round bars.")
             .otherwise("solid"));
  add(o, length("shoulders.radius", between(0.5, 500), shoulders(&Shoulders::radius),
                "Radius of the shoulder's edge or of the roller."));
  add(o, length("shoulders.opening", between(1, 2000), shoulders(&Shoulders::opening),
                "Clear distance between the two shoulders or rollers."));
  add(o, length("shoulders.depth", above(0, 2000), shoulders(&Shoulders::depth),
                "From the shoulder's top to the lower end of its wall.")
             .only_solid()
             .otherwise_by("shoulders.radius + 25 mm", {"shoulders.radius"},
                           [](const Case &c) { return c.fixture.shoulders.radius + 25; }));
  add(o, length("shoulders.bottom_radius", between(0.1, 500),
                shoulders(&Shoulders::bottom_radius),
                "Rounding of the wall's lower edge, at most depth - radius.")
             .only_solid()
             .otherwise_by("5 mm, less where depth - radius is less",
                           {"shoulders.radius", "shoulders.depth"},
                           [](const Case &c)
                           {
                             const Shoulders &s = c.fixture.shoulders;
                             return std::max(0.1, std::min(5., s.depth - s.radius));
                           }));
  add(o,
      choice("shoulders.rollers_turn", {"no", "yes"}, shoulders(&Shoulders::rollers_turn),
             "Whether the rollers turn freely, so that they drag nothing.")
          .otherwise("no")
          .only("rollers", {"shoulders.kind"},
                [](const Case &c)
                { return c.fixture.shoulders.kind == ShoulderKind::rollers; }));

  add(o, length("frame.distance", between(0, 3000), frame(&Frame::distance),
                "From the plunger's centre to the inside of each frame plate; 0 mm = no "
                "frame.")
             .otherwise("0 mm"));
  add(o,
      length("frame.clearance_above", between(0.01, 1000), frame(&Frame::clearance_above),
             "How far the frame's opening reaches above the flat coupon.")
          .otherwise("1.5 mm")
          .only_with_frame());
  add(o,
      length("frame.clearance_below", between(0.01, 1000), frame(&Frame::clearance_below),
             "How far the frame's opening reaches below the flat coupon.")
          .otherwise("1.5 mm")
          .only_with_frame());
  add(o, length("frame.plate_thickness", between(0.5, 500), frame(&Frame::plate_thickness),
                "Thickness of the frame plates.")
             .otherwise("10 mm")
             .only_with_frame());
  add(o, length("frame.edge_radius", between(0.1, 100), frame(&Frame::edge_radius),
                "Rounding of the edges of the frame's opening.")
             .only_with_frame()
             .otherwise_by("1 mm, at most half the plate", {"frame.plate_thickness"},
                           [](const Case &c)
                           { return std::min(1., c.fixture.frame.plate_thickness / 2); }));

  // 0.10: handbook tables for lubricated (grease, oil) steel on steel; usual spread of a
  // greased shoulder 0.05 to 0.15, dry mill scale 0.25 to 0.35 (common practice, no
  // source).
  const std::string greased = "0.10 = greased steel on steel (handbook tables), dry mill "
                              "scale some 0.25 to 0.35.";
  add(o, ratio("friction.plunger", between(0, 1), at(&Case::friction, &Friction::plunger),
               "Friction coefficient between coupon and plunger; " + greased)
             .otherwise("0.10"));
  add(o,
      ratio("friction.shoulders", between(0, 1), at(&Case::friction, &Friction::shoulders),
            "Friction coefficient between coupon and shoulders; " + greased)
          .otherwise("0.10"));
  add(o, ratio("friction.frame", between(0, 1), at(&Case::friction, &Friction::frame),
               "Friction coefficient between coupon and frame.")
             .only_with_frame()
             .otherwise_by("friction.shoulders", {"friction.shoulders"},
                           [](const Case &c) { return c.friction.shoulders; }));

  add(o, number("ram.capacity", UnitKind::force, above(0, 1e9),
                at(&Case::ram, &Ram::capacity), "Largest force of the ram."));
  add(o, length("ram.stroke", above(0, 10000), at(&Case::ram, &Ram::stroke),
                "Largest travel of the plunger from first touch."));
}

void add_settings(Options &o)
{
  const auto mesh   = [](auto member) { return at(&Case::mesh, member); };
  const auto solver = [](auto member) { return at(&Case::solver, member); };

  add(o, choice("mesh.level", {"quick", "standard", "fine"}, mesh(&MeshSettings::level),
                "How finely the coupon is cut.")
             .otherwise("standard"));
  add(o, choice("mesh.model", {"automatic", "full"}, mesh(&MeshSettings::model),
                "Half the coupon where the case is symmetric, or always all of it.")
             .otherwise("automatic"));
  add(o, count("mesh.dimension", between(2, 3), mesh(&MeshSettings::dimension),
               "2: plane strain; 3: the coupon's real width.")
             .otherwise("2"));
  add(o, count("mesh.layers", between(0, 40), mesh(&MeshSettings::layers),
               "Cells through the thickness; 0 = by level.")
             .otherwise("0"));
  add(o, length("mesh.cell_size", between(0, 100), mesh(&MeshSettings::cell_size),
                "Cell length along the coupon in the bend; 0 mm = by level.")
             .otherwise("0 mm"));

  add(o,
      length("solver.largest_step", between(0, 100), solver(&SolverSettings::largest_step),
             "Largest step of travel; 0 mm = chosen from the fixture.")
          .otherwise("0 mm"));
  add(o, ratio("solver.residual_tolerance", between(1e-12, 0.1),
               solver(&SolverSettings::residual_tolerance),
               "Unbalanced force over contact force at which a step is solved.")
             .otherwise("1e-3"));
  add(o, ratio("solver.penetration_tolerance", between(1e-8, 0.1),
               solver(&SolverSettings::penetration_tolerance),
               "Deepest overlap of coupon and tools over the thickness.")
             .otherwise("5e-4"));
  add(o,
      ratio("solver.regularisation", between(0, 1e-2),
            solver(&SolverSettings::regularisation),
            "Drag on a coupon that goes with the plunger over the plastic bending force.")
          .otherwise("1e-4"));
  add(o, count("solver.step_limit", between(1, 1e6), solver(&SolverSettings::step_limit),
               "Steps, taken or refused, after which the solver gives up.")
             .otherwise("4000"));

  add(o, length("output.field_spacing", between(0, 10000),
                at(&Case::output, &OutputSettings::field_spacing),
                "Travel between two field files; 0 mm = no field files.")
             .otherwise("5 mm"));
}

Options all_options()
{
  Options options;
  add_coupon(options);
  add_material(options);
  add_fixture(options);
  add_settings(options);
  return options;
}
} // namespace

const std::vector<Option> &option_table()
{
  static const Options table = all_options();
  return table;
}

const Option *find_option(std::string_view key)
{
  for (const Option &option : option_table())
    if (option.key() == key)
      return &option;
  return nullptr;
}

std::vector<std::string> option_sections()
{
  std::vector<std::string> sections;
  for (const Option &option : option_table())
    if (sections.empty() || sections.back() != option.section)
      sections.push_back(option.section);
  return sections;
}

std::optional<std::string> nearest_key(std::string_view key)
{
  const std::size_t dot = key.find('.');
  const std::string section =
      dot == std::string_view::npos ? "" : std::string(key.substr(0, dot));
  const std::string name(dot == std::string_view::npos ? key : key.substr(dot + 1));

  std::vector<std::string> keys;
  for (const Option &option : option_table())
    keys.push_back(option.key());
  // A slip within the right section is likelier than a far key that happens to be short:
  // `plunger.radius` is meant for plunger.nose_radius.
  for (const Option &option : option_table())
    if (option.section == section && name.size() > 2 &&
        option.name.find(name) != std::string::npos)
      return option.key();
  if (const auto nearest = nearest_name(key, keys))
    return nearest;
  for (const Option &option : option_table())
    if (option.name == name)
      return option.key();
  return std::nullopt;
}
} // namespace throughbend
