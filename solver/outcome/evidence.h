#pragma once
// Sentences that keep their numbers as numbers, so that a finding can be read in either
// family of units. Decides nothing; findings says what goes in.

#include "inputs/units/units.h"

#include <string>
#include <vector>

namespace throughbend
{
class Evidence
{
public:
  enum class Measure
  {
    words,      ///< no number
    length,     ///< [mm], to a tenth
    room,       ///< [mm], to a hundredth
    force,      ///< [N]
    force_rise, ///< [N/mm]
    pressure,   ///< [MPa]
    angle       ///< [deg]
  };

  Evidence() = default;
  explicit Evidence(const char *words) { *this << words; }

  Evidence &operator<<(const std::string &words);
  Evidence &operator<<(const Evidence &more);
  Evidence &add(Measure measure, double value);

  std::string text(UnitSystem units) const;
  bool        empty() const { return pieces_.empty(); }

  struct Piece
  {
    Measure     measure = Measure::words;
    double      value   = 0;
    std::string words;
  };
  const std::vector<Piece> &pieces() const { return pieces_; }

private:
  std::vector<Piece> pieces_;
};
} // namespace throughbend
