#include "inputs/keys/case_text.h"

#include "inputs/keys/case_reader.h"
#include "inputs/keys/option_table.h"
#include "inputs/keys/starter_case.h"

#include "inputs/keys/validation.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <vector>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
Case read(const std::string &text, const std::vector<std::string> &words = {})
{
  const CaseReading reading = read_case_text(text, "text", words);
  INFO(error_list(reading.errors));
  REQUIRE(reading.value.has_value());
  return *reading.value;
}

bool same_points(const std::vector<FlowPoint> &a, const std::vector<FlowPoint> &b)
{
  bool same = a.size() == b.size();
  for (std::size_t i = 0; same && i < a.size(); ++i)
    same = a[i].plastic_strain == b[i].plastic_strain && a[i].stress == b[i].stress;
  return same;
}

/// Every field that the option table knows, compared to the last bit.
void check_identical(Case a, Case b)
{
  for (const Option &o : option_table())
  {
    INFO(o.key());
    if (const auto *number = std::get_if<NumberSlot>(&o.slot))
      CHECK(number->at(a) == number->at(b));
    else if (const auto *count = std::get_if<CountSlot>(&o.slot))
      CHECK(count->at(a) == count->at(b));
    else if (const auto *choice = std::get_if<ChoiceSlot>(&o.slot))
      CHECK(choice->get(a) == choice->get(b));
    else if (const auto *table = std::get_if<TableSlot>(&o.slot))
      CHECK(same_points(table->at(a), table->at(b)));
    else if (std::holds_alternative<FormulaSlot>(o.slot))
      CHECK(value_text(o, a) == value_text(o, b)); // as exact as it is read
    else
      CHECK(std::get<TextSlot>(o.slot).at(a) == std::get<TextSlot>(o.slot).at(b));
  }
}
} // namespace

TEST_CASE("the starter is a valid case with the yard's values", "[unit][case_text]")
{
  const CaseReading reading = read_case_text(starter_text(), "starter", {});
  INFO(error_list(reading.errors));
  REQUIRE(reading.value.has_value());
  CHECK(reading.remarks.empty());
  const Case &c = *reading.value;
  CHECK(c.coupon.thickness == 10);
  CHECK(c.coupon.width == 38);
  CHECK(c.coupon.length == 160);
  CHECK(c.fixture.plunger.width == 40);
  CHECK(c.fixture.shoulders.opening == 63.2);
  CHECK(c.fixture.shoulders.radius == 20);
  CHECK(c.ram.capacity == 80000);
  CHECK(c.ram.stroke == 120);
  CHECK(c.friction.plunger == 0.12);
  CHECK(c.friction.shoulders == 0.12);
  CHECK(c.material.flow.law == HardeningLaw::voce);
  CHECK(c.material.flow.yield == 250);
  CHECK(c.material.flow.saturation == 200);
  CHECK(c.material.flow.rate == 12);
  CHECK(c.material.flow.hardening == 150);
}

TEST_CASE("the starter names every key, and its commented keys show what is in force",
          "[unit][case_text]")
{
  const std::string text = starter_text();
  for (const Option &o : option_table())
    CHECK((text.find("\n" + o.name + " =") != std::string::npos ||
           text.find("\n# " + o.name + " =") != std::string::npos));

  // With the comment marks taken off all keys that have a value, it is the same case still.
  std::string        bare;
  std::size_t        taken = 0;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
  {
    const std::size_t equals = line.find(" = ");
    if (line.rfind("# ", 0) == 0 && equals != std::string::npos && equals > 2 &&
        line.find(' ', 2) == equals)
    {
      line = line.substr(2);
      ++taken;
    }
    bare += line + "\n";
  }
  CHECK(taken > 20);
  check_identical(read(bare), read(text));
}

TEST_CASE("the short starter is the full one's case in about twenty lines",
          "[unit][case_text]")
{
  const std::string text = short_starter_text();
  CHECK(std::count(text.begin(), text.end(), '\n') <= 25);
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    CHECK(line.size() <= 92);
  Case full  = read(starter_text());
  full.title = read(text).title; // a short case leaves its pass without a name
  check_identical(read(text), full);
}

