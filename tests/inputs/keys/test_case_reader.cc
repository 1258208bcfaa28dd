#include "inputs/keys/case_entries.h"
#include "inputs/keys/case_reader.h"
#include "inputs/keys/starter_case.h"

#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <vector>

using namespace throughbend;
using Catch::Matchers::Contains;
using Words = std::vector<std::string>;

namespace
{
/// The smallest case there is: all required keys and nothing else. Invented.
const std::string smallest = "[coupon]\n"          // line 1
                             "length = 160 mm\n"   // 2
                             "width = 38 mm\n"     // 3
                             "thickness = 10 mm\n" // 4
                             "[material]\n"        // 5
                             "law = perfect\n"     // 6
                             "yield = 345 MPa\n"   // 7
                             "[plunger]\n"         // 8
                             "width = 40 mm\n"     // 9
                             "[shoulders]\n"       // 10
                             "radius = 20 mm\n"    // 11
                             "opening = 63.2 mm\n" // 12
                             "[ram]\n"             // 13
                             "capacity = 80 kN\n"  // 14
                             "stroke = 120 mm\n";  // 15

CaseReading read(const std::string &text, const Words &words = {})
{
  return read_case_text(text, "shop.ini", words);
}

/// The smallest case with one piece of text replaced.
std::string with(const std::string &old_text, const std::string &new_text)
{
  std::string       text = smallest;
  const std::size_t at   = text.find(old_text);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old_text.size(), new_text);
}

Case good(const CaseReading &reading)
{
  INFO(error_list(reading.errors));
  REQUIRE(reading.errors.empty());
  REQUIRE(reading.value.has_value());
  return *reading.value;
}

/// The text of the only error there is.
std::string only_error(const CaseReading &reading)
{
  INFO(error_list(reading.errors));
  CHECK_FALSE(reading.value.has_value());
  REQUIRE(reading.errors.size() == 1);
  return reading.errors.front().text();
}

std::string all_remarks(const CaseReading &reading)
{
  std::string all;
  for (const std::string &remark : reading.remarks)
    all += remark + "\n";
  return all;
}
} // namespace

TEST_CASE("the smallest case is read and its defaults are filled in", "[unit][case]")
{
  const CaseReading reading = read(smallest);
  const Case        c       = good(reading);
  CHECK(reading.remarks.empty());
  CHECK(c.coupon.length == 160);
  CHECK(c.coupon.width == 38);
  CHECK(c.coupon.thickness == 10);
  CHECK(c.material.flow.law == HardeningLaw::perfect);
  CHECK(c.material.flow.yield == 345);
  CHECK(c.material.young == 210000);
  CHECK(c.material.poisson == 0.3);
  CHECK(c.material.density == 7850);
  CHECK(c.fixture.plunger.nose_radius == 20);
  CHECK(c.fixture.shoulders.kind == ShoulderKind::solid);
  CHECK(c.fixture.shoulders.depth == 45);
  CHECK(c.fixture.shoulders.bottom_radius == 5);
  CHECK_FALSE(c.fixture.frame.present());
  CHECK(c.friction.plunger == 0.1);
  CHECK(c.friction.shoulders == 0.1);
  CHECK(c.ram.capacity == 80000);
  CHECK(c.ram.stroke == 120);
  CHECK(c.mesh.dimension == 2);
  CHECK(c.solver.residual_tolerance == 1e-3);
  CHECK(c.solver.regularisation == 1e-4);
  CHECK(c.solver.step_limit == 4000);
  CHECK(c.output.field_spacing == 5);
}

TEST_CASE("a frame brings its own defaults", "[unit][case]")
{
  const Case c = good(read(smallest + "[frame]\ndistance = 80 mm\n"));
  CHECK(c.fixture.frame.present());
  CHECK(c.fixture.frame.clearance_above == 1.5);
  CHECK(c.fixture.frame.clearance_below == 1.5);
  CHECK(c.fixture.frame.plate_thickness == 10);
  CHECK(c.fixture.frame.edge_radius == 1);
  CHECK(c.friction.frame == 0.1);
}

