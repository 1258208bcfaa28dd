#pragma once
// Which plates of the catalogue may be bent on a fixture, and what keeps the others off:
// the rule that the fixture follows, the ram, the metal's own elongation, or that nobody
// knows it. What is not known is never cleared. Electrodes and heat-affected zones are in
// no list: a coupon is cut from neither. A catalogue's yield is often the least that a
// standard asks for; the plate's certificate decides.

#include "inputs/catalogue/rule_choice.h"
#include "solver/limits/case_limits.h"

#include <string>
#include <vector>

namespace throughbend
{
struct CardMetals
{
  std::vector<Material>    cleared;
  std::vector<std::string> taken; ///< names of grades: those that are cleared
  /// Of those that are cleared: stretched at a point by more than their elongation, as far
  /// as check can tell. Whether the point tears is not known.
  std::vector<std::string> at_a_point;
  /// Upper end of the stretch of a point, over those that are cleared [-]; 0: none is;
  /// infinite: no upper end is known.
  double                   most_at_a_point = 0;
  std::vector<std::string> not_known;  ///< elongation not in the catalogue
  std::vector<std::string> by_group;   ///< the rule goes by groups that no figure tells
  std::vector<std::string> by_rule;    ///< not for this plunger
  std::vector<std::string> by_ram;     ///< the ram does not bend them with a margin
  std::vector<std::string> by_stretch; ///< break before they are bent
};

/// Of the plates of the built-in catalogue, the invented metals of examples left out. Needs
/// the limits of thickness and length only.
CardMetals card_metals(const CaseLimits &limits);

/// As a rule is asked about it.
RuleMetal metal_of_case(const Material &material, double thickness);

/// A line of the screening's stretch that keeps a metal off the card: `no`, or a nominal
/// stretch that is more than what the metal bears, which for a flat nose is only `close`.
bool refuses_stretch(const ScreenLine &line);

/// Whether check says nothing against the stretch: no line of it refuses.
bool bears_stretch(const Case &c, const ForceBand &band);

/// Upper end of the stretch of a point of the convex face [-]; infinite: not known.
double stretch_of_a_point(const Case &c, const ForceBand &band);

/// Both steels, or both aluminium, by Young's modulus.
bool same_kind(const Material &a, const Material &b);
std::string
kind_text(const Material &material); ///< `steel`, `aluminium`, `metal of its kind`
} // namespace throughbend
