// Files of shapes as anybody may have made them: a mesh within its points, or a refusal
// that names file, line and cure. All of them invented.

#include "postprocess/shapes/pass_shapes.h"
#include "postprocess/shapes/shape_array.h"
#include "postprocess/shapes/shape_file.h"
#include "postprocess/shapes/shape_index.h"
#include "postprocess/shapes/shape_parts.h"
#include "tests/support/run_fixture.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace throughbend;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace
{
const WantedArrays moved = {{field_names::displacement, 3}};

std::string with(std::string text, const std::string &from, const std::string &to)
{
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

/// Whether it is an InputError that names file, line, what is wrong, and the cure.
template <class Read>
bool refuses(const Read &read, const std::string &what)
{
  try
  {
    read();
  }
  catch (const InputError &error)
  {
    const std::string words = error.what();
    INFO(words);
    for (const std::string &part : {std::string("a.vtu"), std::string("line "), what,
                                    std::string("push the case again")})
      CHECK(words.find(part) != std::string::npos);
    return true;
  }
  return false;
}

std::vector<double> array_of(const std::string &element, const std::size_t numbers)
{
  XmlScan scan(element, "a.vtu");
  REQUIRE(scan.next() == XmlScan::Part::open);
  return read_shape_array(scan, {numbers, numbers}, 100);
}
} // namespace

TEST_CASE("a shape is read with its cells, arrays and time", "[report][shape]")
{
  const ShapeFile shape = read_grid_file(shape_text(7.5, 1), "a.vtu", moved);
  CHECK(shape.points.size() == 8);
  REQUIRE(shape.cells.size() == 2);
  CHECK(shape.cells[1] == std::vector<std::size_t>{4, 5, 6, 7});
  CHECK(shape.arrays.at(field_names::displacement)[1] == -1);
  CHECK(shape.time == std::vector<double>{7.5});
  CHECK_FALSE(shape.has(field_names::axial_strain)); // not asked for
}

TEST_CASE("a shape that was tampered with is refused by file, line and cure",
          "[report][shape]")
{
  const std::string good = shape_text(7.5, 1);
  const auto        read = [&](const std::string &from, const std::string &to)
  { return read_grid_file(with(good, from, to), "a.vtu", moved); };
  // Each of these made VTK's reader, or what reads after it, step outside of its memory.
  CHECK(refuses([&] { read("NumberOfPoints=\"8\"", "NumberOfPoints=\"3\""); }, "numbers"));
  CHECK(refuses([&] { read("NumberOfPoints=\"8\"", "NumberOfPoints=\"99999999999\""); },
                "NumberOfPoints"));
  CHECK(refuses([&] { read("NumberOfPoints=\"8\"", "NumberOfPoints=\"-8\""); },
                "NumberOfPoints"));
  CHECK(refuses([&] { read("NumberOfCells=\"2\"", "NumberOfCells=\"20\""); }, "offsets"));
  CHECK(refuses([&] { read("0 1 2 3 4 5 6 7", "0 1 2 3 4 5 6 8"); }, "corner 8"));
  CHECK(refuses([&] { read("0 1 2 3 4 5 6 7", "0 1 2 3 4 5 6 -1"); }, "no number of"));
  CHECK(refuses([&] { read(">4 8<", ">4 9<"); }, "end at 9 of 8"));
  CHECK(refuses([&] { read(">4 8<", ">9 8<"); }, "cell 0 has 9"));
  CHECK(refuses([&] { read(">9 9<", ">9 12<"); }, "cell 1"));
  CHECK(refuses([&] { read("0 -1.000000 0", "0 nan 0"); }, "number nan"));
  CHECK(refuses([&] { read("0 -1.000000 0", "0 1e9 0"); }, "number 1"));
  CHECK(refuses(
      [&]
      {
        read("Name=\"displacement_mm\" NumberOfComponents=\"3\"",
             "Name=\"displacement_mm\" NumberOfComponents=\"30\"");
      },
      "NumberOfComponents"));
  CHECK(refuses([&] { read("format=\"ascii\"", "format=\"appended\""); }, "appended"));
  CHECK(refuses([&] { read("<UnstructuredGrid>", "<ImageData>"); }, "no run writes"));
  CHECK_THROWS_AS(read_grid_file(good.substr(0, good.size() - 30), "a.vtu", moved),
                  XmlCutOff);
  CHECK_THROWS_AS(read_grid_file("", "a.vtu", moved), XmlCutOff);
}

TEST_CASE("nesting without end is refused and takes no stack", "[report][shape]")
{
  std::string deep;
  for (int i = 0; i < 1'000'000; ++i)
    deep += "<a>";
  CHECK_THROWS_WITH(shape_moments(deep, "a.pvd"), Contains("a.pvd") && Contains("element"));
  const std::string head = "<VTKFile type=\"UnstructuredGrid\" "
                           "byte_order=\"LittleEndian\"><UnstructuredGrid><FieldData>";
  CHECK(refuses([&] { read_grid_file(head + deep, "a.vtu", moved); }, "in each other"));
}

TEST_CASE("a packed array is as long as its head says, and as the mesh needs",
          "[report][shape]")
{
  // Three floats 1, 2, 3 packed by Python's zlib.compress and base64.b64encode.
  const std::string start = "<DataArray type=\"Float32\" Name=\"zone\" format=\"binary\">",
                    head = "AQAAAAwAAAAMAAAAEgAAAA==", data = "eJxjYGiwZ2BgcAAiBwAJQwGA",
                    end = "</DataArray>";
  CHECK(array_of(start + head + data + end, 3) == std::vector<double>{1, 2, 3});
  const auto refused =
      [&](const std::string &text, const std::size_t numbers, const std::string &why)
  { CHECK(refuses([&] { array_of(start + text + end, numbers); }, why)); };
  refused(head + data, 4, "3 numbers where 4 belong");
  refused("AQAAAP//////////EgAAAA==" + data, 3, "not packed"); // 4 GB
  refused("AQAAAAwAAAAMAAAAEwAAAA==" + data, 3, "as long as"); // a byte more than there is
  refused("AQAAAAgAAAAIAAAAEgAAAA==" + data, 2, "unpacked");   // more than its head says
  refused("AgAAAAwAAAAMAAAAEgAAAA==" + data, 3, "not packed"); // two blocks
  refused(head + "!!!!" + data, 3, "as long as");
  refused("AQAA", 3, "not packed");
  refused("", 3, "not packed");
}

TEST_CASE("an index lists moments in order, and nothing else", "[report][shape]")
{
  const auto moments = shape_moments(index_text({{3, "b.vtu"}, {1, "a.vtu"}}), "a.pvd");
  REQUIRE(moments.size() == 2);
  CHECK(moments[0].file == "a.vtu");
  for (const char *time : {"nan", "1e99", "", "one"})
    CHECK_THROWS_WITH(shape_moments("<VTKFile><Collection><DataSet timestep=\"" +
                                        std::string(time) +
                                        "\" file=\"a\"/></Collection></VTKFile>",
                                    "a.pvd"),
                      Contains("a.pvd") && Contains("timestep"));
}

TEST_CASE("a shape in parts is read as one", "[report][shape]")
{
  const ScratchFolder scratch;
  const fs::path      run = scratch / "run";
  write_run(run, "t", "t");
  const PassShapes whole  = read_pass_shapes(run, ModelPart::whole);
  const auto       pieces = [&](const std::string &list)
  {
    write_text(run / "fields/a.pvtu",
               "<VTKFile type=\"PUnstructuredGrid\"><PUnstructuredGrid><PPointData>"
               "<PDataArray type=\"Float32\"/></PPointData>" +
                   list + "</PUnstructuredGrid></VTKFile>");
    write_text(run / "fields/fields.pvd", index_text({{10, "a.pvtu"}}));
    return read_pass_shapes(run, ModelPart::whole);
  };
  // The second part lies 2 mm to the right of the first.
  MadeUpGrid right;
  right.points       = "2 -10 0 3 -10 0 3 -9 0 2 -9 0";
  right.moved        = "0 -10 0 0 -10 0 0 -10 0 0 -10 0";
  right.strain       = "0.2 0.3 0.3 0.2";
  right.zone         = "2 2 2 2";
  right.connectivity = "0 1 2 3";
  right.offsets      = "4";
  right.types        = "9";
  right.n_points     = 4;
  right.n_cells      = 1;
  write_text(run / "fields/right.vtu", grid_text(10, right));
  const std::string left_part = "<Piece Source=\"a.vtu\"/>";

  const PassShapes one = pieces(left_part);
  REQUIRE(one.shapes.size() == 1);
  CHECK(one.cells == whole.cells);
  CHECK(one.shapes[0].axial_strain == whole.shapes[0].axial_strain);
  const PassShapes both = pieces(left_part + "<Piece Source=\"right.vtu\"/>");
  REQUIRE(both.shapes.size() == 1);
  CHECK(both.missing == whole.missing); // the tools, which are not there
  CHECK(both.shapes[0].travel == 10);
  CHECK(both.cells.size() == 3);
  CHECK(both.flat.size() == one.flat.size() + 2);   // two of its four are there already
  CHECK(both.edges.size() == one.edges.size() + 2); // outline, and the border of zones
  CHECK(*std::max_element(both.shapes[0].axial_strain.begin(),
                          both.shapes[0].axial_strain.end()) == Approx(0.3));

  // Without a part there is no shape: half a coupon would look whole.
  const PassShapes lost = pieces(left_part + "<Piece Source=\"lost.vtu\"/>");
  CHECK(lost.shapes.empty());
  REQUIRE(lost.missing.size() == 1);
  CHECK_THAT(lost.missing[0], Contains("a.pvtu"));
  for (const char *name : {"../a.vtu", "/etc/passwd", "..", ""})
    CHECK_THROWS_WITH(pieces("<Piece Source=\"" + std::string(name) + "\"/>"),
                      Contains("a.pvtu") && Contains("no file beside"));
  CHECK_THROWS_WITH(pieces(""), Contains("names no part"));
  fs::create_symlink("a.vtu", run / "fields/link.vtu");
  CHECK_THROWS_WITH(pieces("<Piece Source=\"link.vtu\"/>"), Contains("is a link"));
}

TEST_CASE("parts that do not belong together are refused", "[report][shape]")
{
  ShapeFile whole;
  append_part(whole, read_grid_file(shape_text(1, 1), "a.vtu", moved), "a.vtu");
  append_part(whole, read_grid_file(shape_text(1, 1), "b.vtu", moved), "b.vtu");
  CHECK(whole.points.size() == 16);
  CHECK(whole.cells.back() == std::vector<std::size_t>{12, 13, 14, 15});
  CHECK(whole.arrays.at(field_names::displacement).size() == 3 * 16);
  CHECK_THROWS_WITH(
      append_part(whole, read_grid_file(shape_text(1, 1), "c.vtu", {}), "c.vtu"),
      Contains("c.vtu") && Contains("other arrays"));
}

TEST_CASE("a run is read through no link, pipe or name that leads out of it",
          "[report][shape]")
{
  const ScratchFolder scratch;
  const fs::path      run = scratch / "run";
  write_run(run, "t", "t");
  write_text(scratch / "outside.vtu", shape_text(10, 10));
  const auto shapes = [&] { return read_pass_shapes(run, ModelPart::whole); };
  CHECK_NOTHROW(shapes());
  write_text(run / "fields/fields.pvd", index_text({{1, "../../outside.vtu"}}));
  CHECK_THROWS_WITH(shapes(), Contains("../../outside.vtu") && Contains("out of the run"));
  write_text(run / "fields/fields.pvd", index_text({{1, "a.vtu"}}));
  fs::remove(run / "fields/a.vtu");
  fs::create_symlink(scratch / "outside.vtu", run / "fields/a.vtu");
  CHECK_THROWS_WITH(shapes(), Contains("fields/a.vtu is a link"));
  fs::rename(run / "fields", scratch / "fields");
  fs::create_directory_symlink(scratch / "fields", run / "fields");
  CHECK_THROWS_WITH(shapes(), Contains("fields is a link"));
}
