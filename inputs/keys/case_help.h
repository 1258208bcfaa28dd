#pragma once
// All keys of a case for --help and the manual, made from the option table.

#include <string>

namespace throughbend
{
/// Per section every key with its units, range, default and a line of help.
std::string help_text();
} // namespace throughbend
