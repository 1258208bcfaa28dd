#include "postprocess/words/caution.h"

namespace throughbend
{
std::string caution_text()
{
  return "Caution: a coupon under load can fly out: guard the fixture, stand clear, wear "
         "eye protection.\n"
         "Never go beyond the rated force or stroke of the jack, whatever is computed "
         "here.\n"
         "These are estimates, not an acceptance: the governing code and licensed practice "
         "decide.\n";
}
} // namespace throughbend
