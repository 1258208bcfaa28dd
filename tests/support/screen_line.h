#pragma once
// A line of check by its key; a test that asks for one that is not there fails.

#include "solver/screening/screening.h"

#include <catch2/catch.hpp>

#include <string>

namespace throughbend
{
/// `screening` must outlive what is returned.
inline const ScreenLine &line(const Screening &screening, const std::string &key)
{
  const ScreenLine *found = screening.find(key);
  INFO(key);
  REQUIRE(found != nullptr);
  return *found;
}
} // namespace throughbend
