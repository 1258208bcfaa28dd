#include "solver/record/surface_record.h"

#include "inputs/text/csv_table.h"
#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "inputs/text/whole_file.h"

#include <algorithm>
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

/// The columns of a model with width, each with its head.
template <typename Row, typename Visit>
void visit_across(Row &row, Visit visit)
{
  visit("width stress [MPa]", row.width_stress);
  visit("edge x [mm]", row.edge_x);
  visit("edge y [mm]", row.edge_y);
  visit("edge axial strain [-]", row.edge_axial_strain);
  visit("edge plastic strain [-]", row.edge_plastic_strain);
  visit("edge axial stress [MPa]", row.edge_axial_stress);
  visit("edge contact pressure [MPa]", row.edge_pressure);
  visit("edge triaxiality [-]", row.edge_triaxiality);
  visit("largest strain at [mm from mid-width]", row.largest_across);
  visit("largest axial strain [-]", row.largest_axial_strain);
  visit("largest strain triaxiality [-]", row.largest_triaxiality);
  visit("edge shift [mm]", row.edge_shift);
  visit("largest strain shift [mm]", row.largest_shift);
}

bool has_width(const std::vector<SurfaceShot> &shots)
{
  return std::any_of(shots.begin(), shots.end(),
                     [](const SurfaceShot &shot)
                     { return !shot.rows.empty() && shot.rows.front().across; });
}

template <typename Kind>
Kind one_of(const std::string &word, const Kind first, const Kind second)
{
  if (word == to_text(first))
    return first;
  if (word == to_text(second))
    return second;
  throw InputError(quoted_text(word) + " is neither " + to_text(first) + " nor " +
                   to_text(second) + ".");
}

int zone_of(const double number)
{
  if (number != 0 && number != 1 && number != 2)
    throw InputError("the zone " + number_text(number) + " is none of 0, 1, 2.");
  return static_cast<int>(number);
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
  std::vector<std::string> heads = {moment_head, travel_head,   face_head,  position_head,
                                    x_head,      y_head,        axial_head, plastic_head,
                                    stress_head, pressure_head, zone_head,  triaxial_head};
  const bool               width = has_width(shots);
  if (width)
  {
    const AcrossRow none;
    visit_across(none, [&](const char *head, double) { heads.push_back(head); });
  }
  std::string text = csv_line(heads);
  for (const SurfaceShot &shot : shots)
    for (const SurfaceRow &row : shot.rows)
    {
      std::vector<std::string> cells = {to_text(shot.moment),
                                        number_text(shot.travel),
                                        to_text(row.face),
                                        number_text(row.position),
                                        number_text(row.x),
                                        number_text(row.y),
                                        number_text(row.axial_strain),
                                        number_text(row.plastic_strain),
                                        number_text(row.axial_stress),
                                        number_text(row.pressure),
                                        std::to_string(row.zone),
                                        number_text(row.triaxiality)};
      if (width)
        visit_across(*row.across, [&](const char *, double value)
                     { cells.push_back(number_text(value)); });
      text += csv_line(cells);
    }
  write_whole_file(file, text);
}

namespace
{
std::vector<SurfaceShot> surface_shots(const CsvTable &table)
{
  const auto moments   = table.words(moment_head);
  const auto travels   = table.numbers(travel_head);
  const auto faces     = table.words(face_head);
  const auto positions = table.numbers(position_head);
  const auto xs        = table.numbers(x_head);
  const auto ys        = table.numbers(y_head);
  const auto axials    = table.numbers(axial_head);
  const auto plastics  = table.numbers(plastic_head);
  const auto stresses  = table.numbers(stress_head);
  const auto pressures = table.numbers(pressure_head);
  const auto zones     = table.numbers(zone_head);
  const auto triaxials = table.numbers(triaxial_head);

  std::vector<AcrossRow> across;
  const auto            &heads = table.heads();
  if (std::find(heads.begin(), heads.end(), "width stress [MPa]") != heads.end())
  {
    const AcrossRow none;
    across.resize(table.rows());
    std::vector<std::vector<double>> columns;
    visit_across(none,
                 [&](const std::string &head, double)
                 {
                   // Runs of earlier versions have no shifts.
                   const bool there =
                       std::find(heads.begin(), heads.end(), head) != heads.end() ||
                       head.find(" shift [mm]") == std::string::npos;
                   columns.push_back(there ? table.numbers(head)
                                           : std::vector<double>(table.rows(), 0.));
                 });
    for (std::size_t i = 0; i < across.size(); ++i)
    {
      std::size_t k = 0;
      visit_across(across[i],
                   [&](const char *, double &value) { value = columns[k++][i]; });
    }
  }

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
    row.zone           = zone_of(zones[i]);
    row.triaxiality    = triaxials[i];
    if (!across.empty())
      row.across = across[i];
    shots.back().rows.push_back(row);
  }
  return shots;
}
} // namespace

std::vector<SurfaceShot> read_surface_record(const std::filesystem::path &file)
{
  try
  {
    return surface_shots(CsvTable::read(file));
  }
  catch (const InputError &error)
  {
    throw InputError(named_once(file, error.what()) + " Push the case again.");
  }
}
} // namespace throughbend
