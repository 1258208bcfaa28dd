#include "solver/record/travel_record.h"

#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "inputs/text/whole_file.h"
#include "solver/outcome/force_course.h"

#include <cmath>

namespace throughbend
{
namespace
{
/// The one list of columns. `visit(head, field)` sees every field of the sample in the
/// order of the file; heads, rows and reading back all come from here.
template <typename Sample, typename Visit>
void for_each_column(Sample &sample, Visit visit)
{
  visit("step", sample.step);
  visit("kind", sample.kind);
  visit("travel [mm]", sample.travel);
  visit("ram force [N]", sample.ram_force);
  visit("smooth ram force [N]", sample.smooth_force);
  visit("ram force ripple [-]", sample.ripple);
  visit("crown strain [-]", sample.crown_strain);
  visit("outer strain [-]", sample.outer_strain);
  visit("outer strain at [mm]", sample.outer_strain_at);
  visit("plastic strain [-]", sample.plastic_strain);
  visit("plastic strain at points [-]", sample.point_plastic_strain);
  visit("concave plastic strain [-]", sample.concave_plastic_strain);
  visit("left leg angle [deg]", sample.left.angle);
  visit("right leg angle [deg]", sample.right.angle);
  visit("left tip x [mm]", sample.left.tip_x);
  visit("left tip y [mm]", sample.left.tip_y);
  visit("right tip x [mm]", sample.right.tip_x);
  visit("right tip y [mm]", sample.right.tip_y);
  visit("nose gap [mm]", sample.nose_gap);
  visit("wrap [deg]", sample.wrap);
  visit("walk [mm]", sample.walk);
  visit("tilt [deg]", sample.tilt);
  for (auto &tool : sample.tools)
  {
    const std::string &name = tool_name(tool.place);
    visit(name + " force x [N]", tool.force_x);
    visit(name + " force y [N]", tool.force_y);
    visit(name + " normal force [N]", tool.normal);
    visit(name + " slipping share [-]", tool.slipping);
    visit(name + " pressure [MPa]", tool.pressure);
    visit(name + " line load [N/mm]", tool.line_load);
    visit(name + " patch length [mm]", tool.patch_length);
    visit(name + " patch pressure [MPa]", tool.patch_pressure);
    visit(name + " smoothed pressure [MPa]", tool.smoothed_pressure);
    visit(name + " normal force from below [N]", tool.from_below);
    visit(name + " longest face over radius [-]", tool.face_over_radius);
  }
  visit("ram work [N mm]", sample.energy.ram_work);
  visit("elastic energy [N mm]", sample.energy.elastic);
  visit("plastic work [N mm]", sample.energy.plastic);
  visit("friction work [N mm]", sample.energy.friction);
  visit("contact spring energy [N mm]", sample.energy.contact);
  visit("regularisation work [N mm]", sample.energy.regularisation);
  visit("released energy [N mm]", sample.energy.released);
  visit("energy error [-]", sample.energy.error);
  visit("equilibrium error [-]", sample.equilibrium_error);
  visit("penetration [mm]", sample.penetration);
  visit("iterations", sample.iterations);
  visit("refusals", sample.refusals);
}

std::string cell(const double value)
{
  return number_text(value);
}
std::string cell(const int value)
{
  return std::to_string(value);
}
std::string cell(const StepKind kind)
{
  return to_text(kind);
}

void take(const std::string &word, double &field)
{
  field = number_of(word);
}

void take(const std::string &word, int &field)
{
  const double value = number_of(word);
  if (value != std::floor(value) || std::abs(value) > 2e9)
    throw InputError(quoted_text(word) + " is not a whole number");
  field = static_cast<int>(value);
}

void take(const std::string &word, StepKind &field)
{
  for (const StepKind kind : {StepKind::push, StepKind::relax, StepKind::release})
    if (word == to_text(kind))
    {
      field = kind;
      return;
    }
  throw InputError(quoted_text(word) + " is none of push, relax, release");
}

std::string row_of(const PassSample &sample)
{
  std::vector<std::string> cells;
  for_each_column(sample, [&](const std::string &, const auto &field)
                  { cells.push_back(cell(field)); });
  return csv_line(cells);
}
} // namespace

std::vector<std::string> travel_heads()
{
  std::vector<std::string> heads;
  const PassSample         sample;
  for_each_column(sample,
                  [&](const std::string &head, const auto &) { heads.push_back(head); });
  return heads;
}

TravelRecord::TravelRecord(const std::filesystem::path &file)
    : out_(file, GrowingFile::Start::anew)
{
  out_.put(csv_line(travel_heads()));
}

void TravelRecord::add(const PassSample &sample)
{
  out_.put(row_of(sample));
}

void TravelRecord::finish(const PassSetup &setup)
{
  // What is on the disk is the whole record, also of a pass that was taken up again.
  std::vector<PassSample> samples = read_travel_record(out_.file());
  mark_course(setup, samples);
  std::string text = csv_line(travel_heads());
  for (const PassSample &sample : samples)
    text += row_of(sample);
  out_.close();
  write_whole_file(out_.file(), text);
}

std::vector<PassSample> read_travel_record(const std::filesystem::path &file)
{
  try
  {
    return travel_samples(CsvTable::read(file));
  }
  catch (const InputError &error)
  {
    throw InputError(named_once(file, error.what()) +
                     " It is none of this version, or was edited by hand. Push the case "
                     "again.");
  }
}

std::vector<PassSample> travel_samples(const CsvTable &table)
{
  std::vector<std::size_t> places;
  for (const std::string &head : travel_heads())
    places.push_back(table.index_of(head));

  std::vector<PassSample> samples;
  for (std::size_t row = 0; row < table.rows(); ++row)
  {
    PassSample sample;
    auto       place = places.begin();
    for_each_column(sample,
                    [&](const std::string &head, auto &field)
                    {
                      try
                      {
                        take(table.row(row)[*place++], field);
                      }
                      catch (const InputError &error)
                      {
                        throw InputError("column '" + head + "', row " +
                                         std::to_string(row + 1) + ": " + error.what() +
                                         ".");
                      }
                    });
    samples.push_back(sample);
  }
  return samples;
}
} // namespace throughbend
