#include "postprocess/app/map_order.h"

#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"

namespace throughbend
{
namespace
{
GivenLevels given_levels(const std::string &option, const std::string &text)
{
  const std::string form = option + " needs KEY=FROM..TO/N or KEY=A,B,C, as in " + option +
                           " coupon.thickness=\"9 mm..14 mm/12\"";
  const std::size_t is = text.find('=');
  if (is == std::string::npos || is == 0)
    throw InputError(form + ".");
  GivenLevels       stated{option, text.substr(0, is), {}};
  const std::string levels = text.substr(is + 1);
  const std::size_t dots   = levels.find("..");
  if (dots != std::string::npos)
  {
    // The last one: a value may be 1/2 in.
    const std::size_t slash = levels.rfind('/');
    if (slash == std::string::npos || slash < dots)
      throw InputError(form + ": the number of levels is missing.");
    stated.list = {std::string(trimmed(levels.substr(0, dots))),
                   std::string(trimmed(levels.substr(dots + 2, slash - dots - 2)))};
    stated.even = given_count(std::string(trimmed(levels.substr(slash + 1))), option);
    if (stated.even < 2 || stated.even > 1000)
      throw InputError(option + ": 2 to 1000 levels.");
    return stated;
  }
  for (std::size_t at = 0; at <= levels.size();)
  {
    const std::size_t comma = std::min(levels.find(',', at), levels.size());
    stated.list.push_back(std::string(trimmed(levels.substr(at, comma - at))));
    at = comma + 1;
  }
  for (const std::string &level : stated.list)
    if (level.empty())
      throw InputError(form + ": a level is empty.");
  return stated;
}
} // namespace

MapOrder map_order(const VerbArguments &given)
{
  MapOrder order;
  order.study = study_order(given, "map");
  for (const char *name : {"along", "across", "sheets"})
    if (given.has(name))
      order.levels.push_back(given_levels(std::string("--") + name, given.value(name)));
  if (!given.has("along"))
    throw InputError("map needs a key with its levels: --along coupon.thickness=\"9 mm..14 "
                     "mm/12\"");
  if (given.has("sheets") && !given.has("across"))
    throw InputError("--sheets is a third key: give the second one with --across.");
  for (std::size_t i = 0; i < order.levels.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (order.levels[i].key == order.levels[j].key)
        throw InputError("the key " + order.levels[i].key + " is given twice.");
  if (given.has("refine"))
    order.fill = MapFill::borders;
  if (order.study.part && order.fill == MapFill::borders)
    throw InputError("--part needs passes that are known in advance. With --refine they "
                     "are not. Leave out --refine, or use mpirun.");
  return order;
}
} // namespace throughbend
