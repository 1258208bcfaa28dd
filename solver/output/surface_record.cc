#include "solver/output/surface_record.h"

#include "inputs/csv_table.h"
#include "inputs/input_error.h"
#include "solver/output/whole_file.h"

#include <stdexcept>

namespace throughbend
{
namespace
{
// Heads of the columns, in the order of the file.
const char *const moment_head   = "moment";
const char *const travel_head   = "travel [mm]";
const char *const face_head     = "face";
const char *const position_head = "position [mm]";
const char *const x_head        = "x [mm]";
const char *const y_head        = "y [mm]";
const char *const axial_head    = "axial strain [-]";
const char *const plastic_head  = "plastic strain [-]";
const char *const stress_head   = "axial stress [MPa]";
const char *const pressure_head = "contact pressure [MPa]";
const char *const zone_head     = "zone [0 base; 1 HAZ; 2 weld]";
const char *const triaxial_head = "triaxiality [-]";

template <typename Kind>
Kind one_of(const std::string &word, const Kind first, const Kind second)
{
  if (word == to_text(first))
    return first;
  if (word == to_text(second))
    return second;
  throw InputError("'" + word + "' is neither " + to_text(first) + " nor " +
                   to_text(second));
}
} // namespace

std::string to_text(const Moment moment)
{
  switch (moment)
  {
  case Moment::peak:
    return "peak";
  case Moment::end:
    return "end";
  }
  throw std::logic_error("there is no such moment");
}

std::string to_text(const Face face)
{
  switch (face)
  {
  case Face::convex:
    return "convex";
  case Face::concave:
    return "concave";
  }
  throw std::logic_error("there is no such face");
}

void write_surface_record(const std::filesystem::path    &file,
                          const std::vector<SurfaceShot> &shots)
{
  std::string text = csv_line({moment_head, travel_head, face_head, position_head, x_head,
                               y_head, axial_head, plastic_head, stress_head, pressure_head,
                               zone_head, triaxial_head});
  for (const SurfaceShot &shot : shots)
    for (const SurfaceRow &row : shot.rows)
      text += csv_line({to_text(shot.moment), number_text(shot.travel), to_text(row.face),
                        number_text(row.position), number_text(row.x), number_text(row.y),
                        number_text(row.axial_strain), number_text(row.plastic_strain),
                        number_text(row.axial_stress), number_text(row.pressure),
                        std::to_string(row.zone), number_text(row.triaxiality)});
  write_whole_file(file, text);
}

std::vector<SurfaceShot> read_surface_record(const std::filesystem::path &file)
{
  const CsvTable table     = CsvTable::read(file);
  const auto     moments   = table.words(moment_head);
  const auto     travels   = table.numbers(travel_head);
  const auto     faces     = table.words(face_head);
  const auto     positions = table.numbers(position_head);
  const auto     xs        = table.numbers(x_head);
  const auto     ys        = table.numbers(y_head);
  const auto     axials    = table.numbers(axial_head);
  const auto     plastics  = table.numbers(plastic_head);
  const auto     stresses  = table.numbers(stress_head);
  const auto     pressures = table.numbers(pressure_head);
  const auto     zones     = table.numbers(zone_head);
  const auto     triaxials = table.numbers(triaxial_head);

  std::vector<SurfaceShot> shots;
  for (std::size_t i = 0; i < table.rows(); ++i)
  {
    const Moment moment = one_of(moments[i], Moment::peak, Moment::end);
    if (shots.empty() || shots.back().moment != moment)
      shots.push_back({moment, travels[i], {}});
    SurfaceRow row;
    row.face           = one_of(faces[i], Face::convex, Face::concave);
    row.position       = positions[i];
    row.x              = xs[i];
    row.y              = ys[i];
    row.axial_strain   = axials[i];
    row.plastic_strain = plastics[i];
    row.axial_stress   = stresses[i];
    row.pressure       = pressures[i];
    row.zone           = static_cast<int>(zones[i]);
    row.triaxiality    = triaxials[i];
    shots.back().rows.push_back(row);
  }
  return shots;
}
} // namespace throughbend