TEST_CASE("the example of the sound pass is the starter's case", "[unit][case_text]")
{
  const CaseReading example = read_case(std::string(THROUGHBEND_SOURCE_DIR) +
                                            "/examples/kestrel-haven/sound-pass/case.ini",
                                        {});
  INFO(error_list(example.errors));
  REQUIRE(example.value.has_value());
  CHECK(example.remarks.empty());
  Case starter    = read(starter_text());
  starter.lesson  = example.value->lesson;  // words for a class, which a beginner's case
  starter.chapter = example.value->chapter; // has no need of
  // A beginner states the elongation of a metal that is at hand, or none.
  CHECK(starter.material.elongation == 0);
  starter.material.elongation = example.value->material.elongation;
  check_identical(*example.value, starter);
}

TEST_CASE("an effective case reads back as the identical case, with no remark on how it is "
          "written",
          "[unit][case_text]")
{
  const std::vector<std::vector<std::string>> variants = {
      {},
      {"--coupon.thickness", "3/8 in", "--coupon.offset=-1/3 in", "--ram.capacity",
       "8.1 tonf"},
      {"--material.law=swift", "--material.strength=101.7 ksi",
       "--material.prestrain=0.7 %", "--material.exponent=0.213"},
      {"--material.law=ludwik", "--material.strength=90 ksi", "--material.exponent=1/3"},
      {"--material.law=table", "--material.table=0:36.1 ksi, 1/3:77.7 ksi",
       "--material.extrapolation=flat"},
      {"--shoulders.kind=rollers", "--shoulders.rollers_turn=yes"},
      {"--material.grade=a516-70", "--material.law=swift", "--material.elongation=1/7",
       "--friction.lubricant=moly-paste", "--frame.distance=70 mm"},
      {"--material.grade=aluminium-tabulated", "--material.law=table"},
      {"--plunger.width=1-1/7t", "--shoulders.opening=4t + 1/7 in",
       "--plunger.nose_radius=t/3"},
      {"--frame.distance=3-1/7 in", "--frame.edge_radius=1/64 in", "--weld.width=1/2 in",
       "--weld.haz_width=1/7 in", "--weld.haz_ratio=0.87", "--case.title=a = b, \"c\""},
      {"--mesh.level=fine", "--mesh.model=full", "--mesh.dimension=3", "--mesh.layers=6",
       "--mesh.cell_size=1/32 in", "--solver.regularisation=3.3e-9"}};
  for (const std::vector<std::string> &words : variants)
  {
    const Case        first   = read(starter_text(), words);
    const std::string text    = effective_text(first);
    const CaseReading reading = read_case_text(text, "effective", {});
    INFO(text << error_list(reading.errors));
    REQUIRE(reading.value.has_value());
    CHECK(reading.remarks == find_remarks(first)); // those on the case itself
    check_identical(*reading.value, first);
    CHECK(effective_text(*reading.value) == text);
    CHECK(case_hash(*reading.value) == case_hash(first));
  }
}

TEST_CASE("an effective case needs no catalogue of the user's own", "[unit][case_text]")
{
  const ScratchFolder folder;
  const std::string   path = (folder / "metals.csv").string();
  put_content(path, "grade,law,yield,how\nyard-steel,perfect,50 ksi,invented\n");
  const std::vector<std::string> words   = {"--material.catalogue", path,
                                            "--material.grade",     "yard-steel",
                                            "--material.law",       "perfect"};
  const Case                     first   = read(starter_text(), words);
  const std::string              text    = effective_text(first);
  const CaseReading              reading = read_case_text(text, "effective", {});
  INFO(text << error_list(reading.errors));
  REQUIRE(reading.value.has_value());
  CHECK(text.find(path) == std::string::npos);
  REQUIRE(reading.remarks.size() == 1);
  CHECK(reading.remarks.front().find("every key it could set is given") !=
        std::string::npos);
  CHECK(reading.value->material.grade == "yard-steel");
  CHECK(reading.value->material.flow.yield == first.material.flow.yield);
  CHECK(effective_text(*reading.value) == text);
  CHECK(case_hash(*reading.value) == case_hash(first));
}

