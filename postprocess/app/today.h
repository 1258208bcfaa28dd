#pragma once
// The date for papers that people file.

#include <string>

namespace throughbend
{
std::string today(); ///< of the machine's place: 2026-11-27
} // namespace throughbend
