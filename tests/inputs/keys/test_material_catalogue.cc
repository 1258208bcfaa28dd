// Specification minima: EN 10025-2 table 7 (yield and tensile strength of S235, S275, S355)
// and the tensile strength of A516-70 were read [R], all others are from memory [M].
// Flow-curve fits: Callister, table of flow curves [R]; Kalpakjian [M]. Uniform strains and
// exponents: prEN 1993-1-14 (Yun and Gardner 2017), computed by hand [C].

#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/keys/material_catalogue.h"
#include "inputs/metal/considere.h"
#include "inputs/text/input_error.h"
#include "postprocess/words/catalogue_text.h"
#include "tests/support/flow_curves.h"
#include "tests/support/scratch_folder.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>
#include <vector>

using namespace throughbend;
using Catch::Matchers::Contains;

TEST_CASE("the built-in metals hold no fault", "[unit][catalogue]")
{
  const MaterialReading reading = read_materials(materials_csv(), "materials.csv");
  CHECK(fault_list(reading.faults) == "");
  CHECK(reading.rows.size() > 30);
}

TEST_CASE("specification minima", "[unit][catalogue]")
{
  struct Row
  {
    std::string grade;
    double      yield, tensile, tensile_to, elongation; // MPa, MPa, MPa, %
    How         yield_how, tensile_how;
  };
  const auto M = How::from_memory;
  const auto R = How::read;
  for (const Row &row : std::vector<Row>{
           {"a36", 250, 400, 550, 23, M, M},          {"a53-b", 240, 415, 0, 0, M, M},
           {"a106-b", 240, 415, 0, 0, M, M},          {"a572-50", 345, 450, 0, 21, M, M},
           {"a516-70", 260, 485, 620, 21, M, R},      {"s235", 235, 360, 510, 26, R, R},
           {"s235-over-16", 225, 360, 510, 26, R, R}, {"s275", 275, 410, 560, 23, R, R},
           {"s275-over-16", 265, 410, 560, 23, R, R}, {"s355", 355, 470, 630, 22, R, R},
           {"s355-over-16", 345, 470, 630, 22, R, R}, {"s690ql", 690, 770, 940, 14, M, M},
           {"304l", 170, 485, 0, 40, M, M},           {"316l", 170, 485, 0, 40, M, M},
           {"5083-o", 125, 275, 350, 16, M, M},       {"5083-h116", 215, 305, 0, 10, M, M},
           {"6061-t6", 240, 290, 0, 8, M, M},         {"6061-t6-haz", 115, 175, 0, 0, M, M},
           {"e7018", 400, 490, 0, 22, M, M},          {"e6010", 330, 430, 0, 22, M, M},
           {"er70s-6", 400, 480, 0, 22, M, M}})
  {
    INFO(row.grade);
    const MaterialRow &found = built_in_materials().row(row.grade);
    CHECK(found.kind == MetalKind::minimum);
    CHECK(found.material.flow.initial_stress() == Approx(row.yield).epsilon(1e-9));
    CHECK(found.material.flow.yield == Approx(row.yield).epsilon(1e-9));
    CHECK(found.material.tensile_strength == row.tensile);
    CHECK(found.tensile_strength_to == row.tensile_to);
    CHECK(100 * found.material.elongation == Approx(row.elongation));
    CHECK(found.how.of("yield") == row.yield_how);
    CHECK(found.how.of("tensile_strength") == row.tensile_how);
    // The curve itself necks at the tensile strength, by Considere.
    CHECK(considere(found.material.flow).stress == Approx(row.tensile).epsilon(0.001));
  }
}

TEST_CASE("exponents and strengths agree with the Considere pairs [C]", "[unit][catalogue]")
{
  // K and n of a Hollomon curve through the true stress at the uniform strain. Ours is
  // shifted to have a yield stress, so that K is up to 3 % lower at the same n.
  struct Row
  {
    std::string grade;
    double      K, n;
  };
  for (const Row &row : std::vector<Row>{{"a36", 677, 0.203},
                                         {"s235", 596, 0.189},
                                         {"s275", 669, 0.180},
                                         {"s355", 708, 0.137},
                                         {"a572-50", 670, 0.131},
                                         {"a516-70", 875, 0.246},
                                         {"s690ql", 969, 0.060},
                                         {"e7018", 689, 0.105}})
  {
    const FlowCurve flow = grade(row.grade).flow;
    INFO(row.grade);
    CHECK(flow.law == HardeningLaw::swift);
    CHECK(flow.exponent == Approx(row.n).margin(0.0011));
    CHECK(flow.strength < row.K);
    CHECK(flow.strength > 0.97 * row.K);
    CHECK(flow.last_strain == flow.exponent);
    CHECK(flow.extrapolation == Extrapolation::formula);
  }
}