TEST_CASE("random numbers survive the effective case to the last bit", "[unit][case_text]")
{
  std::mt19937                           random(7);
  std::uniform_real_distribution<double> part(0, 1);
  Case                                   c = read(starter_text());
  for (int i = 0; i < 200; ++i)
  {
    c.coupon.thickness      = 3 + 22 * part(random);
    c.coupon.length         = 120 + 100 * part(random);
    c.ram.capacity          = 1e3 + 1e6 * part(random);
    c.material.young        = 1e5 + 1e5 * part(random);
    c.material.flow.yield   = 150 + 700 * part(random);
    c.friction.shoulders    = 0.4 * part(random);
    c.solver.regularisation = 1e-9 + 1e-6 * part(random);
    check_identical(read(effective_text(c)), c);
  }
}

namespace
{
/// Cases in which, between them, every key has a meaning.
std::vector<std::vector<std::string>> all_kinds_of_cases()
{
  std::vector<std::vector<std::string>> kinds = {
      {},
      {"--material.law=perfect", "--material.kinematic_saturation=50 MPa",
       "--material.kinematic_rate=30"},
      {"--material.law=linear", "--material.hardening=1 GPa"},
      {"--material.law=swift", "--material.strength=700 MPa", "--material.prestrain=0.01",
       "--material.exponent=0.2"},
      {"--material.law=ludwik", "--material.strength=500 MPa", "--material.exponent=0.4"},
      {"--material.law=table", "--material.table=0:250 MPa, 0.2:400 MPa"},
      {"--material.law=formula", "--material.formula=a + b*p^c",
       "--material.constants=a:250 MPa, b:400 MPa, c:0.5"},
      {"--shoulders.kind=rollers", "--shoulders.rollers_turn=yes"},
      {"--frame.distance=90 mm", "--jack.bore=40 mm"},
      {"--mesh.dimension=3"}};
  for (const char *preparation : {"square", "single_v", "double_v", "single_bevel"})
  {
    const bool                     square = std::string(preparation) == "square";
    const std::vector<std::string> welded = {
        std::string("--weld.preparation=") + preparation,
        square ? "--weld.width=10 mm" : "--weld.root_opening=2 mm",
        "--weld.haz_width=3 mm",
        "--weld.cap_height=2 mm",
        "--weld.root_bead_height=1 mm",
        "--flaw.depth=2 mm",
        "--flaw2.depth=1 mm",
        "--flaw2.line=left"};
    kinds.push_back(welded);
    for (const char *law :
         {"perfect", "linear", "voce", "swift", "ludwik", "table", "formula"})
    {
      std::vector<std::string> words = welded;
      for (const std::string zone : {"weld_metal", "haz"})
      {
        words.push_back("--weld." + std::string(zone == "haz" ? "haz_law" : "metal_law") +
                        "=" + law);
        words.push_back("--" + zone + ".yield=260 MPa");
        words.push_back("--" + zone + ".hardening=1 GPa");
        words.push_back("--" + zone + ".saturation=100 MPa");
        words.push_back("--" + zone + ".rate=10");
        words.push_back("--" + zone + ".strength=700 MPa");
        words.push_back("--" + zone + ".prestrain=0.01");
        words.push_back("--" + zone + ".exponent=0.2");
        words.push_back("--" + zone + ".table=0:250 MPa, 0.2:400 MPa");
        words.push_back("--" + zone + ".formula=a + b*p^c");
        words.push_back("--" + zone + ".constants=a:250 MPa, b:400 MPa, c:0.5");
      }
      kinds.push_back(words);
    }
  }
  return kinds;
}

/// Limits and odd values of a number, as a user of either family of units types them.
std::vector<std::string> typed_values(const UnitKind kind, const Range &range)
{
  std::vector<std::string> texts;
  for (const double limit : {range.low, range.high})
    if (std::isfinite(limit))
    {
      for (const double value :
           {limit, std::nextafter(limit, (range.low + range.high) / 2)})
        texts.push_back(exact_text(value, kind));
      texts.push_back(to_text(limit, kind, UnitSystem::us));
    }
  for (const double value : {1e-7, 123456.789012345, 0.1 + 0.2})
    texts.push_back(exact_text(value, kind));
  for (const char *number : {"3/8", "1-1/7", "17.3"})
    switch (kind)
    {
    case UnitKind::length:
      texts.push_back(number + std::string(" in"));
      break;
    case UnitKind::force:
      texts.push_back(number + std::string(" tonf"));
      break;
    case UnitKind::stress:
      texts.push_back(number + std::string(" ksi"));
      break;
    case UnitKind::density:
      texts.push_back(number + std::string(" lb/in^3"));
      break;
    case UnitKind::angle:
      texts.push_back(number + std::string(" deg"));
      break;
    case UnitKind::ratio:
      texts.push_back(number + std::string(" %"));
      break;
    default:
      break;
    }
  return texts;
}

std::vector<std::string> typed_values(const Option &option)
{
  if (const auto *number = std::get_if<NumberSlot>(&option.slot))
    return typed_values(number->kind, number->range);
  if (const auto *count = std::get_if<CountSlot>(&option.slot))
    return typed_values(UnitKind::count, count->range);
  if (const auto *choice = std::get_if<ChoiceSlot>(&option.slot))
    return choice->names;
  if (std::holds_alternative<TableSlot>(option.slot))
    return {"0:36.1 ksi, 1/3:77.7 ksi", "0:1 MPa, 1e-9:1.0000000001 MPa"};
  if (const auto *formula = std::get_if<FormulaSlot>(&option.slot))
    return formula->part == FormulaPart::expression
               ? std::vector<std::string>{"a+b*p^c", "(p>=1e-3)?a+b*(p-0.001)^c:a"}
               : std::vector<std::string>{"a:36.1 ksi, b:1/3 ksi, c:0.1",
                                          "a:250 MPa,b:1e-9 MPa,c:33 %"};
  return {"a = b, \"c\" [d] 'e'"};
}
} // namespace

