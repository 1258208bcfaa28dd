#include "solver/outcome/evidence.h"

#include "inputs/units/display_units.h"

namespace throughbend
{
Evidence &Evidence::operator<<(const std::string &words)
{
  pieces_.push_back({Measure::words, 0, words});
  return *this;
}

Evidence &Evidence::operator<<(const Evidence &more)
{
  const std::vector<Piece> added = more.pieces_; // more may be this
  pieces_.insert(pieces_.end(), added.begin(), added.end());
  return *this;
}

Evidence &Evidence::add(const Measure measure, const double value)
{
  pieces_.push_back({measure, value, ""});
  return *this;
}

std::string Evidence::text(const UnitSystem units) const
{
  std::string text;
  for (const Piece &piece : pieces_)
    switch (piece.measure)
    {
    case Measure::words:
      text += piece.words;
      break;
    case Measure::length:
      text += length_text(piece.value, units);
      break;
    case Measure::room:
      text += fine_length_text(piece.value, units);
      break;
    case Measure::force:
      text += force_text(piece.value, units);
      break;
    case Measure::force_rise:
      text += force_rise_text(piece.value, units);
      break;
    case Measure::pressure:
      text += stress_text(piece.value, units);
      break;
    case Measure::angle:
      text += angle_text(piece.value);
      break;
    }
  return text;
}
} // namespace throughbend
