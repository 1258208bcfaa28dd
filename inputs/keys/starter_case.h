#pragma once
// The two cases that `throughbend starter` prints: the full one explains every key, the
// short one has only the keys that a shop fills in. Both are the same pass, and both are
// made from the option table, so that they name no key that does not exist. The values are
// those of the training yard at Kestrel Haven, which is invented.

#include <string>

namespace throughbend
{
std::string starter_text();

/// About twenty lines. A word on each key stands behind its value.
std::string short_starter_text();
} // namespace throughbend