TEST_CASE("a table's last strain is backed by default", "[unit][case]")
{
  const Case c =
      good(read(with("law = perfect\nyield = 345 MPa",
                     "law = table\ntable = 0:250 MPa, 2 %:300 MPa, 0.3:440 MPa")));
  REQUIRE(c.material.flow.points.size() == 3);
  CHECK(c.material.flow.points[1].plastic_strain == 0.02);
  CHECK(c.material.flow.points[2].stress == 440);
  CHECK(c.material.flow.last_strain == 0.3);
  CHECK(c.material.flow.yield == 250);
}

TEST_CASE("a swift curve's yield stress is derived", "[unit][case]")
{
  const Case c = good(read(with("law = perfect\nyield = 345 MPa",
                                "law = swift\nstrength = 700 MPa\nprestrain = 0.01\n"
                                "exponent = 0.5")));
  CHECK(c.material.flow.yield == Approx(70)); // 700 sqrt(0.01)
}

TEST_CASE("comments, blank lines, Windows line ends and a byte-order mark are no matter",
          "[unit][case]")
{
  std::string windows = "\xEF\xBB\xBF# a comment\r\n\r\n";
  for (const char c : smallest)
    windows += c == '\n' ? std::string("\r\n") : std::string(1, c);
  windows += "[friction]   # its own\r\n  plunger=0.2# oil\r\n";
  const Case c = good(read(windows));
  CHECK(c.friction.plunger == 0.2);
  CHECK(c.ram.stroke == 120);
}

TEST_CASE("a full key may stand outside of a section and sections may come again",
          "[unit][case]")
{
  const Case c =
      good(read("friction.plunger = 0.3\n" + smallest + "[coupon]\noffset = -3 mm\n"));
  CHECK(c.friction.plunger == 0.3);
  CHECK(c.coupon.offset == -3);
}

TEST_CASE("an error says file, line, key, value and the allowed range", "[unit][case]")
{
  CHECK(only_error(read(with("thickness = 10 mm", "thickness = -6 mm"))) ==
        "shop.ini:4: coupon.thickness = -6 mm; must not be negative; "
        "allowed: 0.2 mm to 150 mm");
}

TEST_CASE("the range is told in the units that were typed", "[unit][case]")
{
  CHECK_THAT(only_error(read(with("thickness = 10 mm", "thickness = 10 ft"))),
             Contains("allowed: 0.00787402 in to 5.90551 in"));
}

TEST_CASE("a missing unit and a wrong one are refused", "[unit][case]")
{
  CHECK_THAT(only_error(read(with("thickness = 10 mm", "thickness = 10"))),
             Contains("shop.ini:4: coupon.thickness = 10; the unit is missing"));
  CHECK_THAT(only_error(read(with("thickness = 10 mm", "thickness = 10 MPa"))),
             Contains("unit of stress"));
  CHECK_THAT(only_error(read(with("thickness = 10 mm", "thickness = nan mm"))),
             Contains("finite"));
  CHECK_THAT(only_error(read(with("thickness = 10 mm", "thickness ="))),
             Contains("coupon.thickness; has no value"));
}

TEST_CASE("an unknown key is refused with the nearest known one", "[unit][case]")
{
  // The mistyped key is not held against the user a second time as a missing one.
  CHECK(
      only_error(read(with("thickness = 10 mm", "thicknes = 10 mm"))) ==
      "shop.ini:4: coupon.thicknes = 10 mm; unknown key; did you mean 'coupon.thickness'?");
  CHECK_THAT(only_error(read(smallest + "[friction]\ngrease = 0.1\n")),
             Contains("shop.ini:17: friction.grease = 0.1; unknown key"));
}

TEST_CASE("unknown sections and keys outside of sections are refused", "[unit][case]")
{
  const CaseReading reading = read(with("[shoulders]", "[shoulder]"));
  REQUIRE(reading.errors.size() == 2);
  CHECK(reading.errors[0].text() == "shop.ini:11: shoulder.radius = 20 mm; unknown section "
                                    "'shoulder'; did you mean 'shoulders.radius'?");
  CHECK(reading.errors[1].nearest == "shoulders.opening");
  CHECK_THAT(only_error(read("clearance = 2 mm\n" + smallest)),
             Contains("shop.ini:1: clearance = 2 mm; unknown key outside any section"));
}

