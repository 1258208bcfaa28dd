#pragma once
// The catalogues as lists for the terminal: rules, metals, lubricants, each row with what
// it is good for and how its figures were obtained.

#include "inputs/catalogue/coupon_rules.h"
#include "inputs/catalogue/lubricant_catalogue.h"
#include "inputs/catalogue/rule_catalogue.h"
#include "inputs/keys/material_catalogue.h"

#include <string>

namespace throughbend
{
/// Fixture rules, coupon rules and limits of open defects, one line or two for each.
std::string rules_text(const RuleCatalogue &rules, const std::vector<CouponRule> &coupons,
                       const std::vector<SurfaceLimit> &limits);

/// All metals, one line each.
std::string materials_text(const MaterialCatalogue &catalogue, UnitSystem units);
/// One metal in full: figures, flow curve, source, notes.
std::string material_text(const MaterialRow &row, UnitSystem units);

std::string lubricants_text(const LubricantCatalogue &catalogue);
} // namespace throughbend
