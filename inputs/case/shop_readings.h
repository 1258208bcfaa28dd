#pragma once
// What a shop has read off one push: travel or pump strokes against force or gauge
// pressure, and what was measured on the bent coupon. Read from a shop's table and turned
// into travel and force with the jack's dimensions. Refuses what cannot be one push;
// the fit decides whether the readings suit a fixture.

#include "inputs/case/case.h"
#include "inputs/metal/shop_table.h"

#include <string>
#include <vector>

namespace throughbend
{
struct Reading
{
  double      travel = 0; ///< as read, the ruler's zero not taken off [mm]
  double      force  = 0; ///< as read, the gauge's zero not taken off [N]
  std::size_t line   = 0; ///< of the file
};

/// What may be measured at the end of the push or on the released coupon.
enum class EndKind
{
  leg_angle,  ///< of one leg against flat, mean of both, released [deg]
  bend_angle, ///< both legs together, released [deg]
  springback, ///< opening of one leg on release, mean of both [deg]
  nose_gap,   ///< largest gap under the nose at the end, still loaded [mm]
  elongation  ///< mean over the gauge length between marks about the weld [-]
};
std::string to_text(EndKind kind); ///< as in the readings' head: `leg angle`

struct EndReading
{
  EndKind     kind  = EndKind::leg_angle;
  double      value = 0; ///< [deg], [mm] or [-]
  double      error = 0; ///< one standard error of the reading, same unit
  std::size_t line  = 0;
};

enum class TravelFrom
{
  ruler,
  strokes ///< of the pump
};
enum class ForceFrom
{
  force,
  pressure ///< at the gauge
};

struct ShopReadings
{
  std::string file;
  /// In the order of the file, travel not descending. Without what was read while the legs
  /// only slid at the end.
  std::vector<Reading> push;
  TravelFrom           travel_from = TravelFrom::ruler;
  ForceFrom            force_from  = ForceFrom::force;
  std::string          travel_unit, force_unit; ///< of the heads; of force or of pressure
  double               travel_mark = 0; ///< the ruler's or one stroke's [mm]; 0: none seen
  double               force_mark  = 0; ///< the gauge's [N]; 0: none seen
  double               per_stroke  = 0; ///< travel of one pump stroke [mm]; 0: not known
  double               piston      = 0; ///< area of the jack's piston [mm^2]; 0: not known
  std::vector<EndReading>  ends;
  std::vector<std::string> remarks; ///< worth telling
};

constexpr std::size_t fewest_readings = 6;
/// More tell no more: neighbours on so dense a log are off the same way.
constexpr std::size_t most_readings = 1000;

/// Throws InputError that says what is wrong, where, and the cure.
ShopReadings shop_readings(const ShopTable &table, const Case &c);

/// Notation of the file, a few lines, for help.
std::string readings_notation();
} // namespace throughbend
