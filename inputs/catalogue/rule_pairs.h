#pragma once
// Rows of one rule that a standard prints twice, in inch and ksi and in mm and MPa, told of
// each other: the first US row goes with the first metric one, and so on.

#include "inputs/catalogue/rule_catalogue.h"

#include <initializer_list>
#include <map>
#include <string>
#include <vector>

namespace throughbend
{
/// Pairs the given ranges of all rows. Rules whose rows do not pair off are left as they
/// are but for strengths, which go by custom.
template <class Row>
void pair_families(std::vector<Row>                             &rows,
                   const std::initializer_list<RangeCell Row::*> cells)
{
  std::map<std::string, std::vector<Row *>> us, metric;
  for (Row &row : rows)
  {
    if (row.units == RuleUnits::us)
      us[row.rule].push_back(&row);
    if (row.units == RuleUnits::metric)
      metric[row.rule].push_back(&row);
    for (RangeCell Row::*cell : cells)
      pair_by_custom(row.*cell);
  }
  for (auto &[rule, in_us] : us)
  {
    std::vector<Row *> &in_metric = metric[rule];
    if (in_us.size() != in_metric.size())
      continue;
    for (std::size_t i = 0; i < in_us.size(); ++i)
      for (RangeCell Row::*cell : cells)
      {
        RangeCell &a = in_us[i]->*cell, &b = in_metric[i]->*cell;
        if (!a.given() || !b.given())
          continue;
        pair_with(a, b.range, b.text);
        pair_with(b, a.range, a.text);
      }
  }
}
} // namespace throughbend
