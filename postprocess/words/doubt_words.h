#pragma once
// Sentences on what is not known of several passes at once, for the terminal and for pages.

#include <string>

namespace throughbend
{
/// Of sound passes whose metal states no limit, or not one for all of its zones.
std::string metal_not_known_words(double passes);

/// Of passes whose figures are doubted.
std::string low_accuracy_words(double passes);

/// Of passes whose finding ripple or numerical error could turn.
std::string close_words(double passes);
} // namespace throughbend
