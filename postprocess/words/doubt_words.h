#pragma once
// Sentences on the metal of several passes at once, for the terminal and for pages.

#include <string>

namespace throughbend
{
/// Of sound passes whose metal states no limit, or not one for all of its zones.
std::string metal_not_known_words(double passes);
} // namespace throughbend