TEST_CASE("a key given twice is refused with both places", "[unit][case]")
{
  CHECK_THAT(only_error(read(smallest + "[coupon]\nwidth = 40 mm\n")),
             Contains("shop.ini:17: coupon.width = 40 mm; is given twice, first at "
                      "shop.ini:3"));
}

TEST_CASE("lines that are no settings are refused one by one", "[unit][case]")
{
  const CaseReading reading =
      read(smallest + "[friction\n; old style\nplunger 0.1\n= 5\n[]\n");
  REQUIRE(reading.errors.size() == 5);
  CHECK_THAT(reading.errors[0].text(),
             Contains("shop.ini:16: '[friction'; ") && Contains("']' is missing"));
  CHECK_THAT(reading.errors[1].text(), Contains("shop.ini:17") && Contains("'#'"));
  CHECK_THAT(reading.errors[2].text(), Contains("shop.ini:18: 'plunger 0.1'"));
  CHECK_THAT(reading.errors[3].text(), Contains("shop.ini:19") && Contains("no key"));
  CHECK_THAT(reading.errors[4].text(), Contains("shop.ini:20") && Contains("no name"));
}

TEST_CASE("an empty case names every required key", "[unit][case]")
{
  const std::string all = error_list(read("").errors);
  for (const std::string key : {"coupon.length", "coupon.width", "coupon.thickness",
                                "material.law", "plunger.width", "shoulders.radius",
                                "shoulders.opening", "ram.capacity", "ram.stroke"})
    CHECK_THAT(all, Contains("shop.ini: " + key + "; is required but missing"));
  CHECK(read("").errors.size() == 9);
}

TEST_CASE("each law asks for what it needs and for nothing else", "[unit][case]")
{
  const auto missing = [](const std::string &law)
  {
    std::string keys;
    for (const CaseError &error :
         read(with("law = perfect\nyield = 345 MPa", "law = " + law)).errors)
      keys += error.key.substr(error.key.find('.') + 1) + " ";
    return keys;
  };
  CHECK(missing("perfect") == "yield ");
  CHECK(missing("linear") == "yield hardening ");
  CHECK(missing("voce") == "yield saturation rate ");
  CHECK(missing("swift") == "strength prestrain exponent ");
  CHECK(missing("ludwik") == "yield strength exponent ");
  CHECK(missing("table") == "table ");
}

TEST_CASE("a bad law does not bring errors about keys that hang on it", "[unit][case]")
{
  CHECK_THAT(only_error(read(with("law = perfect", "law = vocee"))),
             Contains("did you mean 'voce'"));
}

TEST_CASE("all errors come at once, down the file and then the missing keys",
          "[unit][case]")
{
  const CaseReading        reading = read("[coupon]\n"
                                                 "length = long\n"
                                                 "witdh = 38 mm\n"
                                                 "thickness = 10\n"
                                                 "[material]\n"
                                                 "law = perfect\n"
                                                 "yield = 345 mm\n"
                                                 "nonsense\n"
                                                 "[plunger]\n"
                                                 "width = 40 mm\n"
                                                 "nose_radius = 30 mm\n"
                                                 "[shoulders]\n"
                                                 "radius = 20 mm\n"
                                                 "opening = 30 mm\n");
  std::vector<std::string> places;
  for (const CaseError &error : reading.errors)
    places.push_back(error.place);
  CHECK(places == Words{"shop.ini:2", "shop.ini:3", "shop.ini:4", "shop.ini:7",
                        "shop.ini:8", "shop.ini:10", "shop.ini:11", "shop.ini",
                        "shop.ini"});
}

