#pragma once
// A made-up run folder (invented numbers) of a coupon of two cells, weld beside base, as
// push would have left it.

#include "solver/record/field_names.h"
#include "tests/support/scratch_folder.h"

#include <fstream>
#include <string>

namespace throughbend
{
inline void write_text(const std::filesystem::path &file, const std::string &text)
{
  std::filesystem::create_directories(file.parent_path());
  std::ofstream(file) << text;
}

/// What the points of a made-up shape know, and its cells.
struct MadeUpGrid
{
  std::string points, moved, strain, zone;
  std::string connectivity, offsets, types;
  int         n_points = 0, n_cells = 0;
};

inline std::string grid_text(const double travel, const MadeUpGrid &grid)
{
  const auto array = [](const std::string &name, const std::string &values, int components,
                        const std::string &type = "Float32")
  {
    return "<DataArray type=\"" + type + "\" Name=\"" + name + "\" NumberOfComponents=\"" +
           std::to_string(components) + "\" format=\"ascii\">" + values + "</DataArray>\n";
  };
  return "<VTKFile type=\"UnstructuredGrid\" version=\"0.1\" byte_order=\"LittleEndian\">\n"
         "<UnstructuredGrid><FieldData><DataArray type=\"Float32\" Name=\"TIME\" "
         "NumberOfTuples=\"1\" format=\"ascii\">" +
         std::to_string(travel) + "</DataArray></FieldData>\n<Piece NumberOfPoints=\"" +
         std::to_string(grid.n_points) + "\" NumberOfCells=\"" +
         std::to_string(grid.n_cells) + "\">\n<Points>" + array("p", grid.points, 3) +
         "</Points><Cells>" + array("connectivity", grid.connectivity, 1, "Int32") +
         array("offsets", grid.offsets, 1, "Int32") +
         array("types", grid.types, 1, "UInt8") + "</Cells><PointData>" +
         array(field_names::displacement, grid.moved, 3) +
         array(field_names::axial_strain, grid.strain, 1) +
         array(field_names::plastic_strain, grid.strain, 1) +
         array(field_names::zone, grid.zone, 1) +
         "</PointData></Piece></UnstructuredGrid></VTKFile>\n";
}

/// Two unit cells side by side, x from 0 to 2, y from 0 to 1; the right one is weld. All
/// points are `down` lower than they were [mm], strain is 0.1 x.
inline std::string shape_text(const double travel, const double down)
{
  MadeUpGrid grid;
  for (const int cell : {0, 1})
    for (const int corner : {0, 1, 2, 3})
    {
      const int x = cell + (corner == 1 || corner == 2), y = corner >= 2;
      grid.points += std::to_string(x) + " " + std::to_string(y - down) + " 0 ";
      grid.moved += "0 " + std::to_string(-down) + " 0 ";
      grid.strain += std::to_string(0.1 * x) + " ";
      grid.zone += cell == 0 ? "0 " : "2 ";
    }
  grid.connectivity = "0 1 2 3 4 5 6 7";
  grid.offsets      = "4 8";
  grid.types        = "9 9"; // quadrilaterals
  grid.n_points     = 8;
  grid.n_cells      = 2;
  return grid_text(travel, grid);
}

/// Two unit bricks one behind the other, z from 0 to 2; strain is 0.1 at z = 0, 9 beyond.
inline std::string body_text(const double travel)
{
  MadeUpGrid grid;
  for (const int brick : {0, 1})
    for (const int corner : {0, 1, 2, 3, 4, 5, 6, 7})
    {
      const int x = corner % 4 == 1 || corner % 4 == 2, y = corner % 4 >= 2,
                z = brick + corner / 4;
      grid.points +=
          std::to_string(x) + " " + std::to_string(y) + " " + std::to_string(z) + " ";
      grid.moved += "0 0 0 ";
      grid.strain += z == 0 ? "0.1 " : "9 ";
      grid.zone += "0 ";
    }
  grid.connectivity = "0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15";
  grid.offsets      = "8 16";
  grid.types        = "12 12"; // hexahedra
  grid.n_points     = 16;
  grid.n_cells      = 2;
  return grid_text(travel, grid);
}

inline std::string index_text(const std::vector<std::pair<double, std::string>> &files)
{
  std::string text = "<?xml version=\"1.0\"?>\n<VTKFile type=\"Collection\"><Collection>\n";
  for (const auto &[time, file] : files)
    text += "<DataSet timestep=\"" + std::to_string(time) + "\" file=\"" + file + "\"/>\n";
  return text + "</Collection></VTKFile>\n";
}

/// `title` as a user typed it into the case, `json_title` as it stands in quotes in
/// run.json.
inline void write_run(const std::filesystem::path &folder, const std::string &title,
                      const std::string &json_title)
{
  write_text(
      folder / "run.json",
      "{\"program\": \"throughbend\", \"state\": \"finished\", \"title\": \"" + json_title +
          "\", \"finding\": {\"outcome\": \"through\", \"verdict\": {\"1\": "
          "{\"length_mm\": 30}, \"words\": \"THROUGH: clear after {1} of travel.\"}, "
          "\"jam\": null, \"travel_mm\": 30, \"ram_force_N\": 1000, "
          "\"evidence\": \"Both ends are past.\", \"events\": []}, "
          "\"metal\": {\"answer\": \"within\", \"account\": {\"words\": "
          "\"The base plate bears it.\"}}, "
          "\"numerical_quality\": {\"accuracy\": \"sound\", \"accuracy_reasons\": []}, "
          "\"key_figures\": {\"peak_ram_force_N\": 2000, "
          "\"peak_ram_force_travel_mm\": 20}, \"made_with\": {\"model\": \"full\"}}");
  write_text(folder / "case.ini",
             "[case]\ntitle = " + title +
                 "\n[coupon]\nlength = 160 mm\nwidth = 38 mm\nthickness = "
                 "10 mm\n[material]\nlaw = perfect\nyield = 250 MPa\n"
                 "[plunger]\nwidth = 40 mm\n[shoulders]\nradius = 20 mm\n"
                 "opening = 63.2 mm\n[ram]\ncapacity = 4 kN\nstroke = 60 "
                 "mm\n");
  write_text(folder / "travel.csv", "step,kind,travel [mm],ram force [N]\n1,push,10,1500\n"
                                    "2,push,20,2000\n3,push,30,1000\n4,release,30,0\n");
  write_text(folder / "surface.csv",
             "moment,travel [mm],face,position [mm],axial strain [-]\n");
  write_text(folder / "fields" / "a.vtu", shape_text(10, 10));
  write_text(folder / "fields" / "b.vtu", shape_text(20, 20));
  write_text(folder / "fields" / "free.vtu", shape_text(20, 20));
  write_text(folder / "fields" / "fields.pvd",
             index_text({{10, "a.vtu"}, {20, "b.vtu"}, {25, "free.vtu"}}));
}
} // namespace throughbend
