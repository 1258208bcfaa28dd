// travel.csv holds every field of every step and is readable however a run ended.

#include "inputs/text/input_error.h"
#include "solver/outcome/force_course.h"
#include "solver/record/travel_record.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
/// Every field another number, none of them with a short decimal form (invented).
PassSample distinct_sample(const double seed)
{
  double     next   = seed;
  const auto number = [&] { return (next += 1) / 7; };
  PassSample sample;
  sample.step         = static_cast<int>(seed) + 1;
  sample.kind         = StepKind::relax;
  sample.travel       = number();
  sample.ram_force    = number();
  sample.smooth_force = number();
  sample.ripple       = number();
  sample.smooth_force = number();
  sample.ripple       = number();
  for (ToolContact &tool : sample.tools)
    tool = {tool.place, number(), number(), number(), number(), number()};
  sample.energy            = {number(), number(), number(), number(),
                              number(), number(), number(), number()};
  sample.left              = {number(), number(), number()};
  sample.right             = {number(), number(), number()};
  sample.crown_strain      = number();
  sample.outer_strain      = number();
  sample.outer_strain_at   = -number();
  sample.plastic_strain    = number();
  sample.nose_gap          = number();
  sample.wrap              = number();
  sample.walk              = -number();
  sample.penetration       = number();
  sample.equilibrium_error = number();
  sample.iterations        = static_cast<int>(seed) + 2;
  sample.refusals          = static_cast<int>(seed) + 3;
  return sample;
}

void check_equal(const PassSample &a, const PassSample &b)
{
  CHECK(a.step == b.step);
  CHECK(a.kind == b.kind);
  CHECK(a.travel == b.travel);
  CHECK(a.ram_force == b.ram_force);
  CHECK(a.smooth_force == b.smooth_force);
  CHECK(a.ripple == b.ripple);
  CHECK(a.smooth_force == b.smooth_force);
  CHECK(a.ripple == b.ripple);
  for (std::size_t i = 0; i < a.tools.size(); ++i)
  {
    CHECK(a.tools[i].force_x == b.tools[i].force_x);
    CHECK(a.tools[i].force_y == b.tools[i].force_y);
    CHECK(a.tools[i].normal == b.tools[i].normal);
    CHECK(a.tools[i].slipping == b.tools[i].slipping);
    CHECK(a.tools[i].pressure == b.tools[i].pressure);
  }
  CHECK(a.energy.ram_work == b.energy.ram_work);
  CHECK(a.energy.elastic == b.energy.elastic);
  CHECK(a.energy.plastic == b.energy.plastic);
  CHECK(a.energy.friction == b.energy.friction);
  CHECK(a.energy.contact == b.energy.contact);
  CHECK(a.energy.regularisation == b.energy.regularisation);
  CHECK(a.energy.released == b.energy.released);
  CHECK(a.energy.error == b.energy.error);
  for (const auto &[x, y] : {std::pair{a.left, b.left}, std::pair{a.right, b.right}})
  {
    CHECK(x.angle == y.angle);
    CHECK(x.tip_x == y.tip_x);
    CHECK(x.tip_y == y.tip_y);
  }
  CHECK(a.crown_strain == b.crown_strain);
  CHECK(a.outer_strain == b.outer_strain);
  CHECK(a.outer_strain_at == b.outer_strain_at);
  CHECK(a.plastic_strain == b.plastic_strain);
  CHECK(a.nose_gap == b.nose_gap);
  CHECK(a.wrap == b.wrap);
  CHECK(a.walk == b.walk);
  CHECK(a.penetration == b.penetration);
  CHECK(a.equilibrium_error == b.equilibrium_error);
  CHECK(a.iterations == b.iterations);
  CHECK(a.refusals == b.refusals);
}
} // namespace

TEST_CASE("travel.csv gives back every field of every step exactly", "[unit][output]")
{
  const ScratchFolder folder;
  const PassSample    first = distinct_sample(10), second = distinct_sample(500);
  {
    TravelRecord record(folder / "travel.csv");
    record.add(first);
    record.add(second);
  }
  const auto back = read_travel_record(folder / "travel.csv");
  REQUIRE(back.size() == 2);
  check_equal(back[0], first);
  check_equal(back[1], second);
}

