#pragma once
// Whether the figures of a pass can be relied on, judged by what its own record shows. No
// mesh: everything is read off samples.

#include "solver/outcome/evidence.h"
#include "solver/outcome/pass_sample.h"
#include "solver/setup/pass_setup.h"

#include <cstddef>
#include <string>
#include <vector>

namespace throughbend
{
enum class Trust
{
  sound, ///< nothing in the record speaks against it
  low,   ///< the finding holds, figures may be off by several per cent
  broken ///< the record contradicts itself, or has strains that no metal bears: no finding
         ///< may rest on it
};
std::string to_text(Trust trust); ///< "sound", "low", "broken"

struct Accuracy
{
  Trust                 trust = Trust::sound;
  std::vector<Evidence> reasons; ///< each a clause, "energy error 2.1 %"; worst first
  std::size_t breaking = 0; ///< of the reasons, the first ones: those that break the record
  bool        overstrained = false; ///< they are strains, all of them

  std::string text(UnitSystem units) const; ///< the reasons, joined by "; "
};

/// Whether a push loses nearly all force, from `force_before` to `force` [N], while its
/// higher end is still up at `highest_tip` [mm]: nothing that the coupon can do slowly.
/// `largest` = largest force before [N].
bool loses_contact(const PassSetup &setup, double largest, double force_before,
                   double force, double highest_tip);

/// Thresholds, low / broken:
/// - energy error: 1 % / 5 % of the ram's work in all the pass,
/// - tool forces that don't balance, in pushes: 2 % / 10 % of the largest ram force,
/// - penetration: 0.5 % / 5 % of the thickness,
/// - largest log strain on the convex face: 1 / 2; plastic strain anywhere: 2 / 4,
/// - length of a face over the tool radius that it lies on: 1 (frame's edge: 4) / never;
/// not
///   where the tool bears less than a hundredth of the largest ram force, as where the long
///   cells of a straight leg slide past,
/// - ram force beyond its limit: 2 % / 20 %,
/// - ripple of the ram force about its smooth course: 3 % of the local mean / 25 % of the
///   largest force. The default mesh is laid out for 2 %; ripple comes with a mean that is
///   off by as much. Where it is a quarter of the largest force, the peak can't be told
///   from ripple; late in a pass, at little force, it turns no finding,
/// - a mesh coarser than its level asks, because it had to be or by hand: low,
/// - contact lost within one push, from over a fifth of the largest force to less than a
///   hundredth, while an end is still up: broken.
/// `limit` [N]: the ram force that was not to be passed.
Accuracy accuracy(const PassSetup &setup, const std::vector<PassSample> &samples,
                  double limit);
} // namespace throughbend
