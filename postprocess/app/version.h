#pragma once
// Which program this is. The definitions are written at every build (cmake/revision.cmake).

#include <string>

namespace throughbend
{
std::string program_version(); ///< as in 0.1.0

/// Revision of the checkout it was built from, with `-dirty` when files differed from it;
/// empty without one.
std::string git_revision();
} // namespace throughbend
