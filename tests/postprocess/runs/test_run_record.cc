// A run folder is read back, and what is missing in it is named instead of failing.

#include "inputs/keys/case_text.h"
#include "inputs/text/input_error.h"
#include "inputs/text/json.h"
#include "postprocess/charts/run_charts.h"
#include "postprocess/runs/run_badge.h"
#include "postprocess/runs/run_record.h"
#include "postprocess/shapes/pass_shapes.h"
#include "postprocess/words/finding_words.h"
#include "tests/support/run_fixture.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>

using namespace throughbend;
namespace fs = std::filesystem;

TEST_CASE("a whole run folder is read", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "a title", "a title");
  const RunRecord run = read_run_record(folder / ""); // as a shell completes it
  CHECK(run.name == "pass");
  CHECK(run.complete());
  CHECK(run.title() == "a title");
  CHECK(run.word("finding.jam").empty()); // null is no word
  CHECK(run.peak_force() == 2000);
  CHECK(run.peak_force_travel() == 20);
  CHECK(run.column("travel [mm]") ==
        std::vector<double>{10, 20, 30}); // without the release
  CHECK(run.column("no such column").empty());
  REQUIRE(run.known_case);
  CHECK(run.known_case->ram.capacity == 4000);
}

TEST_CASE("a killed run is read as far as it got", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  write_text(folder / "run.json", "{\"program\": \"throughbend\", \"state\": \"running\"}");
  write_text(folder / "travel.csv",
             "step,kind,travel [mm],ram force [N]\n1,push,10,1500\n2,push,20,900\n3,pu");
  fs::remove(folder / "surface.csv");
  const RunRecord run = read_run_record(folder);
  CHECK_FALSE(run.complete());
  CHECK(run.peak_force() == 1500); // from travel.csv
  CHECK(run.last_travel() == 20);
  const std::vector<std::string> reasons = incomplete_because(run, {});
  REQUIRE(reasons.size() == 3);
  CHECK(reasons[2].find((folder / "case.ini").string() + " --into a-new-folder") !=
        std::string::npos);
  CHECK(reasons[0].find("killed") != std::string::npos);
  CHECK(reasons[1].find("surface.csv") != std::string::npos);
  CHECK(badge_words(run) == "no finding");

  CHECK(how_to_resume(run).empty()); // it left no checkpoint
  fs::create_directory(folder / "checkpoint");
  write_text(folder / "checkpoint/b.state", "x");
  const std::string cure = "throughbend push --resume " + folder.string();
  CHECK(how_to_resume(run).find("killed") != std::string::npos);
  CHECK(incomplete_because(run, {})[1].find(cure) != std::string::npos);
}

TEST_CASE("files that are gone or cut off are named", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  write_text(folder / "run.json", "{\"program\": ");
  write_text(folder / "case.ini", "[coupon]\nlength = long\n");
  fs::remove(folder / "travel.csv");
  fs::remove(folder / "fields" / "b.vtu");
  write_text(folder / "fields" / "a.vtu",
             content(folder / "fields" / "a.vtu").substr(0, 500));
  const RunRecord run = read_run_record(folder);
  REQUIRE(run.missing.size() == 3);
  CHECK(run.missing[0].find("run.json") == 0);
  CHECK(run.missing[1].find("case.ini") == 0);
  CHECK(run.missing[2].find("travel.csv") == 0);
  CHECK(std::isnan(run.peak_force()));
  CHECK(run.title() == "pass");
  const PassShapes shapes = read_pass_shapes(folder, ModelPart::whole);
  CHECK(shapes.shapes.size() == 1); // the released one
  REQUIRE(shapes.missing.size() == 2);
  CHECK(shapes.missing[0] ==
        "fields/: 1 of the 3 shapes can be read; missing or truncated: a.vtu, b.vtu.");
  CHECK(shapes.missing[1].find("tools/") == 0);
  write_text(folder / "fields" / "free.vtu", shape_text(20, 20).substr(0, 900));
  CHECK(read_pass_shapes(folder, ModelPart::whole)
            .missing[0]
            .find("fields/: none of the 3 shapes can be read") == 0);
}

TEST_CASE("a title that reads null is a title, and null is none", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  fs::remove(folder / "case.ini");
  const auto title = [&](const std::string &json)
  {
    write_text(folder / "run.json",
               "{\"program\": \"throughbend\", \"title\": " + json + "}");
    return read_run_record(folder).title();
  };
  CHECK(title("\"null\"") == "null");
  CHECK(title("null") == "pass"); // the folder's name
}

