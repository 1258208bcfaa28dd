#include "postprocess/app/limit_order.h"

#include "inputs/text/input_error.h"

namespace throughbend
{
LimitOrder limit_order(const VerbArguments &given)
{
  LimitOrder order;
  order.study                           = study_order(given, "limit");
  const std::vector<std::string> keys   = given.values("vary");
  const std::vector<std::string> from   = given.values("from");
  const std::vector<std::string> to     = given.values("to");
  const std::vector<std::string> within = given.values("within");
  if (keys.empty())
    throw InputError("limit needs a key to vary: --vary coupon.thickness --from \"9 mm\" "
                     "--to \"14 mm\"");
  if (from.size() != keys.size() || to.size() != keys.size())
    throw InputError("each --vary needs its own --from and --to.");
  if (!within.empty() && within.size() != keys.size())
    throw InputError("--within is given for each --vary, or for none.");
  for (std::size_t i = 0; i < keys.size(); ++i)
  {
    for (const LimitOrder::Vary &other : order.vary)
      if (other.key == keys[i])
        throw InputError("--vary " + keys[i] + " is given twice.");
    order.vary.push_back({keys[i], from[i], to[i], within.empty() ? "" : within[i]});
  }
  if (given.has("until"))
    order.until = given.value("until");
  if (given.has("scan"))
  {
    order.scan = given_count(given.value("scan"), "--scan");
    if (order.scan < 2 || order.scan > 200)
      throw InputError("--scan takes 2 to 200.");
  }
  if (order.study.part)
    throw InputError("--part needs passes that are known in advance. In a limit study "
                     "each pass depends on the ones before. Use mpirun, or make a map.");
  return order;
}
} // namespace throughbend
