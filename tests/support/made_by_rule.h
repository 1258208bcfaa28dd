#pragma once
// Fixtures by the built-in rules, for tests: thickness [mm], yield [MPa], elongation [-].

#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/catalogue/fixture_by_rule.h"

#include <string>
#include <vector>

namespace throughbend
{
inline std::vector<RuleFixture> ways(const std::string &rule, double thickness,
                                     double yield = 0, double elongation = 0)
{
  RuleRequest request;
  request.thickness  = thickness;
  request.yield      = yield;
  request.elongation = elongation;
  return fixtures_by_rule(built_in_rules(), rule, request);
}

inline RuleFixture made(const std::string &rule, double thickness, double yield = 0,
                        double elongation = 0)
{
  return ways(rule, thickness, yield, elongation).front();
}
} // namespace throughbend
