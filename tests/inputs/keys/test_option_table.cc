#include "inputs/keys/case_help.h"
#include "inputs/keys/option_table.h"

#include <catch2/catch.hpp>

#include <set>
#include <string>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
const Option &option(const std::string &key)
{
  const Option *found = find_option(key);
  INFO(key);
  REQUIRE(found != nullptr);
  return *found;
}

std::string error_of(const std::string &key, const std::string &text)
{
  Case c;
  return set_option(option(key), text, c).error;
}
} // namespace

TEST_CASE("no key stands twice in the table and each has a line of help", "[unit][options]")
{
  std::set<std::string> seen;
  for (const Option &o : option_table())
  {
    INFO(o.key());
    CHECK(seen.insert(o.key()).second);
    CHECK(o.help.size() > 10);
    CHECK(o.help.back() == '.');
  }
}

TEST_CASE("sections stand together", "[unit][options]")
{
  const std::vector<std::string> sections = option_sections();
  CHECK(std::set<std::string>(sections.begin(), sections.end()).size() == sections.size());
}

TEST_CASE("a key looks only at keys above its own", "[unit][options]")
{
  std::set<std::string> above;
  for (const Option &o : option_table())
  {
    INFO(o.key());
    for (const std::string &key : o.looks_at)
      CHECK(above.count(key) == 1);
    above.insert(o.key());
  }
}

TEST_CASE("every plain default is a value the option itself accepts", "[unit][options]")
{
  for (const Option &o : option_table())
  {
    if (o.default_text.empty())
      continue;
    Case          c;
    const Setting setting = set_option(o, o.default_text, c);
    INFO(o.key() << ": " << setting.error);
    CHECK(setting.error.empty());
    CHECK(setting.note.empty());
  }
}

TEST_CASE("no two keys share a place in the case", "[unit][options]")
{
  // Setting one key must change the text of that key and of no other.
  for (const Option &o : option_table())
  {
    Case before;
    Case after;
    if (const auto *number = std::get_if<NumberSlot>(&o.slot))
      number->at(after) += 1;
    else if (const auto *count = std::get_if<CountSlot>(&o.slot))
      count->at(after) += 1;
    else if (const auto *choice = std::get_if<ChoiceSlot>(&o.slot))
      choice->set(after, choice->get(after) == 0 ? 1 : 0);
    else if (const auto *table = std::get_if<TableSlot>(&o.slot))
      table->at(after).push_back({0.1, 300});
    else if (const auto *formula = std::get_if<FormulaSlot>(&o.slot);
             formula && formula->part == FormulaPart::expression)
      formula->at(after).expression = "s0";
    else if (formula)
      formula->at(after).constants = {{"s0", 300, UnitKind::stress}};
    else
      std::get<TextSlot>(o.slot).at(after) = "other";
    for (const Option &other : option_table())
    {
      INFO(o.key() << " against " << other.key());
      CHECK((value_text(other, before) != value_text(other, after)) ==
            (other.key() == o.key()));
    }
  }
}

TEST_CASE("each choice is read into the enum value of its name", "[unit][options]")
{
  Case c;
  REQUIRE(set_option(option("material.law"), "ludwik", c).error.empty());
  CHECK(c.material.flow.law == HardeningLaw::ludwik);
  for (const auto law : {HardeningLaw::perfect, HardeningLaw::linear, HardeningLaw::voce,
                         HardeningLaw::swift, HardeningLaw::ludwik, HardeningLaw::table,
                         HardeningLaw::formula})
  {
    REQUIRE(set_option(option("material.law"), to_text(law), c).error.empty());
    CHECK(c.material.flow.law == law);
  }
  REQUIRE(set_option(option("material.extrapolation"), "hold_slope", c).error.empty());
  CHECK(c.material.flow.extrapolation == Extrapolation::hold_slope);
  REQUIRE(set_option(option("material.extrapolation"), "flat", c).error.empty());
  CHECK(c.material.flow.extrapolation == Extrapolation::flat);
  REQUIRE(set_option(option("shoulders.kind"), "rollers", c).error.empty());
  CHECK(c.fixture.shoulders.kind == ShoulderKind::rollers);
  REQUIRE(set_option(option("shoulders.rollers_turn"), "yes", c).error.empty());
  CHECK(c.fixture.shoulders.rollers_turn);
  REQUIRE(set_option(option("mesh.level"), "fine", c).error.empty());
  CHECK(c.mesh.level == MeshLevel::fine);
  REQUIRE(set_option(option("mesh.level"), "quick", c).error.empty());
  CHECK(c.mesh.level == MeshLevel::quick);
  REQUIRE(set_option(option("mesh.model"), "full", c).error.empty());
  CHECK(c.mesh.model == ModelChoice::full);
}

TEST_CASE("a wrong choice is refused with the nearest right one", "[unit][options]")
{
  CHECK_THAT(error_of("material.law", "Voce"), Contains("did you mean 'voce'"));
  CHECK_THAT(error_of("material.law", "swfit"), Contains("did you mean 'swift'"));
  CHECK_THAT(error_of("shoulders.rollers_turn", "maybe"),
             Contains("not one of the choices"));
  CHECK_THAT(error_of("material.law", ""), Contains("no value"));
}