// At its limits and at odd values, in both families of units; what is taken must be written
// down so that it is taken again, as the very same case.
TEST_CASE("whatever is taken of any key can be printed and read again", "[unit][case_text]")
{
  constexpr int              kinds_a_key = 2; // a key may mean another thing in each
  std::map<std::string, int> tried;
  for (const std::vector<std::string> &kind : all_kinds_of_cases())
  {
    const CaseReading base = read_case_text(starter_text(), "base", kind);
    INFO(error_list(base.errors));
    REQUIRE(base.value);
    for (const Option &o : option_table())
    {
      if (o.only_origin || (o.applies && !o.applies(*base.value)))
        continue;
      if (++tried[o.key()] > kinds_a_key)
        continue;
      for (const std::string &typed : typed_values(o))
      {
        std::vector<std::string> words;
        for (const std::string &word : kind)
          if (word.rfind("--" + o.key() + "=", 0) != 0)
            words.push_back(word);
        words.push_back("--" + o.key() + "=" + typed);
        const CaseReading first = read_case_text(starter_text(), "typed", words);
        if (!first.value)
          continue; // refused: which values are is checked elsewhere
        const std::string printed = effective_text(*first.value);
        const CaseReading again   = read_case_text(printed, "printed", {});
        INFO(words.back() << "\n" << error_list(again.errors));
        REQUIRE(again.value.has_value());
        REQUIRE(effective_text(*again.value) == printed);
        REQUIRE(case_hash(*again.value) == case_hash(*first.value));
      }
    }
  }
  for (const Option &o : option_table())
    if (!o.only_origin && o.section != "flaw3")
    {
      INFO(o.key());
      CHECK(tried[o.key()] > 0);
    }
}

TEST_CASE("the steepest hardening that may be told can be printed and read again",
          "[unit][case_text]")
{
  // Linear hardening at its upper limit: by hand, necking at a true stress of the modulus,
  // so a tensile strength of 1e5 exp(250 / 1e5 - 1) MPa.
  const Case steep =
      read(starter_text(), {"--material.law=linear", "--material.hardening=100 GPa"});
  CHECK(steep.material.tensile_strength == Approx(36880).epsilon(0.001));
  CHECK(effective_text(read(effective_text(steep))) == effective_text(steep));
}

