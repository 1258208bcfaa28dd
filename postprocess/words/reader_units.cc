#include "postprocess/words/reader_units.h"

#include "inputs/units/exact_units.h"

namespace throughbend
{
std::string ReaderUnits::both(const double value,
                              std::string (*text)(double, UnitSystem)) const
{
  return text(value, first_) + " (" + text(value, second()) + ")";
}

std::string ReaderUnits::length(const double millimetres) const
{
  return both(millimetres, length_text);
}

std::string ReaderUnits::force(const double newtons) const
{
  return both(newtons, force_text);
}

ReaderUnits::Scale ReaderUnits::scale(const char *metric_unit, const double metric_factor,
                                      const char *us_unit, const double us_factor) const
{
  if (first_ == UnitSystem::metric)
    return {metric_unit, us_unit, metric_factor, us_factor / metric_factor};
  return {us_unit, metric_unit, us_factor, metric_factor / us_factor};
}

ReaderUnits::Scale ReaderUnits::length_scale() const
{
  return scale("mm", 1, "in", 1 / mm_per_inch);
}

ReaderUnits::Scale ReaderUnits::force_scale() const
{
  return scale("kN", 1e-3, "kip", 1 / n_per_kip);
}

ReaderUnits::Scale ReaderUnits::stress_scale() const
{
  return scale("MPa", 1, "ksi", 1 / mpa_per_ksi);
}
} // namespace throughbend