TEST_CASE("limits are kept, open ones and closed ones", "[unit][options]")
{
  CHECK(error_of("material.poisson", "0").empty());
  CHECK(error_of("material.poisson", "0.49").empty());
  CHECK_THAT(error_of("material.poisson", "0.5"), Contains("too large"));
  CHECK_THAT(error_of("material.poisson", "-0.1"), Contains("negative"));
  CHECK_THAT(error_of("material.exponent", "0"), Contains("too small"));
  CHECK(error_of("material.exponent", "1").empty());
  CHECK_THAT(error_of("coupon.thickness", "-6 mm"), Contains("must not be negative"));
  CHECK_THAT(error_of("coupon.thickness", "10 m"), Contains("too large"));
  CHECK_THAT(error_of("mesh.dimension", "4"), Contains("too large"));
  CHECK_THAT(error_of("mesh.layers", "-1"), Contains("negative"));
  CHECK_THAT(error_of("mesh.layers", "1.5"), Contains("whole"));
}

TEST_CASE("a refused value leaves the case as it was", "[unit][options]")
{
  Case c;
  c.coupon.thickness = 10;
  CHECK_FALSE(set_option(option("coupon.thickness"), "-6 mm", c).error.empty());
  CHECK(c.coupon.thickness == 10);
}

TEST_CASE("a range is said in words with its unit", "[unit][options]")
{
  CHECK(allowed_text(option("coupon.thickness"), UnitSystem::metric) == "0.2 mm to 150 mm");
  CHECK_THAT(allowed_text(option("coupon.thickness"), UnitSystem::us), Contains(" in"));
  CHECK(allowed_text(option("material.exponent"), UnitSystem::metric) ==
        "above 0, up to 1");
  CHECK(allowed_text(option("shoulders.kind"), UnitSystem::metric) == "solid | rollers");
}

TEST_CASE("defaults that follow from other keys are worked out", "[unit][options]")
{
  Case c;
  c.fixture.plunger.width    = 40;
  c.fixture.shoulders.radius = 20;
  REQUIRE(set_default(option("plunger.nose_radius"), c).error.empty());
  CHECK(c.fixture.plunger.nose_radius == 20);
  REQUIRE(set_default(option("shoulders.depth"), c).error.empty());
  CHECK(c.fixture.shoulders.depth == 45);
  REQUIRE(set_default(option("shoulders.bottom_radius"), c).error.empty());
  CHECK(c.fixture.shoulders.bottom_radius == 5);
  c.fixture.shoulders.depth = 23;
  REQUIRE(set_default(option("shoulders.bottom_radius"), c).error.empty());
  CHECK(c.fixture.shoulders.bottom_radius == 3);
  c.friction.shoulders = 0.3;
  REQUIRE(set_default(option("friction.frame"), c).error.empty());
  CHECK(c.friction.frame == 0.3);
  c.fixture.frame.plate_thickness = 1;
  REQUIRE(set_default(option("frame.edge_radius"), c).error.empty());
  CHECK(c.fixture.frame.edge_radius == 0.5);
  c.material.flow.law = HardeningLaw::linear;
  CHECK_FALSE(set_default(option("material.hardening"), c).error.empty());
  c.material.flow.law = HardeningLaw::voce;
  CHECK(set_default(option("material.hardening"), c).error.empty());
  CHECK_FALSE(set_default(option("coupon.length"), c).error.empty());
}

TEST_CASE("a default by rule keeps to the range of its key", "[unit][options]")
{
  Case   c;
  Option o;
  o.section   = "ram";
  o.name      = "capacity";
  o.slot      = NumberSlot{UnitKind::force, Range{0, 1000},
                      [](Case &into) -> double      &{ return into.ram.capacity; }};
  o.rule      = [](const Case &) { return 2500.; };
  o.rule_text = "as the jack's maker says";
  CHECK(set_default(o, c).error ==
        "is 2.5 kN if left out (as the jack's maker says), which is too large");
  CHECK(c.ram.capacity == Case().ram.capacity);
}

TEST_CASE("a mistyped key finds the one that was meant", "[unit][options]")
{
  CHECK(nearest_key("coupon.lenght") == std::string("coupon.length"));
  CHECK(nearest_key("coupn.width") == std::string("coupon.width"));
  CHECK(nearest_key("Coupon.Thickness") == std::string("coupon.thickness"));
  CHECK(nearest_key("plunger.radius") == std::string("plunger.nose_radius"));
  CHECK(nearest_key("thickness") == std::string("coupon.thickness"));
  CHECK(nearest_key("stroke") == std::string("ram.stroke"));
  CHECK_FALSE(nearest_key("zzzzqqqq.xxxxyyyy").has_value());
}

TEST_CASE("the help names every key with its range and default", "[unit][options]")
{
  const std::string help = help_text();
  for (const Option &o : option_table())
    CHECK_THAT(help, Contains("--" + o.key() + " "));
  CHECK_THAT(help, Contains("0.2 mm to 150 mm; required"));
  CHECK_THAT(help, Contains("default half of plunger.width"));
  CHECK_THAT(help, Contains("solid | rollers"));
  for (std::size_t at = 0; at < help.size();)
  {
    const std::size_t end = help.find('\n', at);
    CHECK(end - at <= 92);
    at = end + 1;
  }
}
