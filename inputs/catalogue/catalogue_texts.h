#pragma once
// The tables of inputs/catalogue as they stood when the program was built. Their source is
// made by cmake/embed_texts.cmake; what they mean is read elsewhere.

#include <string_view>

namespace throughbend
{
std::string_view fixture_rules_csv();
std::string_view coupon_rules_csv();
std::string_view surface_limits_csv();
std::string_view materials_csv();
std::string_view lubricants_csv();
std::string_view strength_spreads_csv();
} // namespace throughbend