TEST_CASE("a run.json that no run leaves is refused, and one cut off is named", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  const std::string   file   = (folder / "run.json").string();
  write_run(folder, "t", "t");
  const std::string whole = content(file);
  const auto        read  = [&](const std::string &text)
  {
    write_text(file, text);
    return read_run_record(folder);
  };
  const auto changed = [&](const std::string &from, const std::string &to)
  {
    std::string text = whole;
    text.replace(text.find(from), from.size(), to);
    return read(text);
  };
  using Catch::Matchers::Contains;
  using Catch::Matchers::StartsWith;
  CHECK_THROWS_WITH(read("[1, 2]"), Contains("not written by throughbend"));
  CHECK_THROWS_WITH(
      read("{\"program\": 7}"),
      StartsWith(file + ": program is the number 7, and a text is expected."));
  CHECK_THROWS_WITH(read(std::string(200000, '[')), StartsWith(file + " cannot be read: "));
  CHECK_THROWS_WITH(changed("2000", "2e999"),
                    StartsWith(file + " cannot be read: the number 2e999 in line 1 is too "
                                      "large."));
  CHECK_THROWS_AS(changed("THROUGH", "\xff\xfe"), InputError);
  CHECK_THROWS_WITH(changed("2000", "\"2000\"").peak_force(),
                    StartsWith(file +
                               ": key_figures.peak_ram_force_N is the text \"2000\", "
                               "and a number is expected.") &&
                        Contains("push the case again"));
  CHECK_THROWS_WITH(
      badge_words(changed("\"through\"", "true")),
      StartsWith(file + ": finding.outcome is true, and a text is expected."));
  CHECK_THROWS_WITH(badge_words(changed("{\"answer\": \"within\", ", "5, \"other\": {")),
                    StartsWith(file + ": metal is the number 5, and a group is expected."));
  CHECK(read("").missing.front() ==
        "run.json cannot be read, it is cut off in line 1: no finding and no key figures.");
  CHECK(read(whole.substr(0, 300)).word("finding.outcome").empty());
}

TEST_CASE("a case that was changed after the run is named, and not told as the run's",
          "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  const Case made = *read_run_record(folder).known_case;
  Json       values;
  for (const auto &[key, value] : case_values(made))
    values[key] = value;
  const std::string members = "\"case\": " + json_text(values);
  const std::string head    = "{\"program\": \"throughbend\", \"state\": \"finished\", ";
  write_text(folder / "run.json", head + members + "}");
  CHECK(read_run_record(folder).missing.empty());
  const std::string written = content(folder / "case.ini");
  const auto        change  = [&](const std::string &from, const std::string &to)
  {
    std::string text = written;
    text.replace(text.find(from), from.size(), to);
    write_text(folder / "case.ini", text);
    return read_run_record(folder);
  };
  // Other words for the same pass.
  CHECK(change("thickness = 10 mm", "thickness = 1 cm # of plate 7").missing.empty());
  CHECK(change("title = t", "title = another").missing.empty());

  const RunRecord run = change("thickness = 10 mm", "thickness = 11 mm");
  REQUIRE(run.changed.size() == 1);
  CHECK(run.changed[0] == "coupon.thickness is 11 mm and was 10 mm in the run");
  REQUIRE(run.missing.size() == 1);
  CHECK(run.missing[0].find(run.changed[0]) != std::string::npos);
  REQUIRE(run.known_case);
  CHECK(run.known_case->coupon.thickness == 10);
  CHECK(run.case_text.find("11 mm") == std::string::npos);
  CHECK_FALSE(run.complete());
  CHECK(change("law = perfect", "law = linear\nhardening = 1 GPa").changed[0] ==
        "material.law is linear and was perfect in the run");
  CHECK(change("thickness = 10 mm", "thickness = ten").known_case->coupon.thickness == 10);

  // Of a run that recorded no more than a hash.
  write_text(folder / "case.ini", written);
  const auto hashed = [&](const std::string &hash)
  {
    write_text(folder / "run.json",
               head + "\"made_with\": {\"case_hash\": \"" + hash + "\"}}");
    return read_run_record(folder);
  };
  CHECK(hashed(case_hash(made)).missing.empty());
  const RunRecord other = hashed("0123456789abcdef");
  CHECK(other.changed.size() == 1);
  CHECK_FALSE(other.known_case);
  CHECK(other.case_text.empty());
}

TEST_CASE("a table that ends before the run did is named", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  const auto ended_at = [&](const std::string &travel)
  {
    write_text(folder / "run.json",
               "{\"program\": \"throughbend\", \"state\": \"finished\", "
               "\"key_figures\": {\"largest_travel_mm\": " +
                   travel + "}}");
    return read_run_record(folder).missing;
  };
  CHECK(ended_at("30").empty()); // the last row's
  REQUIRE(ended_at("75.5").size() == 1);
  CHECK(ended_at("75.5")[0].find("travel.csv ends at 30.0 mm of travel and the run at "
                                 "75.5 mm") == 0);
}