TEST_CASE("keys without meaning in the case are told, not refused", "[unit][case]")
{
  const CaseReading reading = read(smallest + "[frame]\nedge_radius = 2 mm\n"
                                              "[material]\nrate = 12\n");
  const Case        c       = good(reading);
  CHECK(c.material.flow.rate == 0);
  CHECK_THAT(all_remarks(reading),
             Contains("shop.ini:17: frame.edge_radius has no effect"));
  CHECK_THAT(all_remarks(reading), Contains("shop.ini:19: material.rate has no effect"));
}

TEST_CASE("a plain tonf is read as the short one and that is said", "[unit][case]")
{
  const CaseReading reading = read(with("80 kN", "8 tonf"));
  CHECK(good(reading).ram.capacity == Approx(71171.5458)); // 16000 lbf, from the definition
  CHECK_THAT(all_remarks(reading), Contains("short ton"));
}

TEST_CASE("the command line overrides the file", "[unit][case]")
{
  const Case c =
      good(read(smallest, {"--coupon.thickness", "11 mm", "--friction.plunger=0.2",
                           "--coupon.offset", "-3 mm", "--case.title=a = b"}));
  CHECK(c.coupon.thickness == 11);
  CHECK(c.friction.plunger == 0.2);
  CHECK(c.coupon.offset == -3);
  CHECK(c.title == "a = b");
  CHECK(good(read(with("thickness = 10 mm", "thickness = bad"),
                  {"--coupon.thickness", "3/8 in"}))
            .coupon.thickness == Approx(9.525));
}

TEST_CASE("errors of overrides say command line", "[unit][case]")
{
  CHECK(only_error(read(smallest, {"--coupon.thickness", "-6 mm"})) ==
        "command line: coupon.thickness = -6 mm; must not be negative; "
        "allowed: 0.2 mm to 150 mm");
  CHECK_THAT(only_error(read(smallest, {"--plunger.width", "70 mm"})),
             Contains("command line: plunger.width = 70 mm; the plunger"));
  CHECK_THAT(only_error(read(smallest, {"--coupon.width", "4 mm", "--coupon.width=5 mm"})),
             Contains("command line: coupon.width = 5 mm; is given twice"));
}

TEST_CASE("a prefix of a key on the command line is no key", "[unit][case]")
{
  CHECK(
      only_error(read(smallest, {"--coupon.thick", "11 mm"})) ==
      "command line: coupon.thick = 11 mm; unknown key; did you mean 'coupon.thickness'?");
  CHECK_THAT(only_error(read(smallest, {"--coupon.tihckness=11 mm"})),
             Contains("coupon.tihckness = 11 mm; unknown key; did you mean"));
}

TEST_CASE("overrides without value and words without option are refused", "[unit][case]")
{
  const CaseReading reading =
      read(smallest, {"--coupon.width", "--coupon.thickness", "11 mm", "stray"});
  REQUIRE(reading.errors.size() == 2);
  CHECK_THAT(reading.errors[0].text(), Contains("coupon.width") && Contains("no value"));
  CHECK_THAT(reading.errors[1].text(), Contains("'stray'; follows no option"));
  CHECK_THAT(only_error(read(smallest, {"--ram.stroke"})), Contains("has no value"));
  CHECK_THAT(only_error(read(smallest, {"--ram.stroke="})), Contains("has no value"));
}

TEST_CASE("words for the case are told apart from words for the program", "[unit][case]")
{
  const SortedArguments sorted =
      sort_arguments({"--units", "us", "case.ini", "--coupon.offset", "-3 mm",
                      "--overwrite", "--ram.stroke=90 mm", "--out", "run.1"});
  CHECK(sorted.overrides == Words{"--coupon.offset", "-3 mm", "--ram.stroke=90 mm"});
  CHECK(sorted.others ==
        Words{"--units", "us", "case.ini", "--overwrite", "--out", "run.1"});
}

TEST_CASE("files that are no text are refused without a flood of missing keys",
          "[unit][case]")
{
  CHECK_THAT(only_error(read(std::string("[coupon]\nlength = 1\0 mm\n", 25))),
             Contains("shop.ini:2: is not text: byte 0"));
  CHECK_THAT(only_error(read("# caf\xE9\n" + smallest)),
             Contains("shop.ini:1: is not text: byte 233"));
  CHECK_THAT(only_error(read(std::string("\xFF\xFE[\0c\0", 6))), Contains("UTF-16"));
  CHECK(good(read("# caf\xC3\xA9\n" + smallest)).coupon.length == 160);
}

