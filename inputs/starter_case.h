#pragma once
// The commented case that `throughbend starter` prints, made from the option table, so that
// it can name no key that does not exist. The values are those of the training yard at
// Kestrel Haven, which is invented.

#include <string>

namespace throughbend
{
std::string starter_text();
} // namespace throughbend
