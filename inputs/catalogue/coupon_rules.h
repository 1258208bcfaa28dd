#pragma once
// What published rules say about the coupon itself and about open defects on its convex
// surface after the bend. To look up and compare only: the governing code, and those
// licensed to judge by it, decide whether a weld is accepted.

#include "inputs/catalogue/catalogue_sheet.h"
#include "inputs/catalogue/rule_catalogue.h"
#include "inputs/catalogue/rule_cells.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// One row; a rule may have several, by thickness, plate or pipe, in mm and in inch.
/// Letters: t coupon thickness, T plate or wall thickness, P outer diameter of the pipe, C
/// opening between the shoulders, R radius of shoulders or rollers.
struct CouponRule
{
  std::string   rule; ///< our name, as asme-ix-side-bend
  std::string   standard, edition, clause;
  std::string   bend; ///< side, face or root, any
  RuleUnits     units = RuleUnits::any;
  RangeCell     for_thickness, for_plate, for_pipe; ///< [mm]
  DimensionRule length, width, thickness, edge_radius;
  HowNotes      how;
  std::string   note;
  std::string   place;
};

/// Limits to what may be open on the convex surface.
struct SurfaceLimit
{
  std::string   rule; ///< our name, as asme-ix-open-defects
  std::string   standard, edition, clause;
  RuleUnits     units = RuleUnits::any;
  DimensionRule single;               ///< one discontinuity
  DimensionRule counted_from;         ///< size from which the sum counts it
  DimensionRule sum;                  ///< of those counted
  DimensionRule corner_crack;         ///< crack at a corner without a visible cause
  DimensionRule corner_crack_by_flaw; ///< with slag or lack of fusion in sight
  HowNotes      how;
  std::string   note;
  std::string   place;
};

struct CouponRuleReading
{
  std::vector<CouponRule>     rows;
  std::vector<CatalogueFault> faults;
};
CouponRuleReading read_coupon_rules(std::string_view text, const std::string &name);

struct SurfaceLimitReading
{
  std::vector<SurfaceLimit>   rows;
  std::vector<CatalogueFault> faults;
};
SurfaceLimitReading read_surface_limits(std::string_view text, const std::string &name);

const std::vector<CouponRule>   &built_in_coupon_rules();
const std::vector<SurfaceLimit> &built_in_surface_limits();

/// What a coupon rule is asked about [mm]; 0 = not known.
struct CouponRequest
{
  double                    thickness = 0; ///< of the coupon
  double                    plate     = 0; ///< thickness of the plate it is cut from
  double                    pipe      = 0; ///< outer diameter
  double                    opening   = 0; ///< between the shoulders
  double                    radius    = 0; ///< of shoulders or rollers
  std::optional<UnitSystem> units;         ///< none: by the thickness
};

/// The letters of a request, for the dimensions of a row.
Lengths letters_of(const CouponRequest &request);

/// The row of a rule for this coupon: of those that do not exclude it, the first in the
/// right units. Throws InputError for an unknown name, or if every row excludes it.
CouponRule coupon_by_rule(const std::vector<CouponRule> &rules, const std::string &name,
                          const CouponRequest &request);
} // namespace throughbend