TEST_CASE("a title is one line of plain text", "[unit][case]")
{
  CHECK(good(read(smallest + "[case]\ntitle = Caf\xC3\xA9 = 3/8\" coupon # comment\n"))
            .title == "Caf\xC3\xA9 = 3/8\" coupon");
  CHECK_THAT(only_error(read(smallest, {"--case.title", "pass #4"})),
             Contains("without '#'"));
  CHECK_THAT(only_error(read(smallest, {"--case.title", "a\nb"})), Contains("one line"));
  CHECK_THAT(only_error(read(smallest, {"--case.title", std::string(300, 'x')})),
             Contains("longer than"));
}

TEST_CASE("a long junk value is clipped in the message", "[unit][case]")
{
  CHECK(only_error(read(with("160 mm", std::string(5000, '7') + " mm"))).size() < 250);
}

TEST_CASE("what is no readable file is refused with the reason", "[unit][case]")
{
  const ScratchFolder folder;
  const std::string   path = (folder / "shop.ini").string();

  CHECK_THAT(only_error(read_case(path, {})), Contains(path + ": there is no such file"));
  CHECK_THAT(only_error(read_case(folder.path().string(), {})), Contains("is a directory"));
  CHECK_THAT(only_error(read_case("", {})), Contains("no case file is named"));
  put_content(path, smallest);
  CHECK(good(read_case(path, {})).coupon.length == 160);
  put_content(path, std::string((1u << 20) + 1, '#'));
  CHECK_THAT(only_error(read_case(path, {})), Contains("larger than 1 MiB"));

  // Permissions do not stop root, so only others can see this refusal.
  put_content(path, smallest);
  std::filesystem::permissions(path, std::filesystem::perms::none);
  if (!std::ifstream(path))
    CHECK_THAT(only_error(read_case(path, {})), Contains("cannot be opened"));
}

TEST_CASE("a file that opens but cannot be read is refused", "[unit][case]")
{
  // Linux: the first page of a process's own memory is never mapped, reading it fails.
  const std::string path = "/proc/self/mem";
  if (!std::filesystem::exists(path))
    return;
  CHECK_THAT(only_error(read_case(path, {})), Contains("cannot be"));
}