TEST_CASE("of a body the middle of its width is shown, on both sides of the plunger",
          "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  for (const char *file : {"a.vtu", "b.vtu", "free.vtu"})
    write_text(folder / "fields" / file, body_text(10));
  const PassShapes shapes = read_pass_shapes(folder, ModelPart::right_half);
  REQUIRE(shapes.cells.size() == 1); // the face at z = 0 of the nearer of two bricks
  REQUIRE(shapes.flat.size() == 4);
  for (const double strain : shapes.shapes[0].axial_strain)
    CHECK(strain == Approx(0.1));
  const std::vector<FacePoint> face = convex_face(shapes, shapes.shapes[0]);
  REQUIRE(face.size() == 3);
  CHECK(face.front().position == Approx(-1));

  RunRecord run = read_run_record(folder);
  CHECK_FALSE(run.right_half());
  for (const char *model : {"half", "quarter"})
  {
    run.summary.put("made_with.model", model);
    CHECK(run.right_half());
  }
  run.summary.put("made_with.model", "half, cut along its length"); // of a body, both sides
  CHECK_FALSE(run.right_half());
}

TEST_CASE("a folder that is no run is refused", "[report]")
{
  const ScratchFolder scratch;
  CHECK_THROWS_AS(read_run_record(scratch.path() / "nowhere"), InputError);
  CHECK_THROWS_AS(read_run_record(scratch.path()), InputError);
  write_text(scratch.path() / "file", "");
  CHECK_THROWS_WITH(read_run_record(scratch.path() / "file"),
                    Catch::Matchers::Contains("that is a file"));
  write_text(scratch.path() / "other" / "run.json", "{\"program\": \"something else\"}");
  CHECK_THROWS_AS(read_run_record(scratch.path() / "other"), InputError);
}

TEST_CASE("shapes keep one point per node and zone, and where they stood flat", "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  const PassShapes shapes = read_pass_shapes(folder, ModelPart::whole);
  REQUIRE(shapes.shapes.size() == 3);
  CHECK(shapes.flat.size() == 8); // the two cells share no node: their zones differ
  CHECK(shapes.cells.size() == 2);
  CHECK(shapes.edges.size() == 8); // outline of each zone
  CHECK(shapes.flat[0].y == Approx(0).margin(1e-5));
  CHECK(shapes.shapes[1].points[0].y == Approx(-20));
  CHECK(shapes.shapes[2].hold == Loading::released);
  CHECK(shapes.nearest(11) == 0);
  CHECK(shapes.nearest(1000) == 1); // never the released one
  CHECK(shapes.last_loaded() == 1);

  const std::vector<FacePoint> face = convex_face(shapes, shapes.shapes[0]);
  REQUIRE(face.size() == 4);
  CHECK(face[0].position == Approx(0).margin(1e-5));
  CHECK(face[1].position == Approx(1));
  CHECK(face[3].strain == Approx(0.2));
  const PassShapes half = read_pass_shapes(folder, ModelPart::right_half);
  CHECK(convex_face(half, half.shapes[0]).front().position == Approx(-2));
  CHECK(half.edges.size() == 7); // less the one in the plane of symmetry
  CHECK(read_pass_shapes(folder, std::nullopt).part == ModelPart::right_half);
}

TEST_CASE("the strain chart shows a bevelled weld where it meets the convex face",
          "[report]")
{
  const ScratchFolder scratch;
  const fs::path      folder = scratch.path() / "pass";
  write_run(folder, "t", "t");
  RunRecord         run    = read_run_record(folder);
  const PassShapes  shapes = read_pass_shapes(folder, ModelPart::whole);
  const ReaderUnits units(UnitSystem::metric);
  REQUIRE(run.known_case);
  CHECK(face_strain_chart(run, shapes, units)->bands.empty()); // no weld

  Weld &weld          = run.known_case->weld;
  weld.preparation    = Preparation::single_v;
  weld.root_opening   = 2;
  weld.root_face      = 2;
  weld.included_angle = std::acos(-1.) / 2; // each face leans by 45 degrees
  weld.haz_width      = 3;
  weld.offset         = 1;
  const auto bands    = face_strain_chart(run, shapes, units)->bands;
  REQUIRE(bands.size() == 3);
  CHECK(bands[1].label == "weld");
  CHECK(bands[1].from == Approx(1 - 9)); // 1 of the gap and 8 of the bevel
  CHECK(bands[1].to == Approx(1 + 9));
  CHECK(bands[2].label == "HAZ");
  CHECK(bands[2].to == Approx(1 + 9 + 3 * std::sqrt(2.)));
}