TEST_CASE("each head stands over its own field and carries its unit", "[unit][output]")
{
  const ScratchFolder folder;
  const PassSample    sample = distinct_sample(3);
  TravelRecord(folder / "travel.csv").add(sample);
  const CsvTable table  = CsvTable::read(folder / "travel.csv");
  const auto     number = [&](const char *head) { return table.numbers(head).at(0); };

  CHECK(number("travel [mm]") == sample.travel);
  CHECK(number("ram force [N]") == sample.ram_force);
  CHECK(number("right tip y [mm]") == sample.right.tip_y);
  CHECK(number("left leg angle [deg]") == sample.left.angle);
  CHECK(number("plunger force y [N]") == sample.tool(tool_at::plunger).force_y);
  CHECK(number("left shoulder normal force [N]") ==
        sample.tool(tool_at::left_shoulder).normal);
  CHECK(number("right frame pressure [MPa]") == sample.tool(tool_at::right_frame).pressure);
  CHECK(number("friction work [N mm]") == sample.energy.friction);
  CHECK(number("energy error [-]") == sample.energy.error);
  CHECK(number("outer strain at [mm]") == sample.outer_strain_at);
  CHECK(table.words("kind").at(0) == "relax");

  const auto heads = travel_heads();
  CHECK(std::set<std::string>(heads.begin(), heads.end()).size() == heads.size());
  const std::set<std::string> counts = {"step", "kind", "iterations", "refusals"};
  for (const std::string &head : heads)
    CHECK((counts.count(head) == 1 || head.back() == ']'));
}

TEST_CASE("a new field of a sample needs a column of its own", "[unit][output]")
{
  // Four of the columns are 4-byte fields, which fill two pairs; all others are 8 bytes.
  // Flaws have a file of their own, opening.csv; the shape across the width is in run.json.
  const std::size_t columns = travel_heads().size();
  const std::size_t tools = tool_list().size() * (sizeof(ToolContact) - sizeof(ToolPlace));
  CHECK(sizeof(PassSample) - sizeof(PassSample::tools) + tools ==
        8 * (columns - 4) + 4 * 4 + sizeof(std::vector<FlawGap>) +
            sizeof(std::optional<WidthShape>));
}

TEST_CASE("every row is on disk as soon as it is added", "[unit][output]")
{
  const ScratchFolder folder;
  TravelRecord        record(folder / "travel.csv");
  CHECK(read_travel_record(folder / "travel.csv").empty());
  record.add(distinct_sample(1));
  CHECK(read_travel_record(folder / "travel.csv").size() == 1);

  // What a kill in the midst of a row would leave.
  const std::string text = content(folder / "travel.csv");
  put_content(folder / "killed.csv", text + text.substr(text.find('\n') + 1, 40));
  CHECK(read_travel_record(folder / "killed.csv").size() == 1);
}

TEST_CASE("the smooth course of the force is known once a pass has ended", "[unit][output]")
{
  // Faces of 2 mm let the force go up and down by 4 % (invented).
  const ScratchFolder     folder;
  const Case              c = reference_case();
  TravelRecord            record(folder / "travel.csv");
  std::vector<PassSample> samples;
  for (int i = 1; i < 100; ++i)
  {
    PassSample sample = distinct_sample(i);
    sample.kind       = StepKind::push;
    sample.travel     = 0.35 * i;
    sample.ram_force  = 50e3 + 2e3 * std::sin(3.14159 * sample.travel);
    for (ToolContact &tool : sample.tools)
      tool.face_over_radius = 0;
    sample.tool(tool_at::plunger).face_over_radius = 2 / c.fixture.plunger.nose_radius;
    sample.smooth_force = sample.ripple = std::nan("");
    samples.push_back(sample);
    record.add(sample);
  }
  CHECK(std::isnan(read_travel_record(folder / "travel.csv")[50].ripple));
  record.finish(set_up(c));
  mark_course(set_up(c), samples);
  const auto back = read_travel_record(folder / "travel.csv");
  REQUIRE(back.size() == samples.size());
  for (std::size_t i = 0; i < back.size(); ++i)
    check_equal(back[i], samples[i]);
  CHECK(back[50].ripple == Approx(0.04).epsilon(0.25));
}

TEST_CASE("a full disk is an error, not a missing row", "[unit][output]")
{
  if (std::filesystem::exists("/dev/full")) // where every write fails for want of space
    CHECK_THROWS_WITH(TravelRecord("/dev/full"), Contains("disk full"));
}

TEST_CASE("a travel.csv of another make is refused with the reason", "[unit][output]")
{
  const ScratchFolder folder;
  put_content(folder / "travel.csv", "step,travel [inch]\n1,2\n");
  CHECK_THROWS_WITH(read_travel_record(folder / "travel.csv"),
                    (folder / "travel.csv").string() +
                        ": has no column 'kind'. Its columns are: 'step', 'travel [inch]'. "
                        "It is none of this version, or was edited by hand. Push the case "
                        "again.");
  // An apostrophe in a name does not end what is quoted.
  put_content(folder / "travel.csv", "jack's travel [mm]\n1\n");
  CHECK_THROWS_WITH(read_travel_record(folder / "travel.csv"),
                    Contains("Its columns are: 'jack''s travel [mm]'."));

  TravelRecord(folder / "travel.csv").add(distinct_sample(1));
  std::string text = content(folder / "travel.csv");
  text.replace(text.find("relax"), 5, "shove");
  put_content(folder / "travel.csv", text);
  CHECK_THROWS_WITH(read_travel_record(folder / "travel.csv"),
                    Contains("column 'kind', row 1") && Contains("shove"));
  CHECK_THROWS_AS(TravelRecord(folder / "missing" / "travel.csv"), std::runtime_error);
}
