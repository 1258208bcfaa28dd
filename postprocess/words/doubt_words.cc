#include "postprocess/words/metal_words.h"

#include <fmt/core.h>

namespace throughbend
{
std::string metal_not_known_words(const double passes)
{
  return fmt::format(
      "The metal is NOT cleared: of {:.0f} passes that went through, whether "
      "it bears its stretch is not known.",
      passes);
}
} // namespace throughbend
