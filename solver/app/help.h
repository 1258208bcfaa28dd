#pragma once
// What `--help` shows.

#include <string>

namespace throughbend
{
std::string program_help();
} // namespace throughbend