TEST_CASE("what follows from other keys goes on following them in a written case",
          "[unit][case_text]")
{
  const Case        first = read(starter_text(), {"--friction.shoulders", "0.2"});
  const std::string text  = effective_text(first);
  const Case        same = read(text), dry = read(text, {"--friction.shoulders", "0.35"}),
             wide = read(text, {"--plunger.width", "44 mm"});
  CHECK(same.friction.left_shoulder() == 0.2);
  CHECK(dry.friction.left_shoulder() == 0.35); // both shoulders, as in the case itself
  CHECK(wide.fixture.plunger.nose_radius == 22);
  // One that was given stays as it was given, though it is what it would be anyway.
  const Case given =
      read(starter_text(), {"--plunger.width", "40 mm", "--plunger.nose_radius", "20 mm"});
  CHECK(read(effective_text(given), {"--plunger.width", "44 mm"})
            .fixture.plunger.nose_radius == 20);
  // One that was given apart stays apart, and the reader says so.
  const Case        apart = read(starter_text(), {"--friction.left_shoulder", "0.3"});
  const CaseReading reading =
      read_case_text(effective_text(apart), "apart", {"--friction.shoulders", "0.35"});
  REQUIRE(reading.value);
  CHECK(reading.value->friction.left_shoulder() == 0.3);
  CHECK(std::any_of(reading.remarks.begin(), reading.remarks.end(),
                    [](const std::string &remark)
                    {
                      return remark.find("friction.left_shoulder stays 0.3") !=
                                 std::string::npos &&
                             remark.find("would be 0.35") != std::string::npos;
                    }));
  CHECK(read_case_text(effective_text(apart), "apart", {}).remarks.size() ==
        find_remarks(apart).size());
}

TEST_CASE("the effective case names every key of the table", "[unit][case_text]")
{
  const std::string text = effective_text(read(starter_text()));
  for (const Option &o : option_table())
    CHECK((text.find("\n" + o.name + " = ") != std::string::npos ||
           text.find("\n# " + o.name + " = ") != std::string::npos ||
           text.find("\n# " + o.name + ": no effect") != std::string::npos));
}

TEST_CASE("FNV-1a agrees with its published test vectors", "[unit][case_text]")
{
  // Fowler, Noll, Vo, Eastlake: draft-eastlake-fnv, appendix with test values (from
  // memory): the 64-bit FNV-1a of "", "a" and "foobar".
  CHECK(fnv1a_hex("") == "cbf29ce484222325");
  CHECK(fnv1a_hex("a") == "af63dc4c8601ec8c");
  CHECK(fnv1a_hex("foobar") == "85944171f73967e8");
}

TEST_CASE("the hash knows the case and nothing of its spelling", "[unit][case_text]")
{
  const Case        c    = read(starter_text());
  const std::string hash = case_hash(c);
  CHECK(hash.size() == 16);
  CHECK(case_hash(read(starter_text(), {"--coupon.thickness", "1 cm"})) == hash);
  CHECK(case_hash(read(starter_text(), {"--coupon.thickness", "10.000000000000002 mm"})) !=
        hash);
  CHECK(case_hash(read(starter_text(), {"--mesh.level", "fine"})) != hash);
  CHECK(case_hash(read(starter_text(), {"--solver.checkpoint_every", "1 min"})) == hash);
  CHECK(case_hash(read("# more words\n" + starter_text())) == hash);
}

TEST_CASE("cases are compared key by key, but for what changes nothing in a pass",
          "[unit][case_text]")
{
  const auto values = [](const std::vector<std::string> &overrides)
  { return case_values(read(starter_text(), overrides)); };
  CHECK(case_difference(values({}), values({"--coupon.thickness", "1 cm"})).empty());
  CHECK(
      case_difference(values({}), values({"--solver.checkpoint_every", "2 min"})).empty());
  CHECK(case_difference(values({}),
                        values({"--ram.stroke", "100 mm", "--mesh.level", "fine"})) ==
        std::vector<std::string>{"mesh.level standard there, fine here",
                                 "ram.stroke 120 mm there, 100 mm here"});
  // Keys that only one of the two has.
  CHECK(case_difference({{"a.b", "1"}}, {{"a.c", "2"}}) ==
        std::vector<std::string>{"a.b 1 there, nothing here", "a.c nothing there, 2 here"});
}

TEST_CASE("checkpoints are off in the plane and every five minutes in 3D",
          "[unit][case_text]")
{
  CHECK(read(starter_text()).solver.checkpoint_every == 0);
  CHECK(read(starter_text(), {"--mesh.dimension", "3"}).solver.checkpoint_every == 300);
  CHECK(
      read(starter_text(), {"--solver.checkpoint_every", "90 s"}).solver.checkpoint_every ==
      90);
}
