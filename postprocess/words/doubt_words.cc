#include "postprocess/words/doubt_words.h"

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

std::string low_accuracy_words(const double passes)
{
  return fmt::format(
      "{:.0f} of the passes with a finding are of low accuracy: their forces "
      "and strains are doubted, and none of them counts as sound. A finer "
      "mesh may help.",
      passes);
}

std::string close_words(const double passes)
{
  return fmt::format("{:.0f} of the passes are close: the ripple or the numerical error of "
                     "force or travel could turn them, and the shares below by as many.",
                     passes);
}
} // namespace throughbend