TEST_CASE("a mutilated case gives errors or a case, never a crash or both", "[unit][case]")
{
  std::mt19937      random(41);
  const std::string junk  = "[]=#;.:,%\"-+/ \n\r\t\\09azN\x01\xC3\xFF";
  const auto        below = [&](std::size_t n)
  { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
  int refused = 0;
  for (int i = 0; i < 1000; ++i)
  {
    std::string text = starter_text();
    for (std::size_t k = 0; k <= below(6); ++k)
    {
      const std::size_t at = below(text.size());
      switch (below(4))
      {
      case 0:
        text.erase(at, 1 + below(40));
        break;
      case 1:
        text.insert(at, 1, junk[below(junk.size())]);
        break;
      case 2:
        text[at] = junk[below(junk.size())];
        break;
      default:
        text.insert(at, text.substr(below(text.size()), below(80)));
      }
    }
    CaseReading reading;
    REQUIRE_NOTHROW(reading = read(text));
    REQUIRE(reading.value.has_value() == reading.errors.empty());
    refused += reading.errors.empty() ? 0 : 1;
  }
  CHECK(refused > 100);
}

TEST_CASE("a grade gives what the section material leaves out", "[unit][case]")
{
  const Case c = good(read(with("law = perfect\nyield = 345 MPa", "grade = s355-typical")));
  CHECK(c.material.grade == "s355-typical");
  CHECK(c.material.flow.law == HardeningLaw::swift);
  CHECK(c.material.flow.yield == Approx(405));
  CHECK(c.material.young == 205000);
  CHECK(c.material.elongation == 0.22);
  CHECK(c.material.tensile_strength == 530);
  CHECK(c.material.flow.last_strain == c.material.flow.exponent);
}

TEST_CASE("keys that are given override the grade", "[unit][case]")
{
  const auto graded = [](const std::string &keys)
  { return good(read(with("law = perfect\nyield = 345 MPa", keys))).material; };
  const Material young = graded("grade = s355\nyoung = 200 GPa\nelongation = 30 %");
  CHECK(young.young == 200000);
  CHECK(young.elongation == 0.3);
  CHECK(young.flow.yield == Approx(355));
  CHECK(young.tensile_strength == 470);

  // Another law: only the yield stress still means the same.
  const Material perfect = graded("grade = s355\nlaw = perfect");
  CHECK(perfect.flow.yield == Approx(355));
  CHECK(perfect.flow.last_strain == 1);
  CHECK(perfect.tensile_strength == Approx(355));
  CHECK(perfect.elongation == 0.22);

  // Another strength: the tensile strength follows from the curve in force.
  const Material strong = graded("grade = s355\nstrength = 800 MPa");
  CHECK(strong.flow.exponent == 0.137);
  CHECK(strong.tensile_strength > 520);

  const Material yard = graded("grade = kestrel-haven-plate\nyield = 300 MPa");
  CHECK(yard.flow.yield == 300);
  CHECK(yard.flow.saturation == 200);
  CHECK_THAT(only_error(read(with("law = perfect\nyield = 345 MPa",
                                  "grade = s355\nlaw = voce\nrate = 10"))),
             Contains("material.saturation; is required"));
}

TEST_CASE("a grade for other thicknesses than the coupon's is told", "[unit][case]")
{
  const auto told = [](const std::string &grade, const std::string &thickness)
  {
    return all_remarks(read(smallest, {"--material.grade", grade, "--coupon.thickness",
                                       thickness, "--shoulders.opening", "90 mm"}));
  };
  CHECK_THAT(told("s355", "20 mm"),
             Contains("s355 is for plates of a thickness <= 16 mm, and the coupon is 20"));
  CHECK_THAT(told("s355", "16 mm"), !Contains("for plates of a thickness"));
  CHECK_THAT(told("s355-over-16", "20 mm"), !Contains("for plates of a thickness"));
  CHECK_THAT(told("s355-over-16", "10 mm"), Contains("> 16 mm and <= 40 mm"));
}

TEST_CASE("a grade on the command line takes the place of the file's own curve",
          "[unit][case]")
{
  const CaseReading reading = read(smallest, {"--material.grade", "s355"});
  const Case        c       = good(reading);
  CHECK(c.material.flow.law == HardeningLaw::swift);
  CHECK(c.material.flow.yield == Approx(355));
  REQUIRE(reading.remarks.size() == 2);
  CHECK_THAT(reading.remarks[0],
             Contains("s355 takes the place of the file's") && Contains("law, yield"));
  CHECK_THAT(reading.remarks[1], Contains("s355 is the least that EN 10025-2"));

  // What stands beside it on the command line goes first all the same.
  const Case beside =
      good(read(smallest, {"--material.grade", "s355", "--material.law", "perfect"}));
  CHECK(beside.material.flow.law == HardeningLaw::perfect);
  CHECK(beside.material.flow.yield == Approx(355));
}

TEST_CASE("a lubricant on the command line takes the place of the file's coefficients",
          "[unit][case]")
{
  const Case c = good(read(smallest + "[friction]\nshoulders = 0.2\n",
                           {"--friction.lubricant", "dry-mill-scale"}));
  CHECK(c.friction.shoulders == 0.3);
  CHECK(c.friction.plunger == 0.3);
}

TEST_CASE("without a grade the tensile strength is that of the flow curve", "[unit][case]")
{
  CHECK(good(read(smallest)).material.tensile_strength == 345); // perfect plasticity
  CHECK(good(read(smallest)).material.elongation == 0);
  CHECK(good(read(smallest + "[material]\ntensile_strength = 70 ksi\n"))
            .material.tensile_strength == Approx(482.633));
}

TEST_CASE("an unknown grade is refused once, with the nearest one", "[unit][case]")
{
  CHECK(only_error(read(with("law = perfect\nyield = 345 MPa", "grade = s355-typicl"))) ==
        "shop.ini:6: material.grade = s355-typicl; there is no grade 's355-typicl'; did "
        "you mean 's355-typical'?");
  CHECK_THAT(only_error(read(smallest, {"--friction.lubricant", "greese"})),
             Contains("command line: friction.lubricant = greese;") &&
                 Contains("did you mean 'grease'"));
}

TEST_CASE("a lubricant gives the coefficients that are left out", "[unit][case]")
{
  const Case c = good(read(smallest + "[friction]\nlubricant = dry-mill-scale\n"
                                      "plunger = 0.2\n[frame]\ndistance = 80 mm\n"));
  CHECK(c.friction.lubricant == "dry-mill-scale");
  CHECK(c.friction.plunger == 0.2);
  CHECK(c.friction.shoulders == 0.3);
  CHECK(c.friction.frame == 0.3);
}

TEST_CASE("a catalogue of the user's own counts from the case file's folder",
          "[unit][case]")
{
  const ScratchFolder folder;
  put_content(folder / "metals.csv",
              "grade,law,yield,how\nyard-steel,perfect,50 ksi,invented\n");
  put_content(folder / "oils.csv",
              "lubricant,low,typical,high,how\nyard-soap,0.1,0.12,0.2,invented\n");
  const std::string path = (folder / "shop.ini").string();
  put_content(path, with("law = perfect\nyield = 345 MPa",
                         "catalogue = metals.csv\ngrade = yard-steel") +
                        "[friction]\ncatalogue = oils.csv\nlubricant = yard-soap\n");
  const Case c = good(read_case(path, {}));
  CHECK(c.material.flow.yield == Approx(344.738));
  CHECK(c.friction.shoulders == 0.12);
  CHECK(c.material.catalogue == (folder / "metals.csv").string());

  // Every fault of a bad file is told, and nothing about the keys that hang on it.
  put_content(folder / "metals.csv", "grade,law,yield,how\nyard-steel,perfect,50,invented\n"
                                     "B,perfect,50 ksi,invented\n");
  const CaseReading bad = read_case(path, {});
  REQUIRE(bad.errors.size() == 2);
  CHECK_THAT(bad.errors[0].text(),
             Contains("shop.ini:6: material.catalogue = metals.csv; ") &&
                 Contains("metals.csv:2: yield = 50;"));
  CHECK_THAT(bad.errors[1].text(), Contains("metals.csv:3: grade = B; is no name"));
  CHECK_THAT(only_error(read(smallest, {"--material.catalogue", "nowhere.csv"})),
             Contains("nowhere.csv: there is no such file"));
}

TEST_CASE("dimensions of the fixture may be given in thicknesses", "[unit][case]")
{
  const Case c =
      good(read(smallest, {"--plunger.width", "4t", "--plunger.nose_radius=2 t",
                           "--shoulders.opening", "6t + 1/8 in", "--shoulders.radius=2t",
                           "--shoulders.depth=5t", "--coupon.thickness", "9 mm"}));
  CHECK(c.fixture.plunger.width == 36);
  CHECK(c.fixture.plunger.nose_radius == 18);
  CHECK(c.fixture.shoulders.opening == Approx(57.175));
  CHECK(c.fixture.shoulders.radius == 18);
  CHECK(c.fixture.shoulders.depth == 45);
  CHECK_THAT(only_error(read(smallest, {"--plunger.width", "200t"})),
             Contains("plunger.width = 200t; is too large (2000 mm)") &&
                 Contains("also in thicknesses as 4t"));
  CHECK_THAT(only_error(read(smallest, {"--plunger.width", "4x"})),
             Contains("unknown unit"));
  CHECK_THAT(only_error(read(smallest, {"--coupon.width", "4t"})),
             Contains("unknown unit"));
  // Without a thickness nothing can be said about them, and nothing is.
  CHECK_THAT(only_error(read(smallest,
                             {"--plunger.width", "40t", "--coupon.thickness", "ten mm"})),
             Contains("coupon.thickness"));
}