TEST_CASE("Hollomon fits of handbooks", "[unit][catalogue]")
{
  struct Row
  {
    std::string grade;
    double      K, n;
    How         how;
  };
  for (const Row &row :
       std::vector<Row>{{"low-carbon-annealed", 600, 0.21, How::read},
                        {"low-carbon-annealed-2", 530, 0.26, How::from_memory},
                        {"304-annealed", 1400, 0.44, How::read},
                        {"304-annealed-2", 1275, 0.45, How::from_memory},
                        {"4340-tempered-315c", 2650, 0.12, How::read},
                        {"6061-o", 205, 0.20, How::read},
                        {"6061-t6-fit", 410, 0.05, How::read},
                        {"2024-t3", 690, 0.16, How::read},
                        {"5052-o", 210, 0.13, How::read},
                        {"7075-o", 400, 0.17, How::read},
                        {"1100-o", 180, 0.20, How::read}})
  {
    const MaterialRow &found = built_in_materials().row(row.grade);
    INFO(row.grade);
    CHECK(found.kind == MetalKind::typical);
    CHECK(found.material.flow.strength == row.K);
    CHECK(found.material.flow.exponent == row.n);
    CHECK(found.how.of("strength") == row.how);
    // At a plastic strain of 10 % the shift by 0.2 % is worth less than 1 %.
    CHECK(found.material.flow.stress(0.1) ==
          Approx(row.K * std::pow(0.1, row.n)).epsilon(0.01));
  }
}

TEST_CASE("the tabulated aluminium passes through its points [R]", "[unit][catalogue]")
{
  const FlowCurve flow = grade("aluminium-tabulated").flow;
  for (const auto &[total, stress] : std::vector<std::pair<double, double>>{
           {0.0112, 218}, {0.0512, 309}, {0.1012, 358}, {0.2012, 416}, {0.3012, 454}})
    CHECK(flow.stress(total - stress / 69000) == Approx(stress).epsilon(0.002));
  CHECK(flow.stress(0) == 163);
}

TEST_CASE("typical rows lie above the minima they belong to", "[unit][catalogue]")
{
  // Yields as delivered, from memory: A36 280-320, S355 380-430, E7018 430-480 MPa.
  const auto yield = [](const std::string &name) { return grade(name).flow.yield; };
  CHECK(yield("a36-typical") == Approx(300).margin(20));
  CHECK(yield("s355-typical") == Approx(405).margin(25));
  CHECK(yield("e7018-typical") == Approx(455).margin(25));
  CHECK(grade("e7018-typical").tensile_strength == Approx(545).margin(25));
}

TEST_CASE("Considere's strength by hand", "[unit][catalogue]")
{
  // Hollomon K e^n necks at e = n with K (n/e)^n; a shift moves the strain, not the total.
  const FlowCurve swift = swift_hardening(700, 0.005, 0.2);
  CHECK(considere(swift).strain == Approx(0.195).epsilon(1e-4));
  CHECK(considere(swift).stress ==
        Approx(700 * std::pow(0.2, 0.2) * std::exp(-0.195)).epsilon(1e-8));
  const FlowCurve perfect = perfectly_plastic(345);
  CHECK(considere(perfect).stress == 345);
  CHECK(considere(perfect).strain == Approx(0).margin(1e-3));
  // Necks where 200 = 100 + 200 p.
  CHECK(considere(linear_hardening(100, 200)).strain == Approx(0.5).epsilon(1e-4));
}

TEST_CASE("a grade is easily had by name", "[unit][catalogue]")
{
  CHECK(grade("s355").young == 205000);
  CHECK(grade("304l").density == 8000);
  CHECK(grade("kestrel-haven-plate").flow.saturation == 200);
  CHECK(grade("s355").grade == "s355");
  CHECK_THROWS_WITH(grade("s335"), Contains("did you mean"));
  CHECK_THROWS_WITH(grade("unobtainium"), Contains("throughbend materials"));
}

