#pragma once
// Every key of a case, declared once: reading, --help, the starter, the effective case and
// the manual all come from this list. It reads no files and checks no key against another.

#include "inputs/case/option.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// All options, section by section, drivers before those that look at them.
const std::vector<Option> &option_table();

/// The option of a key such as `coupon.length`; nullptr if there is none.
const Option *find_option(std::string_view key);

/// The sections in the order of the table.
std::vector<std::string> option_sections();

/// The known key that a mistyped one was meant to be, if any is near.
std::optional<std::string> nearest_key(std::string_view key);
} // namespace throughbend