TEST_CASE("a user's metals add to the built-in ones and shadow them", "[unit][catalogue]")
{
  const ScratchFolder folder;
  const std::string   path = (folder / "metals.csv").string();
  put_content(path, "grade,law,yield,strength,exponent,elongation,how\n"
                    "yard-steel,perfect,50 ksi,,,25 %,invented\n"
                    "s355,swift,400 MPa,760 MPa,0.12,,invented\n");
  const MaterialCatalogue metals = materials_with(path);
  CHECK(metals.row("yard-steel").material.flow.yield == Approx(344.738));
  CHECK(metals.row("yard-steel").material.young == 210000);
  CHECK(metals.row("yard-steel").material.elongation == 0.25);
  CHECK(metals.row("s355").material.flow.initial_stress() == Approx(400));
  CHECK(metals.row("s355").how.row == How::invented);
  CHECK(metals.row("s275").material.flow.yield == Approx(275));
  CHECK(metals.rows().size() == built_in_materials().rows().size() + 1);
  CHECK(grade("yard-steel", path).flow.law == HardeningLaw::perfect);
}

TEST_CASE("a user's bad metals are refused with every fault", "[unit][catalogue]")
{
  const ScratchFolder folder;
  const std::string   path = (folder / "metals.csv").string();
  put_content(path, "grade,kind,law,yield,saturation,rate,table,poisson,how\n"
                    "Mild Steel,best,perfect,50,,,,0.3,invented\n"
                    "a,,voce,250 MPa,,12,,0.7,invented\n"
                    "b,,table,,,,0:250 MPa,,invented\n"
                    "c,,perfect,250 MPa,10 MPa,,,,invented\n"
                    "d,,perfect,250 MPa,,,,,invented\n"
                    "d,,perfect,260 MPa,,,,,invented\n"
                    "e,,swift,250 MPa,,,,,invented\n"
                    "f,,perfekt,250 MPa,,,,,sure\n");
  const std::string all = fault_list(faults_of_materials(path));
  INFO(all);
  CHECK_THAT(all, Contains(":2: grade = Mild Steel; is no name"));
  CHECK_THAT(all, Contains(":2: kind = best;"));
  CHECK_THAT(all, Contains(":2: yield = 50; the unit is missing"));
  CHECK_THAT(all, Contains(":3: saturation; is required here"));
  CHECK_THAT(all, Contains(":3: poisson = 0.7; is too large; allowed: 0 to 0.49"));
  CHECK_THAT(all, Contains(":4: table = 0:250 MPa; a flow curve needs at least two"));
  CHECK_THAT(all, Contains(":5: saturation = 10 MPa; has no effect here"));
  CHECK_THAT(all, Contains(":7: grade = d; is there twice, first at " + path + ":6"));
  CHECK_THAT(all, Contains(":8: strength; is required here"));
  CHECK_THAT(all, Contains(":9: law = perfekt;") && Contains("did you mean 'perfect'"));
  CHECK_THAT(all, Contains(":9: how = sure;"));
  CHECK_THROWS_AS(materials_with(path), InputError);
}

TEST_CASE("the list of metals and one in full", "[unit][catalogue]")
{
  const std::string list = materials_text(built_in_materials(), UnitSystem::metric);
  for (const MaterialRow &row : built_in_materials().rows())
    CHECK_THAT(list, Contains("  " + row.grade()));
  const std::string one =
      material_text(built_in_materials().row("s355"), UnitSystem::metric);
  INFO(list << one);
  CHECK_THAT(one, Contains("EN 10025-2, table 7") && Contains("630 MPa"));
  CHECK_THAT(one, Contains("from memory") && Contains("prestrain"));
}

TEST_CASE("A metal that is the least of its standard says so wherever it is named",
          "[unit][materials]")
{
  // Largest over least tensile strength of S235 up to 16 mm: 510 / 360 (EN 10025-2, table
  // 7).
  const std::string words = least_strength_words(grade("s235"));
  CHECK(words.find("the least that EN 10025-2") != std::string::npos);
  CHECK(words.find("by up to 41.7 %") != std::string::npos);
  CHECK(least_strength_words(grade("s355-typical")).empty());
  Material changed = grade("s235");
  changed.flow     = changed.flow.scaled(1.2);
  CHECK(least_strength_words(changed).empty());
  CHECK(least_strength_words(Material{}).empty());
  // No upper limit: nothing is said of how much.
  CHECK(least_strength_words(grade("304l")).find("up to") == std::string::npos);
}
